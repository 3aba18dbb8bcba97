"""What is said of a thing's sources is whole: whatever an edit changes has named the file that was edited."""

import io
import re
import shutil
from dataclasses import dataclass

import pytest
from PIL import Image, ImageDraw

from daterun.bundled import themes_folder
from daterun.edition import Edition
from daterun.press.fingerprints import Mark
from daterun.press.folders import choose_output
from daterun.readers.reader import Reader
from daterun.site import build, check
from daterun.sourcefiles import Part
from editions import read_all

SETTINGS = """\
title: A small cabinet
keeper: Ida Quennell
currency: VKR
web: https://example.org/coins/
metals: {silver: {price: 0.61 VKR, per: g, on: 2026-10-02, source: evening paper}}
readers: {public: {wants: yes}}
pictures: {widths: [200, 48]}
aims:
  - {id: orts, name: Orts, series: [ort], at least: F12}
  - {id: both, name: Both, series: [ort, daler]}
wants: [{slot: ort 1892, at most: 400 VKR}]
"""
DALER = """\
name: Daler
issuer: vessmark
face: 1 daler
standards: [{dates: 1895–1909, metal: silver, fineness: .750, weight: 36.000 g, diameter: 40 mm, source: Law}]
types: [{id: torvald, dates: 1895–1909, monarch: torvald-iii, obverse: {legend: TORVALD}}]
issues: {source: Reports, struck: {1895: 200, 1896: 1000, 1900: 4000, 1901: unknown}, not struck: [1897–1899]}
"""
STIVER = """\
name: Stiver
issuer: norhavn
face: 1 stiver
types: [{id: ship, dates: 1650–1652, obverse: {legend: NORHAVN}}]
issues: {source: Rolls, struck: {1650: unknown, 1651: 500, 1652: 800}}
"""
NORHAVN = "name: Norhavn\nmoney: {stiver: 1}\n"
LOT = "name: A tin\non: 2019-04-03\nhow: bought\nprice: 40 VKR\nshare: equally\n"


def coin_of(series, date, *lines, notes=""):
    return "\n".join(["---", f"series: {series}", f"date: {date}", *lines, "---", notes, ""])


def photograph(colour):
    image = Image.new("RGB", (260, 260), (240, 240, 236))
    ImageDraw.Draw(image).ellipse((30, 30, 230, 230), fill=colour, outline=(30, 30, 30), width=3)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92)
    return out.getvalue()


FILES = {
    "content/catalogue.yaml": SETTINGS,
    "content/series/vessmark/daler.yaml": DALER,
    "content/series/norhavn/stiver.yaml": STIVER,
    "content/issuers/norhavn.yaml": NORHAVN,
    "content/lots/tin.yaml": LOT,
    "content/coins/ort/1891.md": coin_of(
        "ort",
        1891,
        "grade: VF30",
        "lot: tin",
        "set: pair",
        "weight: 8.97 g",
        "added: 2020-01-01",
        notes="Sharp.",
    ),
    "content/coins/ort/1891-b.md": coin_of("ort", 1891, "grade: F12", "added: 2021-01-01"),
    "content/coins/ort/1893.md": coin_of("ort", 1893, "grade: EF40", "lot: tin", "kept: tray 4"),
    "content/coins/ort/1899.md": coin_of("ort", 1899, "variety: old-spelling", "grade: VF20", "set: pair"),
    "content/coins/ort/1901.md": coin_of("ort", 1901, "parted: {on: 2020-01-01, how: sold}"),
    "content/coins/ort/1905.md": coin_of(
        "ort", 1905, "provenance: [{owner: Hallin, until: 1988, publish: yes}]", notes="After [[ort/1901]]."
    ),
    "content/coins/daler/1896.md": coin_of("daler", 1896, notes="See [[ort/1893]] and [[ort 1892]]."),
    "content/coins/daler/1900.md": coin_of(
        "daler", 1900, "grade: AU55", "value: {amount: 80 VKR, on: 2026-01-10}"
    ),
    "content/coins/stiver/1651.md": coin_of("stiver", 1651, "kind: forgery", "departs: cast"),
    "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891 both]]; see [[ort 1893]].\n",
    "content/pages/on-dalers.md": "---\ntitle: On dalers\norder: 2\n---\n[[daler/1896]], [[ort/1901]].\n",
    "content/photos/ort/1891.obverse.jpg": photograph((150, 150, 146)),
    "content/photos/ort/1891.reverse.jpg": photograph((140, 142, 150)),
    "content/photos/daler/1896.obverse.jpg": photograph((120, 142, 150)),
    "content/photos/ort/1901.obverse.jpg": photograph((20, 142, 150)),
}


