"""A workshop's edition is at every moment what a clean build makes, whichever way it came about."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daterun import workshop as module
from daterun.press.output import Output
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.site import build
from daterun.workshop import Workshop
from editions import clean, read_all, replace_in

COIN = "content/coins/ort/1891.md"


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    return catalogue_folder(
        {
            COIN: coin("1891", "grade: VF30", "kept: Quillon cupboard", notes="Sharp."),
            "content/coins/ort/1900.md": coin("1900", "grade: EF40", notes="Weak; see [[ort/1891]]."),
            "content/coins/ort/1901.md": coin("1901", "parted: {on: 2020-01-01, how: sold}", notes="Sold."),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )


def without_whole_builds(monkeypatch):
    def refuse(*args):
        raise AssertionError("the whole edition was built")

    monkeypatch.setattr(module, "build_with", refuse)


@pytest.mark.parametrize("reader", Reader)
def test_other_notes_are_brought_to_the_pages_that_show_them_alone(folder, reader, monkeypatch):
    shop = Workshop(folder, reader)
    shop.build()
    before = read_all(shop.root)
    without_whole_builds(monkeypatch)
    replace_in(folder / COIN, "Sharp", "Sharp, and *toned*; see [[ort/1900]] and [[ort 1900]]")
    result = shop.follow([COIN])
    after = read_all(shop.root)
    assert after == clean(folder, reader)
    changed = {each for each in after if after[each] != before.get(each)}
    assert {each.partition("/")[0] for each in changed} == {"coins", "find"}
    assert result.pages_written == 2
    replace_in(folder / COIN, "toned", "washed")
    shop.follow([COIN])
    assert read_all(shop.root) == clean(folder, reader)


def test_what_was_made_is_remembered_as_by_any_build(folder, monkeypatch):
    shop = Workshop(folder, Reader.PUBLIC)
    shop.build()
    with monkeypatch.context() as patched:
        without_whole_builds(patched)
        for notes in ("Sharper.", "Sharpest.", "Sharp."):
            replace_in(folder / COIN, (folder / COIN).read_text(encoding="utf-8").splitlines()[-1], notes)
            shop.follow([COIN])
    stood = read_all(shop.root)
    later = build(folder, Reader.PUBLIC)
    assert (later.pages_written, later.removed, later.strangers) == (0, (), ())
    assert read_all(shop.root) == stood == clean(folder)


def test_a_revision_cut_short_is_mended_by_the_next_build(folder, monkeypatch):
    shop = Workshop(folder, Reader.PUBLIC)
    shop.build()
    steps = []
    write = Output.write

    def killed(self, address, data):
        steps.append(address)
        if len(steps) == 2:
            raise KeyboardInterrupt
        return write(self, address, data)

    with monkeypatch.context() as patched:
        patched.setattr(Output, "write", killed)
        replace_in(folder / COIN, "Sharp", "Cut short")
        with pytest.raises(KeyboardInterrupt):
            shop.follow([COIN])
    assert len(steps) == 2
    build(folder, Reader.PUBLIC)
    assert read_all(shop.root) == clean(folder)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    edits=st.lists(
        st.tuples(
            st.sampled_from(["1891", "1900", "1901"]),
            st.text(st.sampled_from("ab[]|*#<&\n é\"'") | st.characters(codec="utf-8"), max_size=40),
        ),
        max_size=4,
    )
)
def test_any_notes_give_what_a_clean_build_gives(folder, edits):
    shop = Workshop(folder, Reader.PUBLIC)
    whole = {
        name: (folder / f"content/coins/ort/{name}.md").read_bytes() for name in ("1891", "1900", "1901")
    }
    try:
        shop.build()
        for name, notes in edits:
            path = f"content/coins/ort/{name}.md"
            matter = whole[name].decode().rpartition("---\n")[0]
            (folder / path).write_text(f"{matter}---\n{notes}\n", encoding="utf-8", newline="")
            result = shop.follow([path])
            if not result.has_errors:
                assert read_all(shop.root) == clean(folder)
    finally:
        for name, data in whole.items():
            (folder / f"content/coins/ort/{name}.md").write_bytes(data)


OTHER = {
    "a grade": (COIN, "VF30", "VF35"),
    "a line more in the front matter": (COIN, "grade: VF30", "# seen again\ngrade: VF30"),
    "a plate in the notes": (COIN, "Sharp.", "[[ort/1900 both]]"),
    "a link to nothing": (COIN, "Sharp.", "[[ort/1800]]"),
    "a private value in the notes": (COIN, "Sharp.", "From the Quillon cupboard."),
    "an essay": ("content/pages/on-orts.md", "The first", "The very first"),
    "the settings": ("content/catalogue.yaml", "title:", "summary: All of them.\ntitle:"),
}


@pytest.mark.parametrize(("path", "before", "after"), OTHER.values(), ids=OTHER)
def test_whatever_else_changes_is_built_as_ever(folder, path, before, after):
    shop = Workshop(folder, Reader.PUBLIC)
    shop.build()
    stood = read_all(shop.root)
    replace_in(folder / path, before, after)
    result = shop.follow([path])
    assert read_all(shop.root) == (stood if result.has_errors else clean(folder))
    assert result.problems == build(folder, Reader.PUBLIC).problems
    replace_in(folder / path, after, before)
    assert not shop.follow([path]).has_errors
    assert read_all(shop.root) == clean(folder)


def test_a_build_by_another_process_meanwhile_is_seen(folder):
    shop = Workshop(folder, Reader.PUBLIC)
    shop.build()
    replace_in(folder / "content/coins/ort/1900.md", "Weak", "Weak on one side")
    build(folder, Reader.PUBLIC)
    replace_in(folder / COIN, "Sharp", "Sharper")
    shop.follow([COIN])
    assert read_all(shop.root) == clean(folder)


def test_several_files_at_once_are_built_as_ever(folder):
    shop = Workshop(folder, Reader.PUBLIC)
    shop.build()
    replace_in(folder / COIN, "Sharp", "Sharper")
    replace_in(folder / "content/coins/ort/1900.md", "Weak", "Weaker")
    shop.follow([COIN, "content/coins/ort/1900.md"])
    assert read_all(shop.root) == clean(folder)
