"""An edition that stands is not built again, and whatever changes makes it be built."""

import os

import pytest

from daterun import site
from daterun.problems import Severity
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.standing import bring_up_to_date


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    # What a test has just written counts as settled.
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    return catalogue_folder(
        {
            "content/coins/ort/1891.md": coin("1891", "grade: VF30", notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", "quantity: 2", notes="Weak."),
            "content/notes.txt": "not read, which is a piece of advice",
            "themes/own/words/en.yaml": "{}\n",
        }
    )


@pytest.fixture
def builds(monkeypatch):
    """Every build that is really made, as the arguments that it is given."""
    made = []
    build_with = site.build_with

    def counted(*args, **kwargs):
        made.append(args)
        return build_with(*args, **kwargs)

    monkeypatch.setattr(site, "build_with", counted)
    return made


def test_an_edition_that_stands_is_not_built_again_and_says_the_same(folder, builds):
    first = bring_up_to_date(folder, Reader.PUBLIC)
    again = bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 1
    assert first.pages_written == first.pages_total == again.pages_total
    assert (again.pages_written, again.pictures_made, again.removed) == (0, 0, ())
    assert (again.problems, again.coins, again.output) == (first.problems, first.coins, first.output)


def test_advice_is_given_again(folder, builds):
    (folder / "content/coins/ort/list.csv").write_text("passed over", encoding="utf-8")
    first = bring_up_to_date(folder, Reader.PUBLIC)
    assert [each.severity for each in first.problems] == [Severity.ADVICE] * len(first.problems)
    assert first.problems
    assert bring_up_to_date(folder, Reader.PUBLIC).problems == first.problems
    assert len(builds) == 1


def test_strangers_are_named_again(folder, builds):
    bring_up_to_date(folder, Reader.PUBLIC)
    (folder / "output/public/mine.txt").write_text("mine", encoding="utf-8")
    assert bring_up_to_date(folder, Reader.PUBLIC).strangers == ("mine.txt",)
    assert bring_up_to_date(folder, Reader.PUBLIC).strangers == ("mine.txt",)
    assert len(builds) == 2


def change_a_note(folder):
    path = folder / "content/coins/ort/1891.md"
    path.write_text(path.read_text(encoding="utf-8") + "More.\n", encoding="utf-8")


def change_a_note_in_its_length_and_time(folder):
    path = folder / "content/coins/ort/1891.md"
    before = path.stat()
    path.write_text(path.read_text(encoding="utf-8").replace("Sharp", "Blunt"), encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def replace_a_note_by_another_file(folder):
    path = folder / "content/coins/ort/1891.md"
    other = folder / "content/coins/ort/.new"
    other.write_bytes(path.read_bytes())
    os.utime(other, ns=(path.stat().st_atime_ns, path.stat().st_mtime_ns))
    other.replace(path)


def change_a_grade_in_its_length_and_time(folder):
    path = folder / "content/coins/ort/1891.md"
    before = path.stat()
    path.write_text(path.read_text(encoding="utf-8").replace("VF30", "VF35"), encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


CHANGES = {
    "a grade in neither length nor time": change_a_grade_in_its_length_and_time,
    "a new photo": lambda folder: (folder / "content/photos").mkdir(),
    "a coin taken away": lambda folder: (folder / "content/coins/ort/1900.md").unlink(),
    "a file of a theme": lambda folder: (folder / "themes/own/words/en.yaml").write_text("{}"),
    "a page taken away": lambda folder: (folder / "output/public/index.html").unlink(),
    "a page spoilt": lambda folder: (folder / "output/public/index.html").write_text(""),
    "the memory taken away": lambda folder: (folder / ".daterun/public.standing").unlink(),
    "the memory spoilt": lambda folder: (folder / ".daterun/public.standing").write_text('{"from": [}'),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_any_change_makes_it_be_built(folder, builds, change):
    bring_up_to_date(folder, Reader.PUBLIC)
    change(folder)
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 2


NOTES = {
    "longer notes": (change_a_note, "More."),
    "other notes in neither length nor time": (change_a_note_in_its_length_and_time, "Blunt"),
    "another file that is the same": (replace_a_note_by_another_file, "Sharp"),
}


@pytest.mark.parametrize(("change", "shown"), NOTES.values(), ids=NOTES)
def test_other_notes_are_seen_and_taken_up_by_themselves(folder, builds, change, shown):
    bring_up_to_date(folder, Reader.PUBLIC)
    change(folder)
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 1
    assert shown in (folder / "output/public/coins/ort/1891/index.html").read_text(encoding="utf-8")


def test_each_reader_and_web_address_and_folder_is_built_for_itself(folder, builds, tmp_path):
    bring_up_to_date(folder, Reader.PUBLIC)
    bring_up_to_date(folder, Reader.CLUB)
    bring_up_to_date(folder, Reader.PUBLIC, web="https://coins.example/")
    bring_up_to_date(folder, Reader.PUBLIC, tmp_path / "elsewhere")
    assert len(builds) == 4


def test_what_is_printed_into_an_edition_makes_no_build(folder, builds):
    bring_up_to_date(folder, Reader.PUBLIC)
    (folder / "output/public/print").mkdir()
    bring_up_to_date(folder, Reader.PUBLIC)
    (folder / "output/public/print/catalogue.pdf").write_bytes(b"%PDF-")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 2


def test_a_catalogue_with_errors_is_looked_at_every_time(folder, builds, coin):
    (folder / "content/coins/ort/1891.md").write_text(coin("18x1"), encoding="utf-8")
    first = bring_up_to_date(folder, Reader.PUBLIC)
    assert first.has_errors
    assert bring_up_to_date(folder, Reader.PUBLIC).problems == first.problems
    assert len(builds) == 2


def test_a_file_that_was_changed_just_now_is_not_trusted(folder, builds, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", 10**12)
    bring_up_to_date(folder, Reader.PUBLIC)
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 2


def test_a_catalogue_with_a_link_to_a_folder_is_built_every_time(folder, builds, tmp_path):
    (tmp_path / "aside").mkdir()
    try:
        (folder / "themes/linked").symlink_to(tmp_path / "aside", target_is_directory=True)
    except OSError:
        pytest.skip("this machine makes no links")
    bring_up_to_date(folder, Reader.PUBLIC)
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(builds) == 2
