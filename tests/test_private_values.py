"""Nothing private is published: whole builds of catalogues in which every private field holds a marker."""

import io
import json
import re
import tempfile
from pathlib import Path
from string import Template

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.records.coins import CoinKind, Strike
from daterun.records.ownership import How
from daterun.site import build
from daterun.standing import bring_up_to_date
from daterun.trade.gradewords import known_words
from daterun.trade.grading import NO_PROBLEMS, PROBLEM_REASONS
from daterun.trade.scales import STEPS

NAMES = [
    *("seller", "remark", "kept", "basis", "private", "set", "buyer", "owner", "sale", "owner_lot"),
    *("owner_note", "number", "why", "want_remark", "lot_name", "lot_seller", "lot_note"),
    *("parted_notes", "parted_design", "old_by"),
]
AMOUNTS = ["price", "value", "received", "most", "lot_price"]
DAYS = ["bought", "valued", "left", "lot_day"]

BASE = Path(__file__).parent / "cases" / "base"

FILES = {
    "content/catalogue.yaml": """
title: Cabinet
currency: VKR
web: https://example.org/coins/
$named
aims: [{id: all, name: All, series: [ort], leave out: {ort: {1892: $why}}}]
wants: [{slot: ort 1897, at most: $most VKR, remark: $want_remark}]
""",
    "content/coins/held.md": """---
series: ort
date: 1891
grades: [{grade: VF30}, {grade: EF45}]
certificates:
  - {by: $old_by, grade: AU50, number: 7, on: 1990-01-01, sealed: no}
  - {by: North Pier Grading, grade: AU55, number: $number, on: 1995-01-01}
set: $set
acquired: {on: $bought, from: $seller, how: bought, price: $price VKR, note: $remark}
provenance: [{owner: $owner, sale: $sale, lot: $owner_lot, note: $owner_note}]
kept: $kept
value: {amount: $value VKR, on: $valued, basis: $basis}
private: $private
added: 2001-01-01
---
Sharp lettering. $said
""",
    "content/coins/left.md": """---
series: ort
date: 1891
design: $parted_design
parted: {on: $left, to: $buyer, how: sold, price: $received VKR}
---
$parted_notes
""",
    "content/coins/bought-together.md": "---\nseries: ort\ndate: 1900\nlot: hoard\n---\n",
    "content/lots/hoard.yaml": """
name: $lot_name
on: $lot_day
from: $lot_seller
price: $lot_price VKR
note: $lot_note
""",
    "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[held]].\n",
}


def write(root: Path, files: dict[str, str]) -> None:
    """Lay a catalogue of these files over the base."""
    base = {path.relative_to(BASE).as_posix(): path.read_text("utf-8") for path in BASE.rglob("*.yaml")}
    for name, text in {**base, **files}.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def mark(seed: int) -> dict[str, str]:
    """Make a marker for every private field, no two of which have a word in common."""
    marks = {
        name: f"Zq{chr(97 + nth)}{seed + nth} Vellacott{chr(97 + nth)}" for nth, name in enumerate(NAMES)
    }
    marks |= {name: f"{seed % 9000 + 1000 + 7 * nth}.37" for nth, name in enumerate(AMOUNTS)}
    marks["set"] = marks["set"].replace(" ", "-")
    return marks | {name: f"{2010 + nth}-0{1 + nth}-{10 + seed % 18}" for nth, name in enumerate(DAYS)}


def build_marked(root: Path, marks: dict[str, str], reader: Reader, said: str = "", named: str = ""):
    gaps = {**marks, "said": said, "named": named}
    write(root, {name: Template(text).substitute(gaps) for name, text in FILES.items()})
    return build(root, reader)


def told(root: Path, reader: Reader) -> str:
    """Everything an edition holds, names of files included, in small letters."""
    edition = root / "output" / reader.value
    return "\n".join(
        f"{path.relative_to(edition)}\n{path.read_bytes().decode('utf-8', 'replace')}"
        for path in sorted(edition.rglob("*"))
        if path.is_file()
    ).casefold()


def errors(result) -> list:
    return [each for each in result.problems if each.is_error]


@settings(max_examples=6)
@given(seed=st.integers(0, 10**8), reader=st.sampled_from([Reader.PUBLIC, Reader.CLUB]))
def test_no_marker_in_any_private_field_is_in_any_file_of_an_edition_for_others(seed, reader):
    marks = mark(seed)
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        assert errors(build_marked(root, marks, reader)) == []
        whole = told(root, reader)
    if reader is Reader.CLUB:
        assert marks.pop("old_by").casefold() in whole
    assert [name for name, marker in marks.items() if marker.casefold() in whole] == []


