"""Other notes of coins, taken up by a build of its own, leave the edition as a build from nothing makes it."""

import json
import os
import shutil

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from daterun import noting, site, standing
from daterun.press.output import Output
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.records import stamps
from daterun.sealed import seal, unseal
from daterun.site import build
from daterun.standing import bring_up_to_date
from editions import clean, read_all, replace_in

COIN = "content/coins/ort/1891.md"
OTHER_COIN = "content/coins/ort/1900.md"


@pytest.fixture
def folder(catalogue_folder, coin, monkeypatch):
    # What a test has just written counts as settled.
    monkeypatch.setattr(stamps, "JUST_NOW_NS", -(10**15))
    made = catalogue_folder(
        {
            COIN: coin("1891", "grade: VF30", "kept: Quillon cupboard", notes="Sharp."),
            OTHER_COIN: coin("1900", "grade: EF40", "design: Weak shield", notes="Weak."),
            "content/coins/ort/1901.md": coin("1901", "parted: {on: 2020-01-01, how: sold}", notes="Sold."),
            "content/coins/ort/1893.md": coin("1893", notes="See [[ort/1891]]."),
            "content/coins/ort/1903.md": coin("1903"),
            "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
        }
    )
    photo = Image.new("RGB", (300, 300), "white")
    ImageDraw.Draw(photo).ellipse((40, 40, 260, 260), fill="grey")
    (made / "content/photos/ort").mkdir(parents=True)
    photo.save(made / "content/photos/ort/1900.obverse.jpg")
    return made


@pytest.fixture
def whole_builds(folder, monkeypatch):
    """Every build of the whole edition of the folder that is made, by its reader."""
    made = []
    build_with = site.build_with

    def counted(built, reader, *args, **kwargs):
        if built == folder:
            made.append(reader)
        return build_with(built, reader, *args, **kwargs)

    monkeypatch.setattr(site, "build_with", counted)
    return made


@pytest.mark.parametrize(
    ("reader", "web"), [*((each, "") for each in Reader), (Reader.PUBLIC, "https://coins.example/ida/")]
)
def test_other_notes_are_brought_to_the_pages_that_show_them_alone(folder, whole_builds, reader, web):
    root = bring_up_to_date(folder, reader, web=web).output
    before = read_all(root)
    for then, now in (("Sharp", "Sharp, and *toned* all over"), ("toned", "washed"), ("washed", "toned")):
        replace_in(folder / COIN, then, now)
        result = bring_up_to_date(folder, reader, web=web)
        assert result.pages_written == 2
        assert len(result.removed) == 1
        assert len(whole_builds) == 1
        assert read_all(root) == clean(folder, reader, web)
    changed = {each for each, data in read_all(root).items() if data != before.get(each)}
    assert {each.partition("/")[0] for each in changed} == {"coins", "find"}


def test_notes_of_several_coins_are_taken_up_at_once(folder, whole_builds):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp.", "")
    replace_in(folder / OTHER_COIN, "Weak.", "Weaker.\n\nAnd *cracked*.")
    replace_in(folder / "content/coins/ort/1903.md", "date: 1903\n---\n", "date: 1903\n---\nNew.\n")
    result = bring_up_to_date(folder, Reader.PUBLIC)
    assert (result.pages_written, len(whole_builds)) == (4, 1)
    assert read_all(root) == clean(folder)


