"""A marker in every field that is kept from others, and in every photo: none comes out by any way there is."""

import io
import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ExifTags, Image, ImageDraw
from PIL.PngImagePlugin import PngInfo

from daterun.exchange.csvtext import write_csv
from daterun.exchange.jsontext import write_json
from daterun.exchange.linked import write_linked
from daterun.exchange.outgoing import coins_for
from daterun.press.labelsheets import read_label_sheet
from daterun.press.plaintext import beside_pixels, is_picture
from daterun.press.typeset import Typesetter
from daterun.printing import Form, print_sheets
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.readers.table import TABLE, Access
from daterun.readers.withheld import gather_withheld
from daterun.records.coins import Coin
from daterun.site import build, check

BASE = Path(__file__).parent / "cases" / "base"
OTHERS = [Reader.PUBLIC, Reader.CLUB]

NOT_MARKED = {
    "Catalogue.lots": "the lots are marked field by field",
    "Coin.quantity": "a bare number",
    "Coin.acquired": "marked field by field",
    "Coin.parted": "marked field by field",
    "Coin.value": "marked field by field",
    "Coin.provenance": "marked field by field",
    "Coin.own_grades": "marked by their reasons",
    "Coin.certificates": "marked field by field",
    "Coin.lot": "the id of a lot",
    "Acquired.how": "a word of the program's own",
    "Acquired.exchanged_for": "the id of a coin, which stands in every grid",
    "Parted.how": "a word of the program's own",
    "Parted.exchanged_for": "the id of a coin, which stands in every grid",
    "Lot.how": "a word of the program's own",
    "Settings.readers": "what may be seen",
    "Settings.may_be_named": "what the keeper has allowed",
    "Settings.wants": "marked field by field",
    "Permissions.wants": "yes or no",
    "Permissions.certificate_numbers": "yes or no",
    "Want.slot": "every grid shows the gap",
}
"""The fields kept from others that bear no marker, each with the reason."""