@dataclass(frozen=True)
class State:
    """An edition as a build would make it: by what each thing is made, and who tells its sources."""

    edition: Edition
    things: dict[str, Mark]

    def names(self, address, path):
        thing = self.edition.things.get(address)
        return thing is not None and self.edition.sources.part_of(path, thing.sources()) is not None


def state(folder, reader):
    checked = check(folder, keeps=False)
    assert not checked.has_errors, checked.problems
    edition = Edition(folder, reader, choose_output(folder, reader.value, None), checked)
    return State(edition, {address: thing.mark() for address, thing in edition.things.items()})


def unnamed(before, after, path):
    """List what an edit of a file changed, made or took away without naming the file as a source, then or now.

    Data are called after what they hold, so that the file of old and the new one are one.
    """
    changed = {
        each
        for each in before.things.keys() | after.things.keys()
        if before.things.get(each) != after.things.get(each)
    }
    named = {each for each in changed if before.names(each, path) or after.names(each, path)}
    stems = {each.rpartition("-")[0] for each in named if each.startswith("find/") and each.endswith(".js")}
    return changed, sorted(each for each in changed - named if each.rpartition("-")[0] not in stems)


def sub(pattern, other):
    def change(text):
        changed, times = re.subn(pattern, other, text, flags=re.M)
        assert times, pattern
        return changed

    return change


def coin_edits():
    for name in [each for each in FILES if "/coins/" in each]:
        for what, change in {
            "its notes": lambda text: text + "\nOther words.\n",
            "its grade": sub(r"^---\ns", "---\ngrade: MS63\ns")
            if "grade:" not in FILES[name]
            else sub(r"grade: \w+", "grade: MS63"),
            "that it was parted with": sub(r"^---\ns", "---\nparted: {on: 2021-01-01, how: sold}\ns")
            if "parted" not in FILES[name]
            else sub(r"^parted.*\n", ""),
            "the day it was added": sub(r"^added.*\n", "")
            if "added" in FILES[name]
            else sub(r"^---\ns", "---\nadded: 2025-05-05\ns"),
            "its metal": sub(r"^---\ns", "---\ndesign: Weak\ns"),
            "its kind": sub(r"^---\ns", "---\nkind: mule\ndeparts: two obverses\ns")
            if "kind" not in FILES[name]
            else sub(r"^kind.*\ndeparts.*\n", ""),
            "that it is a problem": sub(r"^---\ns", "---\nproblem: [cleaned]\ns"),
            "a certificate": sub(
                r"^---\ns",
                "---\ncertificate: {by: North Pier Grading, grade: AU50, number: 9, on: 2027-05-02}\ns",
            ),
        }.items():
            yield name, what, change
    yield "content/coins/ort/1893.md", "its date", sub("date: 1893", "date: 1904")
    yield "content/coins/ort/1893.md", "to another ort", sub("date: 1893", "date: 1891")
    yield "content/coins/daler/1896.md", "its date", sub("date: 1896", "date: 1901")
    yield (
        "content/coins/daler/1896.md",
        "its series",
        sub("series: daler\ndate: 1896", "series: ort\ndate: 1897"),
    )
    yield (
        "content/coins/daler/1896.md",
        "a crop",
        sub(r"^---\ns", "---\nphotos: {obverse: {crop: {x: 120, y: 120, diameter: 150}}}\ns"),
    )
    yield "content/coins/stiver/1651.md", "to a year without a page", sub("date: 1651", "date: 1700")
    yield "content/coins/stiver/1651.md", "to no year", sub("date: 1651", "date: 16?1")
    yield "content/coins/ort/1899.md", "its set", sub("set: pair", "set: other")
    yield "content/coins/ort/1893.md", "its lot", sub("lot: tin\n", "")
    yield (
        "content/coins/ort/1891.md",
        "its lot's share",
        sub("lot: tin", "lot: tin\nacquired: {price: 12 VKR}\nquantity: 3"),
    )