def test_what_was_made_is_remembered_as_by_any_build(folder, whole_builds):
    first = bring_up_to_date(folder, Reader.PUBLIC)
    replace_in(folder / COIN, "Sharp", "Sharper")
    again = bring_up_to_date(folder, Reader.PUBLIC)
    assert (again.problems, again.coins, again.pages_total) == (
        first.problems,
        first.coins,
        first.pages_total,
    )
    stands = bring_up_to_date(folder, Reader.PUBLIC)
    assert (stands.pages_written, stands.removed, len(whole_builds)) == (0, (), 1)
    stood = read_all(again.output)
    later = build(folder, Reader.PUBLIC)
    assert (later.pages_written, later.removed, later.strangers) == (0, (), ())
    assert read_all(again.output) == stood == clean(folder)


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    edits=st.lists(
        st.tuples(
            st.sampled_from(["1891", "1900", "1901", "1903"]),
            st.text(st.sampled_from("ab]|*#<&\n é\"'Σ") | st.characters(codec="utf-8"), max_size=40),
        ),
        max_size=4,
    )
)
def test_any_notes_give_what_a_clean_build_gives(folder, edits):
    names = ("1891", "1900", "1901", "1903")
    whole = {name: (folder / f"content/coins/ort/{name}.md").read_bytes() for name in names}
    try:
        root = bring_up_to_date(folder, Reader.PUBLIC).output
        for name, notes in edits:
            path = folder / f"content/coins/ort/{name}.md"
            matter = whole[name].decode().rpartition("---\n")[0]
            path.write_text(f"{matter}---\n{notes}\n", encoding="utf-8", newline="")
            if not bring_up_to_date(folder, Reader.PUBLIC).has_errors:
                assert read_all(root) == clean(folder)
    finally:
        for name, data in whole.items():
            (folder / f"content/coins/ort/{name}.md").write_bytes(data)


OTHERS = {
    "a grade": (COIN, "VF30", "VF35"),
    "a grade and notes": (COIN, "VF30", "VF35\ndesign: Sharp"),
    "a line more in the front matter": (COIN, "grade: VF30", "# seen again\ngrade: VF30"),
    "a plate in the notes": (COIN, "Sharp.", "[[ort/1900 both]]"),
    "a link to nothing": (COIN, "Sharp.", "[[ort/1800]]"),
    "a picture in the notes": (COIN, "Sharp.", "![A ship](ship.jpg)"),
    "a link taken out of the notes": ("content/coins/ort/1893.md", "See [[ort/1891]].", "See another."),
    "a private value in the notes": (COIN, "Sharp.", "From the Quillon cupboard."),
    "the end of the front matter": (COIN, "---\nSharp", "--\nSharp"),
    "the notes of a coin that is not shown": ("content/coins/ort/1901.md", "Sold.", "Sold well."),
    "an essay": ("content/pages/on-orts.md", "The first", "The very first"),
    "the settings": ("content/catalogue.yaml", "title:", "summary: All of them.\ntitle:"),
}


@pytest.mark.parametrize(("path", "before", "after"), OTHERS.values(), ids=OTHERS)
def test_whatever_else_changes_is_built_as_ever(folder, whole_builds, path, before, after):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    stood = read_all(root)
    replace_in(folder / path, before, after)
    result = bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 2
    assert read_all(root) == (stood if result.has_errors else clean(folder))
    assert result.problems == build(folder, Reader.PUBLIC).problems
    replace_in(folder / path, after, before)
    assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
    assert read_all(root) == clean(folder)


def test_notes_of_a_file_with_a_problem_are_built_as_ever(folder, whole_builds):
    replace_in(folder / COIN, "Sharp.", "![A ship](ship.jpg)")
    first = bring_up_to_date(folder, Reader.PUBLIC)
    assert [each.place.path for each in first.problems] == [COIN]
    replace_in(folder / COIN, "![A ship](ship.jpg)", "Sharp.")
    assert bring_up_to_date(folder, Reader.PUBLIC).problems == ()
    assert len(whole_builds) == 2


def test_a_coin_more_beside_other_notes_is_built_as_ever(folder, whole_builds, coin):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Sharper")
    (folder / "content/coins/ort/1897.md").write_text(coin("1897"), encoding="utf-8")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 2
    assert read_all(root) == clean(folder)


def test_many_notes_at_once_are_built_as_ever(folder, whole_builds, monkeypatch):
    monkeypatch.setattr(noting, "MOST", 1)
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Sharper")
    replace_in(folder / OTHER_COIN, "Weak.", "Weaker.")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 2
    assert read_all(root) == clean(folder)