@settings(max_examples=3)
@given(seed=st.integers(0, 10**8), reader=st.sampled_from([Reader.PUBLIC, Reader.CLUB]))
def test_every_private_value_put_into_a_public_note_is_found_and_nothing_is_written(seed, reader):
    marks = mark(seed)
    said = "; ".join(f"{each} VKR" if name in AMOUNTS else each for name, each in marks.items())
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        found = errors(build_marked(root, marks, reader, said))
        assert not (root / "output" / reader.value).exists()
    assert {each.rule for each in found} == {"private value"}
    whole = "\n".join(each.sentence for each in found)
    if reader is Reader.CLUB:
        marks.pop("old_by")
    # The remark on how a grade came about and the like of a coin that has left stand in a public text now, so
    # that they are no more than what everybody reads.
    lenient = {"parted_notes", "parted_design", "old_by"}
    assert [name for name, marker in marks.items() if marker not in whole and name not in lenient] == []


@pytest.fixture
def marks():
    return mark(4711)


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_what_the_trade_says_anyway_is_no_secret_whoever_calls_something_private_so(catalogue_folder, reader):
    words = {*known_words(), *(each.name for each in STEPS), *PROBLEM_REASONS, *NO_PROBLEMS}
    words |= {each.value for kind in (CoinKind, Strike, How) for each in kind}
    names = sorted({re.sub("[^a-z0-9]+", "-", each.lower()) for each in words})
    lots = {f"content/lots/{each}.yaml": "how: bought\n" for each in names}
    coins = {
        f"content/coins/{nth}.md": f"---\nseries: ort\ndate: 1891\nlot: {each}\nset: {each}\nkept: {each}\n---\n"
        for nth, each in enumerate(names)
    }
    left = "---\nseries: ort\ndate: 1892\nstandard: 1891–1903\nparted: {how: sold}\n---\n"
    result = build(catalogue_folder({**lots, **coins, "content/coins/left.md": left}), reader)
    assert [each.sentence for each in result.problems if each.is_error] == []


SAID_ANYWAY = (
    *(
        "1890s",
        "1891–1893",
        "1891–1903",
        "Torvald III 1893–1908",
        "5 coins",
        "1 of 3",
        "2 pieces",
        "60 struck",
    ),
    *("44,000 struck", "F or better", "VF20", "VF30", "Good Very Fine", "9.000 g", "9 g", "26.5 mm", "12h"),
    *("Ort 1892, Kaldhamn", "Ort 1892", "ort/1892-k", "120000", "value spelt OORT"),
    *(
        "a small cabinet",
        "website",
        "article",
        "table 1",
        "coins 1",
        "grid 1",
        "cleaned",
        "Quennell",
        "Lantern",
    ),
    *("Brunnick", "spring sale", "A spruce above three waves", "1 ort"),
)
"""What pages say of themselves, of the coinage and of the trade, and parts of the names that they tell."""


@pytest.mark.parametrize("reader", [Reader.PUBLIC, Reader.CLUB])
def test_what_every_page_says_anyway_is_no_secret(catalogue_folder, base_files, reader):
    files = {
        f"content/coins/{nth}.md": f'---\nseries: ort\ndate: 1891\nkept: "{each}"\nprivate: "{each}"\n---\n'
        for nth, each in enumerate(SAID_ANYWAY)
    }
    settings = base_files["content/catalogue.yaml"] + (
        "keeper: Ida Quennell\nweb: https://coins.example/\n"
        "aims:\n  - {id: silver-run, name: All, series: [ort], at least: F12}\n"
    )
    issuer = base_files["content/issuers/vessmark.yaml"]
    files |= {
        "content/catalogue.yaml": settings,
        "content/issuers/vessmark.yaml": issuer,
        "content/coins/ort/1892-k.md": "---\nseries: ort\ndate: 1902\nmint: K\nproblem: cleaned\n"
        "certificate: {by: Lantern Slabs, grade: VF30}\n"
        "provenance: [{owner: Tove Brunnick, sale: Brunnick spring sale, publish: yes}]\n---\n",
        "content/coins/priced.md": "---\nseries: ort\ndate: 1891\nset: silver-run\n"
        "acquired: {price: 1 ORT}\n---\n",
        "content/coins/left.md": "---\nseries: ort\ndate: 1899\nvariety: new-spelling\nweight: 8.97 g\n"
        "grade: VF20\nparted: {how: sold}\n---\n",
    }
    result = build(catalogue_folder(files), reader)
    assert [each.sentence for each in result.problems if each.is_error] == []


