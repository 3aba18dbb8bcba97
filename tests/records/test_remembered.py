"""Records remembered between readings: the same as read anew, whatever changed meanwhile."""

import os

import pytest

from daterun.records import catalogue, stamps
from daterun.records.catalogue import read_catalogue
from daterun.records.remembered import RecordMemory


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    # What a test has just written counts as settled.
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    return catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF", "wieght: 9 g", notes="Weak."),
            "content/coins/ort/broken.md": "no front matter\n",
            "content/lots/tin.yaml": "from: a shop\n",
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nText.\n",
        }
    )


@pytest.fixture
def read_texts(monkeypatch):
    """The paths of the files that were really read."""
    read = []
    whole = catalogue.read_text

    def counted(root, path):
        read.append(path)
        return whole(root, path)

    monkeypatch.setattr(catalogue, "read_text", counted)
    return read


def replace_in(path, before, after):
    path.write_text(path.read_text(encoding="utf-8").replace(before, after), encoding="utf-8")


def test_nothing_but_the_settings_is_read_a_second_time(folder, read_texts):
    memory = RecordMemory()
    first = read_catalogue(folder, memory)
    read_texts.clear()
    assert read_catalogue(folder, memory) == first
    assert read_texts == ["content/catalogue.yaml"]


CHANGES = {
    "a note": lambda folder: replace_in(folder / "content/coins/ort/1891.md", "Sharp", "Very sharp"),
    "a coin taken away": lambda folder: (folder / "content/coins/ort/1891.md").unlink(),
    "a coin put right": lambda folder: replace_in(folder / "content/coins/ort/1900.md", "wieght", "weight"),
    "a file put right": lambda folder: (folder / "content/coins/ort/broken.md").write_text(
        "---\nseries: ort\ndate: 1901\n---\n", encoding="utf-8"
    ),
    "a coin renamed": lambda folder: (folder / "content/coins/ort/1891.md").rename(
        folder / "content/coins/ort/1891-b.md"
    ),
    "the grading habit": lambda folder: replace_in(
        folder / "content/catalogue.yaml", "title:", "grading: british\ntitle:"
    ),
    "the currency": lambda folder: replace_in(
        folder / "content/catalogue.yaml", "title:", "currency: XTS\ntitle:"
    ),
    "a series": lambda folder: replace_in(
        next((folder / "content/series").rglob("ort.yaml")), "issuer:", "remarks: x\nissuer:"
    ),
    "an essay": lambda folder: replace_in(folder / "content/pages/on-orts.md", "On orts", "Of orts"),
    "a lot": lambda folder: replace_in(folder / "content/lots/tin.yaml", "a shop", "a sale"),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_what_is_remembered_is_as_if_read_anew(folder, change):
    memory = RecordMemory()
    read_catalogue(folder, memory)
    change(folder)
    assert read_catalogue(folder, memory) == read_catalogue(folder)
    assert read_catalogue(folder, memory) == read_catalogue(folder)


def test_a_change_of_neither_length_nor_time_is_seen(folder):
    memory = RecordMemory()
    read_catalogue(folder, memory)
    path = folder / "content/coins/ort/1891.md"
    before = path.stat()
    replace_in(path, "Sharp", "Blunt")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    coins = read_catalogue(folder, memory)[0].coins
    assert [each.notes for each in coins if each.id == "ort/1891"] == ["Blunt.\n"]


def test_a_file_changed_just_now_is_read_again(folder, read_texts, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", 10**15)
    memory = RecordMemory()
    read_catalogue(folder, memory)
    read_texts.clear()
    read_catalogue(folder, memory)
    assert "content/coins/ort/1891.md" in read_texts