def test_a_page_spoilt_meanwhile_is_mended(folder, whole_builds):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Sharper")
    (root / "index.html").write_text("spoilt", encoding="utf-8")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 2
    assert read_all(root) == clean(folder)


def test_notes_saved_just_now_are_taken_up_and_looked_at_again(folder, whole_builds, monkeypatch):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    newest = max(each.stat().st_ctime_ns for each in (folder / "content").rglob("*"))
    monkeypatch.setattr(standing, "has_settled", lambda changed_ns, now_ns: changed_ns <= newest)
    for then, now in (("Sharp", "Blunt"), ("Blunt", "Plain")):
        before = (folder / COIN).stat()
        replace_in(folder / COIN, then, now)
        os.utime(folder / COIN, ns=(before.st_atime_ns, before.st_mtime_ns))
        bring_up_to_date(folder, Reader.PUBLIC)
        assert read_all(root) == clean(folder)
        assert bring_up_to_date(folder, Reader.PUBLIC).pages_written == 0
    assert len(whole_builds) == 1
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 1


@pytest.mark.parametrize("steps", range(6))
def test_other_notes_cut_short_are_mended_by_the_next_build(folder, monkeypatch, steps):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    done = []

    def counting(name):
        whole = getattr(Output, name)

        def counted(self, *args):
            if len(done) == steps:
                raise KeyboardInterrupt
            done.append(name)
            return whole(self, *args)

        return counted

    replace_in(folder / COIN, "Sharp", "Cut short")
    with monkeypatch.context() as patched:
        for name in ("write", "_add", "_remove"):
            patched.setattr(Output, name, counting(name))
        with pytest.raises(KeyboardInterrupt):
            bring_up_to_date(folder, Reader.PUBLIC)
    bring_up_to_date(folder, Reader.PUBLIC)
    assert read_all(root) == clean(folder)