def test_a_private_name_in_the_summary_or_in_a_note_on_a_monarch_is_found(catalogue_folder, base_files, coin):
    issuer = "content/issuers/vessmark.yaml"
    named = {
        "content/catalogue.yaml": base_files["content/catalogue.yaml"] + "summary: Much of it from R. Tarn\n",
        issuer: base_files[issuer].replace("name: Ingrith,", "name: Ingrith, note: As R. Tarn tells it,"),
    }
    for name, text in named.items():
        assert text != base_files[name]
        files = {**base_files, name: text, "content/coins/a.md": coin("1891", "acquired: {from: R. Tarn}")}
        found = errors(build(catalogue_folder(files), Reader.PUBLIC))
        assert [each.rule for each in found] == ["private value"], name


@pytest.mark.parametrize(
    ("field", "told"),
    [
        *(
            ("acquired: {price: 1250 VKR}", f"It cost 1{sign}250 VKR.")
            for sign in (" ", "\u202f", ".", "'", ",")
        ),
        ("acquired: {price: 1250 VKR}", "It cost 1.250,00 VKR."),
        *(
            ("acquired: {on: 2024-02-11}", f"It came on {day}.")
            for day in (
                *(
                    "11 February, 2024",
                    "11 Feb 2024",
                    "11th February 2024",
                    "February 11th, 2024",
                    "Feb 11, 2024",
                ),
                *(
                    "Feb 11, 2024",
                    "11/2/2024",
                    "2/11/2024",
                    "02/11/2024",
                    "11.02.2024",
                    "2024-02-11",
                    "February 11, 2024",
                ),
            )
        ),
        ("acquired: {on: 2024-02-23}", "It came on 23rd February 2024."),
        *(
            ("acquired: {from: Mosswald}", told)
            for told in (
                *("From MOSSWALD.", "Ask info@mosswald.example.", "See <https://www.mosswald.example/x>."),
                "See [there](https://mosswald.example/x).",
            )
        ),
    ],
)
def test_a_value_is_found_in_all_the_usual_ways_to_write_it(catalogue_folder, coin, field, told):
    folder = catalogue_folder({"content/coins/a.md": coin("1891", field, notes=told)})
    assert [each.rule for each in errors(build(folder, Reader.PUBLIC))] == ["private value"]


def test_what_a_page_does_not_show_of_notes_goes_into_no_file_of_an_edition(catalogue_folder, coin):
    notes = "Sharp. <!-- Zanderholt had it of a widow --> Not [[sold-to-zanderholt|that one]]."
    left = coin("1899", "variety: new-spelling", "parted: {to: Gerrold}")
    folder = catalogue_folder(
        {
            "content/coins/a.md": coin("1891", "acquired: {from: Zanderholt}", notes=notes),
            "content/coins/sold-to-zanderholt.md": left,
        }
    )
    for reader in (Reader.PUBLIC, Reader.CLUB):
        assert errors(build(folder, reader)) == []
        whole = told(folder, reader)
        assert "that one" in whole
        assert "zanderholt" not in whole


def test_a_photo_may_be_called_after_its_coin_in_any_way(catalogue_folder, coin):
    photo = io.BytesIO()
    Image.new("RGB", (300, 300), (90, 90, 90)).save(photo, "JPEG")
    folder = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "photos: {obverse: ort/1891.jpg}"),
            "content/photos/ort/1891.jpg": photo.getvalue(),
        }
    )
    for reader in (Reader.PUBLIC, Reader.CLUB):
        assert errors(build(folder, reader)) == []


def test_a_find_names_page_field_and_coin_and_points_to_the_value(tmp_path, marks):
    (error,) = errors(build_marked(tmp_path, marks, Reader.PUBLIC, f"Bought of {marks['seller']}."))
    assert f'the public edition would tell "{marks["seller"]}", which is private' in error.sentence
    assert "(acquired from, coin held), in coins/held/index.html" in error.sentence
    assert (error.place.path, error.place.line) == ("content/coins/held.md", 9)
    assert f'may be named: ["{marks["seller"]}"]' in error.hint