def other_edits():
    ort = "content/series/vessmark/ort.yaml"
    yield ort, "a mintage", sub("341,000", "7")
    yield ort, "its name", sub("^name: Ort", "name: Orten")
    yield ort, "its face", sub("face: 1 ort", "face: 12 daler")
    yield ort, "a legend", sub("TORVALD III KING OF VESSMARK", "TORVALD")
    yield ort, "its diameter", sub("26.5 mm", "22 mm")
    yield (
        "content/series/vessmark/daler.yaml",
        "its years",
        sub("1901: unknown}, not", "1901: unknown, 1909: unknown}, not known: [1902–1908], not"),
    )
    yield "content/series/norhavn/stiver.yaml", "its name", sub("name: Stiver", "name: Penning")
    yield "content/series/norhavn/stiver.yaml", "its years", sub(", 1652: 800", "")
    yield "content/issuers/vessmark.yaml", "its name", sub("Kingdom of Vessmark", "Realm of Vessmark")
    yield "content/issuers/vessmark.yaml", "a monarch", sub("name: Ingrith", "name: Ingrid")
    yield "content/issuers/vessmark.yaml", "a mint", sub("Vessborg", "Vessby")
    yield "content/issuers/norhavn.yaml", "its name", sub("Norhavn", "Northaven")
    yield "content/lots/tin.yaml", "its price", sub("40 VKR", "90 VKR")
    yield "content/lots/tin.yaml", "its name", sub("A tin", "A box")
    yield "content/pages/on-orts.md", "its text", lambda text: text + "\nMore of [[stiver/1651]].\n"
    yield "content/pages/on-orts.md", "its title", sub("On orts", "Orts")
    yield "content/pages/on-dalers.md", "its order", sub("order: 2", "order: 1")
    yield "content/pages/on-dalers.md", "its set", sub("order: 2", "part of: on-orts")
    for old, new in (
        ("A small cabinet", "A cabinet"),
        ("0.61 VKR", "0.70 VKR"),
        ("200, 48", "240, 60"),
        ("at least: F12", "at least: EF40"),
        ("wants: yes", "wants: no"),
        ("https://example.org/coins/", "https://example.com/"),
    ):
        yield "content/catalogue.yaml", old, sub(re.escape(old), new)


def edited(folder, path, change):
    file = folder / path
    text = file.read_text(encoding="utf-8")
    file.write_text(change(text), encoding="utf-8")
    return text


EDITS = [*coin_edits(), *other_edits()]


@pytest.mark.parametrize("reader", Reader)
def test_whatever_an_edit_changes_has_named_the_file_that_was_edited(catalogue_folder, reader):
    folder = catalogue_folder(FILES)
    check(folder)
    before = state(folder, reader)
    missed, changing = [], 0
    edits = EDITS[::3] if reader is Reader.CLUB else EDITS  # a club sees little that the public does not
    for path, what, change in edits:
        text = edited(folder, path, change)
        changed, names = unnamed(before, state(folder, reader), path)
        changing += bool(changed)
        missed += [f"{path}, {what}: {each}" for each in names]
        (folder / path).write_text(text, encoding="utf-8")
    assert missed == []
    assert changing > len(edits) * 2 // 3


THEME_EDITS = {
    "themes/tray/templates/coin.html.j2": ("<article>", '<article class="other">'),
    "themes/tray/templates/parts/grid.html.j2": ("<caption", '<caption class="other"'),
    "themes/tray/templates/parts/note.html.j2": ("{% macro plate(link) -%}", "{% macro plate(link) -%}Here:"),
    "themes/tray/templates/base.html.j2": ("</main>", "</main><!-- other -->"),
    "themes/tray/words/en.yaml": ("theme.skip: ", "theme.skip: O"),
    "themes/tray/assets/style.css": ("", "/* other */"),
}


@pytest.mark.parametrize("path", THEME_EDITS)
def test_every_page_that_another_template_changes_has_named_it(catalogue_folder, path):
    folder = catalogue_folder(FILES)
    shutil.copytree(themes_folder() / "tray", folder / "themes/tray")
    root = build(folder, Reader.PUBLIC).output
    stood, before = read_all(root), state(folder, Reader.PUBLIC)
    old, new = THEME_EDITS[path]
    text = edited(folder, path, lambda text: text.replace(old, new, 1) if old else text + new)
    assert old in text
    build(folder, Reader.PUBLIC)
    after = state(folder, Reader.PUBLIC)
    written = {each for each, data in read_all(root).items() if data != stood.get(each)}
    told = {each for each in after.things if before.names(each, path) or after.names(each, path)}
    assert written <= told
    assert path.endswith((".yaml", "base.html.j2", ".css")) or {"find/index.html"}.isdisjoint(told)