@pytest.mark.parametrize("ending", ["desk", "slips", "json"])
@pytest.mark.parametrize(
    "spoil", [lambda data: b"", lambda data: data[: len(data) // 2], lambda data: data[9:]]
)
def test_what_was_left_ready_counts_for_nothing_when_spoilt(folder, whole_builds, ending, spoil):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    path = folder / f".daterun/public.{ending}"
    path.write_bytes(spoil(path.read_bytes()))
    replace_in(folder / COIN, "Sharp", "Sharper")
    bring_up_to_date(folder, Reader.PUBLIC)
    wanted, left = clean(folder), read_all(root)
    if ending == "json":  # what is not known to have been made is left alone
        left = {each: left.get(each) for each in wanted}
    assert left == wanted
    assert len(whole_builds) == 2 or ending == "slips"  # of which the half that is left may do


def test_what_a_preview_or_another_build_made_meanwhile_is_seen(folder, whole_builds):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / OTHER_COIN, "Weak.", "Weak on one side.")
    build(folder, Reader.PUBLIC)
    replace_in(folder / COIN, "Sharp", "Sharper")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert read_all(root) == clean(folder)


def test_catalogues_of_very_many_coins_have_no_desk(folder, whole_builds, monkeypatch):
    bring_up_to_date(folder, Reader.PUBLIC)
    assert (folder / ".daterun/public.slips").exists()
    monkeypatch.setattr(site, "_MANY_COINS", 1)
    replace_in(folder / COIN, "VF30", "VF35")
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    assert not (folder / ".daterun/public.desk").exists()
    assert not (folder / ".daterun/public.slips").exists()
    replace_in(folder / COIN, "Sharp", "Sharper")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 3
    assert read_all(root) == clean(folder)


def test_an_edition_that_was_copied_elsewhere_has_no_old_words_left(folder, whole_builds, tmp_path):
    bring_up_to_date(folder, Reader.PUBLIC)
    for then, now in (("Sharp", "Blunt"), ("Blunt", "Plain")):
        replace_in(folder / COIN, then, now)
        bring_up_to_date(folder, Reader.PUBLIC)
    other = tmp_path / "copied"
    shutil.copytree(folder, other)
    replace_in(other / COIN, "Plain", "Sharp")
    for _ in range(2):
        result = bring_up_to_date(other, Reader.PUBLIC)
        assert (result.strangers, read_all(result.output)) == ((), clean(other))


def test_a_record_cut_short_is_taken_on_where_it_is_whole(folder, monkeypatch):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Blunt")
    bring_up_to_date(folder, Reader.PUBLIC)
    since = folder / ".daterun/public.json.since"
    whole = since.read_bytes()
    for cut in (whole[:-9], whole + b'{"seal":'):
        since.write_bytes(cut)
        replace_in(folder / COIN, "Blunt", "Plain")
        bring_up_to_date(folder, Reader.PUBLIC)
        replace_in(folder / COIN, "Plain", "Blunt")
        assert bring_up_to_date(folder, Reader.PUBLIC).strangers == ()
        assert read_all(root) == clean(folder)


def test_a_file_of_the_keepers_own_in_the_way_of_words_is_named_as_ever(folder, whole_builds):
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Blunt")
    (name,) = (each for each in clean(folder) if each.startswith("find/texts-"))
    replace_in(folder / COIN, "Blunt", "Sharp")
    (root / name).write_text("mine", encoding="utf-8")
    assert bring_up_to_date(folder, Reader.PUBLIC).strangers == (name,)
    replace_in(folder / COIN, "Sharp", "Blunt")
    with pytest.raises(CannotContinue, match="was not made by Daterun"):
        bring_up_to_date(folder, Reader.PUBLIC)
    assert (root / name).read_text(encoding="utf-8") == "mine"


def test_a_desk_that_seeks_less_counts_for_nothing(folder, whole_builds):
    bring_up_to_date(folder, Reader.PUBLIC)
    path = folder / ".daterun/public.desk"
    stored = json.loads(unseal(path.read_text(encoding="utf-8")))
    assert stored["sought"]
    path.write_text(seal(json.dumps({**stored, "sought": []})), encoding="utf-8")
    replace_in(folder / COIN, "Sharp.", "From the Quillon cupboard.")
    assert bring_up_to_date(folder, Reader.PUBLIC).has_errors


def test_words_let_be_for_what_the_notes_said_are_sought_once_they_do_not(folder, whole_builds):
    said = "Found under the hearth"
    replace_in(folder / "content/coins/ort/1901.md", "Sold.", said)
    replace_in(folder / COIN, "Sharp.", f"{said}, sharp.")
    (folder / "themes/tray/words").mkdir(parents=True)
    (folder / "themes/tray/words/en.yaml").write_text(f"nav.denominations: {said}\n", encoding="utf-8")
    assert not bring_up_to_date(folder, Reader.PUBLIC).has_errors
    replace_in(folder / COIN, f"{said}, sharp.", "Sharp.")
    assert bring_up_to_date(folder, Reader.PUBLIC).has_errors
    assert len(whole_builds) == 2


def test_after_many_times_all_is_read_again(folder, whole_builds, monkeypatch):
    monkeypatch.setattr(noting, "MOST_TIMES", 2)
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    for nth in range(4):
        replace_in(folder / COIN, "Sharp", "Sharp and sharp")
        bring_up_to_date(folder, Reader.PUBLIC)
        assert len(whole_builds) == (1 if nth < 2 else 2)
    assert read_all(root) == clean(folder)


def test_hidden_files_beside_the_coins_are_nothing_to_them(folder, whole_builds):
    (folder / "content/coins/ort/.#1891.md").write_text("left by an editor", encoding="utf-8")
    root = bring_up_to_date(folder, Reader.PUBLIC).output
    replace_in(folder / COIN, "Sharp", "Blunt")
    bring_up_to_date(folder, Reader.PUBLIC)
    assert len(whole_builds) == 1
    assert read_all(root) == clean(folder)