def test_a_find_leaves_the_last_good_edition(tmp_path, marks):
    assert errors(build_marked(tmp_path, marks, Reader.PUBLIC)) == []
    before = told(tmp_path, Reader.PUBLIC)
    assert errors(build_marked(tmp_path, marks, Reader.PUBLIC, f"Kept in {marks['kept']}."))
    assert told(tmp_path, Reader.PUBLIC) == before


def test_the_keeper_can_allow_a_value_by_name(tmp_path, marks):
    named = f'may be named: ["{marks["seller"]}", "{marks["price"]} VKR"]'
    said = f"Bought of {marks['seller']} for {marks['price']} VKR."
    assert errors(build_marked(tmp_path, marks, Reader.PUBLIC, said, named)) == []
    assert marks["seller"].casefold() in told(tmp_path, Reader.PUBLIC)


def test_the_keepers_edition_is_told_everything(tmp_path, marks):
    assert errors(build_marked(tmp_path, marks, Reader.KEEPER, f"Bought of {marks['seller']}.")) == []
    assert marks["seller"].casefold() in told(tmp_path, Reader.KEEPER)


def test_unchanged_pages_are_searched_again_when_something_becomes_private(tmp_path, marks):
    said = "Some say that Orlanda Fenwright had it."
    assert errors(build_marked(tmp_path, marks, Reader.PUBLIC, said)) == []
    before = told(tmp_path, Reader.PUBLIC)
    (error,) = errors(build_marked(tmp_path, marks | {"kept": "Orlanda Fenwright"}, Reader.PUBLIC, said))
    assert "(kept, coin held)" in error.sentence
    assert told(tmp_path, Reader.PUBLIC) == before


def test_unchanged_pages_are_not_searched_again_while_the_same_is_private(tmp_path, marks, monkeypatch):
    from daterun.press.searching import Search

    build_marked(tmp_path, marks, Reader.PUBLIC)
    searched = []
    whole = Search.in_file
    monkeypatch.setattr(
        Search, "in_file", lambda self, address, data: searched.append(address) or whole(self, address, data)
    )
    build_marked(tmp_path, marks, Reader.PUBLIC)
    assert searched == []
    build_marked(tmp_path, marks | {"seller": "Another Person"}, Reader.PUBLIC)
    assert "index.html" in searched


def test_a_build_cut_short_is_searched_again(tmp_path, marks, monkeypatch):
    from daterun.press.output import Output

    build_marked(tmp_path, marks, Reader.PUBLIC)
    remembered = tmp_path / ".daterun" / "public.searched"
    assert remembered.is_file()

    def killed(self, address, data):
        raise KeyboardInterrupt

    monkeypatch.setattr(Output, "write", killed)
    changed = marks | {"seller": "Another Person"}
    with pytest.raises(KeyboardInterrupt):
        build_marked(tmp_path, changed, Reader.PUBLIC, "Sharp.")
    assert not remembered.exists()


def test_a_seller_in_the_title_of_an_essay_is_found_in_its_address_too(tmp_path, marks):
    essay = f"---\ntitle: About it\n---\nNothing of {marks['sale']}.\n"
    name = marks["seller"].casefold().replace(" ", "-")
    write(tmp_path, {f"content/pages/{name}.md": essay})
    found = errors(build_marked(tmp_path, marks, Reader.PUBLIC))
    sentences = "\n".join(each.sentence for each in found)
    assert f"essays/{name}/index.html" in sentences
    assert {"(acquired from, coin held)", "(provenance sale, coin held)"} <= {
        f"({each.sentence.partition('(')[2].partition(')')[0]})" for each in found
    }


def test_no_name_that_was_sought_is_kept_in_what_is_remembered(tmp_path, marks, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    build_marked(tmp_path, marks, Reader.PUBLIC)
    bring_up_to_date(tmp_path, Reader.PUBLIC)
    kept = {each.name: each.read_text(encoding="utf-8") for each in (tmp_path / ".daterun").glob("public.*")}
    kept.pop("public.standing")  # the advice in it is for the keeper, and names what it is about
    assert kept.keys() >= {f"public.{each}" for each in ("json", "searched", "desk", "slips")}
    assert len(json.loads(kept["public.desk"])["sought"]) > len(marks)
    for name, whole in kept.items():
        words = set(re.findall(r"\w+", whole.casefold()))
        assert [each for each in marks.values() if each in whole or each.casefold() in words] == [], name