class Marks:
    """Markers that no page holds by chance, given out by field; each is its own word, amount or day."""

    def __init__(self, seed: int) -> None:
        self.seed = seed
        self.given: dict[str, str] = {}

    def text(self, field: str) -> str:
        nth = len(self.given)
        letters = "".join(chr(97 + (self.seed // 26**place + nth * (place + 1)) % 26) for place in range(5))
        return self._give(field, f"Zq{nth}{letters} Vell{letters[::-1]}{nth}")

    def word(self, field: str) -> str:
        return self._give(field, self.text(field).replace(" ", "-").lower())

    def amount(self, field: str) -> str:
        return self._give(
            field, f"{1000 + (self.seed * 37 + len(self.given) * 111) % 9000}.{23 + len(self.given)}"
        )

    def day(self, field: str) -> str:
        nth = len(self.given)
        return self._give(field, f"19{40 + nth % 40}-{1 + nth % 12:02}-{1 + (self.seed + nth) % 28:02}")

    def _give(self, field: str, value: str) -> str:
        self.given[field] = value
        return value


def lay_out(root: Path, marks: Marks, with_wants: bool) -> None:
    """Write a catalogue with a marker in every field that is kept from others, and photos full of them."""
    text, amount, day = marks.text, marks.amount, marks.day
    photo = f"{marks.word('NamedPhoto.file')}.jpg"
    files = {path.relative_to(BASE).as_posix(): path.read_text("utf-8") for path in BASE.rglob("*.yaml")}
    files["content/catalogue.yaml"] = f"""
title: Cabinet
currency: VKR
web: https://example.org/coins/
pictures: {{format: {("jpeg", "webp")[marks.seed % 2]}, widths: [300, 100]}}
readers: {{public: {{wants: {"yes" if with_wants else "no"}}}}}
aims: [{{id: all, name: All, series: [ort], leave out: {{ort: {{1892: {text("Aim.leave_out")}}}}}}}]
wants: [{{slot: ort 1897, at most: {amount("Want.at_most")} VKR, remark: {text("Want.remark")}}}]
"""
    files["content/coins/held.md"] = f"""---
series: ort
date: 1891
grades: [{{grade: VF30}}, {{grade: EF45}}]
certificates:
  - {{by: North Pier Grading, grade: AU55, number: {text("Certificate.number")}, on: 1995-01-01}}
set: {marks.word("Coin.set")}
acquired: {{on: {day("Acquired.on")}, from: {text("Acquired.source")}, how: bought,
  price: {amount("Acquired.price")} VKR, note: {text("Acquired.note")}}}
provenance:
  - {{owner: {text("Owner.owner")}, since: {day("Owner.since")}, until: {day("Owner.until")},
     sale: {text("Owner.sale")}, lot: {text("Owner.lot")}, note: {text("Owner.note")}}}
kept: {text("Coin.kept")}
value: {{amount: {amount("Value.amount")} VKR, on: {day("Value.on")}, basis: {text("Value.basis")}}}
private: {text("Coin.private")}
photos: {{obverse: {photo}}}
---
Sharp lettering.
"""
    files["content/coins/left.md"] = f"""---
series: ort
date: 1900
parted: {{on: {day("Parted.on")}, to: {text("Parted.to")}, how: sold, price: {amount("Parted.price")} VKR}}
---
{text("notes of a coin that left")}
"""
    files["content/coins/one.md"] = "---\nseries: ort\ndate: 1900\nlot: hoard\n---\n"
    files["content/coins/two.md"] = "---\nseries: ort\ndate: 1900\nlot: hoard\n---\n"
    one, two = amount("Lot.shares"), amount("the other share")
    whole = marks._give("Lot.price", f"{float(one) + float(two):.2f}")
    hoard = marks.word("Lot.id")
    for each in ("one", "two"):
        files[f"content/coins/{each}.md"] = f"---\nseries: ort\ndate: 1900\nlot: {hoard}\n---\n"
    files[f"content/lots/{hoard}.yaml"] = f"""
name: {text("Lot.name")}
on: {day("Lot.on")}
from: {text("Lot.source")}
price: {whole} VKR
share: {{one: {one} VKR, two: {two} VKR}}
note: {text("Lot.note")}
"""
    files["content/pages/on-orts.md"] = "---\ntitle: On orts\n---\n[[held both]]\n"
    for name, content in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")
    photos = root / "content/photos"
    photos.mkdir()
    (photos / photo).write_bytes(photograph(marks, "JPEG"))
    (photos / "held.reverse.png").write_bytes(photograph(marks, "PNG"))
    (photos / "one.obverse.webp").write_bytes(photograph(marks, "WEBP"))


def photograph(marks: Marks, picture_format: str) -> bytes:
    """Make a photo whose metadata, of every sort that its form has, hold markers."""
    image = Image.new("RGB", (500, 500), "white")
    tone = {"JPEG": "grey", "PNG": "brown", "WEBP": "olive"}[picture_format]
    ImageDraw.Draw(image).ellipse((60, 60, 440, 440), fill=tone)
    exif = Image.Exif()
    for tag in (
        ExifTags.Base.Artist,
        ExifTags.Base.ImageDescription,
        ExifTags.Base.Make,
        ExifTags.Base.Copyright,
    ):
        exif[tag] = marks.text(f"{picture_format} {tag.name}")
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.UserComment] = marks.text(
        f"{picture_format} comment"
    ).encode()
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSAreaInformation] = marks.text(
        f"{picture_format} place"
    ).encode()
    kept = {"exif": exif, "xmp": f"<x>{marks.text(f'{picture_format} XMP')}</x>".encode()}
    if picture_format == "JPEG":
        kept["comment"] = marks.text("JPEG remark").encode()
    if picture_format == "PNG":
        kept.pop("xmp")
        kept["pnginfo"] = PngInfo()
        kept["pnginfo"].add_text("Author", marks.text("PNG author"))
        kept["pnginfo"].add_itxt("XML:com.adobe.xmp", marks.text("PNG XMP"))
    out = io.BytesIO()
    image.save(out, picture_format, **kept)
    return out.getvalue() + marks.text(f"{picture_format} tail").encode()


def forms_of(marker: str) -> list[str]:
    """The ways in which a marker may be written down, in small letters."""
    plain = marker.casefold()
    return [plain, plain.replace(" ", "-"), plain.replace(" ", "%20"), plain.replace(" ", "+")]


def leaks(marks: Marks, whole: str, allowed: tuple[str, ...] = ()) -> list[str]:
    return [
        field
        for field, marker in marks.given.items()
        if field not in allowed and any(each in whole for each in forms_of(marker))
    ]


def told(edition: Path) -> str:
    return "\n".join(
        f"{path.relative_to(edition)}\n{path.read_bytes().decode('utf-8', 'replace')}"
        for path in sorted(edition.rglob("*"))
        if path.is_file()
    ).casefold()


def test_every_field_kept_from_others_bears_a_marker_or_has_a_reason(tmp_path):
    marks = Marks(4711)
    lay_out(tmp_path, marks, False)
    hidden = {
        f"{kind.__name__}.{name}"
        for kind, fields in TABLE.items()
        for name, access in fields.items()
        if access not in (Access.EVERYONE, Access.NOT_A_FACT)
    }
    # An owner who is not to be published has no public field.
    hidden |= {f"Owner.{each}" for each in ("owner", "since", "until", "sale", "lot", "note")}
    assert sorted(hidden - marks.given.keys() - NOT_MARKED.keys()) == []
    assert sorted(NOT_MARKED.keys() - hidden) == []


@settings(max_examples=6)
@given(seed=st.integers(0, 10**8), reader=st.sampled_from(OTHERS), with_wants=st.booleans())
def test_no_marker_comes_out_in_pages_pictures_data_or_names(seed, reader, with_wants):
    marks = Marks(seed)
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        lay_out(root, marks, with_wants)
        result = build(root, reader)
        assert [each.sentence for each in result.problems if each.is_error] == []
        assert leaks(marks, told(result.output)) == []
        pictures = [each for each in result.output.rglob("*") if is_picture(each.name)]
        assert len(pictures) >= 6
        assert {beside_pixels(each.read_bytes()) for each in pictures} == {b""}


@settings(max_examples=4)
@given(seed=st.integers(0, 10**8), reader=st.sampled_from(OTHERS))
def test_no_marker_comes_out_in_an_export(seed, reader):
    marks = Marks(seed)
    with tempfile.TemporaryDirectory() as folder:
        lay_out(Path(folder), marks, True)
        checked = check(Path(folder))
        closed = close_catalogue(checked.catalogue, checked.photos, reader)
        coins = coins_for(checked.catalogue, closed)
        for data in (
            write_csv(coins),
            write_json(checked.catalogue, closed, coins, {}),
            write_linked(closed, {}),
        ):
            assert b"held" in data
            assert leaks(marks, data.decode("utf-8").casefold()) == []


@pytest.mark.parametrize("what", ["catalogue", "wants", "labels"])
@pytest.mark.parametrize("reader", OTHERS)
def test_no_marker_is_handed_to_the_engine_that_prints(tmp_path, monkeypatch, what, reader):
    marks, handed = Marks(815), []
    lay_out(tmp_path, marks, True)
    whole = Typesetter.set

    def note(self, which, data, *more, **named):
        handed.append(json.dumps(data, ensure_ascii=False))
        return whole(self, which, data, *more, **named)

    monkeypatch.setattr(Typesetter, "set", note)
    result = print_sheets(tmp_path, what, reader, form=Form(labels=read_label_sheet("medium", "a4")))
    assert not result.has_errors
    assert handed
    assert leaks(marks, "\n".join(handed).casefold()) == []
    assert leaks(marks, told(tmp_path / "output" / reader.value)) == []


def test_the_markers_are_in_what_the_keeper_reads(tmp_path):
    marks = Marks(99)
    lay_out(tmp_path, marks, True)
    whole = told(build(tmp_path, Reader.KEEPER).output)
    fields = [each for each in marks.given if each.startswith(("Coin.k", "Coin.p", "Acquired.s", "Value.b"))]
    assert len(fields) == 4
    assert leaks(marks, whole, tuple(marks.given.keys() - set(fields))) == fields


@pytest.mark.parametrize("reader", OTHERS)
def test_every_marker_of_a_text_is_sought(tmp_path, reader):
    marks = Marks(7)
    lay_out(tmp_path, marks, False)
    checked = check(tmp_path)
    sought = {str(each.value) for each in gather_withheld(checked.catalogue, checked.photos, reader)}
    texts = {
        field: value
        for field, value in marks.given.items()
        if "." in field and field != "Lot.id" and value[:1] == "Z" and field.split(".")[0] != Coin.__name__
    }
    assert [field for field, value in texts.items() if value not in sought] == []