def test_a_photo_replaced_added_or_taken_away_is_named_by_all_that_shows_it(catalogue_folder):
    folder = catalogue_folder(FILES)
    before = state(folder, Reader.PUBLIC)
    for path, data in {
        "content/photos/ort/1891.obverse.jpg": photograph((90, 60, 40)),
        "content/photos/daler/1900.edge.jpg": photograph((90, 60, 41)),
        "content/photos/daler/1896.obverse.jpg": None,
    }.items():
        file = folder / path
        stood = file.read_bytes() if file.exists() else None
        file.unlink() if data is None else file.write_bytes(data)
        changed, missed = unnamed(before, state(folder, Reader.PUBLIC), path)
        assert "coins/" + path.split("photos/")[1].split(".")[0] + "/index.html" in changed
        assert missed == []
        file.write_bytes(stood) if stood is not None else file.unlink()


def test_a_new_file_is_named_by_all_that_it_changes(catalogue_folder):
    files = {name: text for name, text in FILES.items() if "dalers" not in name and "stiver" not in name}
    folder = catalogue_folder({name: text for name, text in files.items() if "norhavn" not in name})
    before = state(folder, Reader.PUBLIC)
    for new in (
        {"content/coins/ort/1900.md": coin_of("ort", 1900, "added: 2026-01-01")},
        {"content/pages/a.md": "---\ntitle: A\n---\n[[ort/1899]]\n"},
        {"content/photos/ort/1893.reverse.jpg": photograph((9, 60, 40))},
    ):
        for path, data in new.items():
            (folder / path).write_bytes(data if isinstance(data, bytes) else data.encode())
            assert unnamed(before, state(folder, Reader.PUBLIC), path)[1] == []
            (folder / path).unlink()
    (folder / "content/issuers/norhavn.yaml").write_text(NORHAVN, encoding="utf-8")
    (folder / "content/series/norhavn").mkdir()
    (folder / "content/series/norhavn/stiver.yaml").write_text(STIVER, encoding="utf-8")
    after = state(folder, Reader.PUBLIC)
    for path in ("content/issuers/norhavn.yaml", "content/series/norhavn/stiver.yaml"):
        assert unnamed(before, after, path)[1] == []


def test_the_first_of_its_sort_is_named_by_every_page(catalogue_folder):
    folder = catalogue_folder(
        {"content/catalogue.yaml": SETTINGS.replace("series: [ort, daler]", "series: ort")}
    )
    before = state(folder, Reader.PUBLIC)
    for path, text in {
        "content/pages/a.md": "---\ntitle: A\n---\nText.\n",
        "content/coins/a.md": coin_of("ort", 1891, "added: 2026-01-01"),
    }.items():
        (folder / path).parent.mkdir(exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
        changed, missed = unnamed(before, state(folder, Reader.PUBLIC), path)
        assert {"404.html", "dates/1904/index.html"} & changed
        assert missed == []
        (folder / path).unlink()


def test_a_page_names_no_file_of_another_series_that_it_neither_shows_nor_counts(catalogue_folder):
    told = state(catalogue_folder(FILES), Reader.PUBLIC)
    stiver, daler = "content/coins/stiver/1651.md", "content/coins/daler/1900.md"
    assert not told.names("coins/ort/1905/index.html", stiver)
    assert not told.names("coins/ort/1905/index.html", daler)
    assert not told.names("essays/on-orts/index.html", daler)
    assert not told.names("dates/1891/index.html", daler)
    assert not told.names("denominations/vessmark/ort/index.html", daler)
    assert told.names("index.html", stiver)
    assert told.names("index.html", daler)


def test_a_file_stands_once_under_the_part_that_tells_most(catalogue_folder):
    edition = state(catalogue_folder(FILES), Reader.PUBLIC).edition
    lists = edition.listed("coins/ort/1891/index.html")
    every = [each for files in lists.values() for each in files]
    assert len(every) == len(set(every))
    assert lists[Part.OWN] == (
        "content/coins/ort/1891.md",
        "content/photos/ort/1891.obverse.jpg",
        "content/photos/ort/1891.reverse.jpg",
    )
    assert lists[Part.SERIES] == ("content/series/vessmark/ort.yaml",)
    assert "content/coins/ort/1905.md" in (*lists[Part.SHOWN], *lists.get(Part.COUNTED, ()))
    assert "content/coins/ort/1901.md" not in every
    thing = edition.things["coins/ort/1891/index.html"]
    parts = {path: edition.sources.part_of(path, thing.sources()) for path in every}
    assert {path: part for part, files in lists.items() for path in files} == parts
