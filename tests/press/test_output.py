import os

import pytest

from daterun.press.fingerprints import Mark
from daterun.press.folders import SIGN
from daterun.press.made import read_made
from daterun.press.output import check_addresses, claim, open_output
from daterun.problems import CannotContinue
from daterun.sealed import seal, unseal


@pytest.fixture
def site(tmp_path):
    return tmp_path / "site"


@pytest.fixture
def build(tmp_path, site):
    """Write pages, given as texts by address, as a build does; tell what was written and what removed."""

    def run(pages, mark="1", after=lambda output: None):
        output = open_output(site, "public", tmp_path / "memory.json")
        output.check_free(pages)
        stale = {}
        for address, text in pages.items():
            if reason := output.reason(address, Mark(f"{text}{mark}")):
                output.expect(address, Mark(f"{text}{mark}"), reason, text.encode())
                stale[address] = text
        claim(output)
        with output.remembering():
            written = []
            for address, text in stale.items():
                after(output)
                if output.write(address, text.encode()):
                    written.append(address)
            removed = output.remove_leftovers(pages)
        return written, list(removed)

    return run


def files(site):
    return sorted(
        path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file() and path.name != SIGN
    )


PAGES = {"index.html": "home", "coins/a/index.html": "a", "coins/b/index.html": "b"}


def test_all_is_written_at_first_and_nothing_again(build, site):
    assert build(PAGES) == (list(PAGES), [])
    assert files(site) == sorted(PAGES)
    times = {each: (site / each).stat().st_mtime_ns for each in PAGES}
    assert build(PAGES) == ([], [])
    assert times == {each: (site / each).stat().st_mtime_ns for each in PAGES}


def test_only_what_differs_is_written(build, site):
    build(PAGES)
    assert build({**PAGES, "coins/a/index.html": "changed"}) == (["coins/a/index.html"], [])
    assert (site / "coins/a/index.html").read_text() == "changed"


def test_a_page_made_again_to_the_same_bytes_is_not_written(build):
    build(PAGES)
    assert build(PAGES, mark="2") == ([], [])


def test_what_is_no_longer_made_goes_with_its_empty_folder(build, site):
    build(PAGES)
    assert build({"index.html": "home"}) == ([], ["coins/a/index.html", "coins/b/index.html"])
    assert not (site / "coins").exists()


def test_a_leftover_that_another_hand_changed_stays(build, site):
    build(PAGES)
    (site / "coins/a/index.html").write_text("mine now")
    assert build({"index.html": "home"}) == ([], ["coins/b/index.html"])
    assert (site / "coins/a/index.html").read_text() == "mine now"


def test_a_stranger_s_file_stays_and_is_named(build, site, tmp_path):
    build(PAGES)
    (site / "coins/a/notes.txt").write_text("mine")
    build({"index.html": "home"})
    assert files(site) == ["coins/a/notes.txt", "index.html"]
    assert open_output(site, "public", tmp_path / "memory.json").strangers(PAGES) == ("coins/a/notes.txt",)


def test_a_file_that_is_gone_or_changed_is_made_again(build, site):
    build(PAGES)
    (site / "index.html").unlink()
    (site / "coins/a/index.html").write_text("x")
    assert build(PAGES) == (["index.html", "coins/a/index.html"], [])


def test_a_file_touched_but_the_same_is_left(build, site):
    build(PAGES)
    os.utime(site / "index.html", ns=(1, 1))
    assert build(PAGES) == ([], [])
    assert (site / "index.html").stat().st_mtime_ns == 1


def test_the_reason_for_making_a_page_is_remembered(build, site, tmp_path):
    build(PAGES)
    (site / "coins/b/index.html").unlink()
    build({**PAGES, "coins/a/index.html": "changed"})
    made = read_made(tmp_path / "memory.json")
    assert {address: each.reason for address, each in made.items()} == {
        "index.html": "it is new",
        "coins/a/index.html": "what it shows has changed",
        "coins/b/index.html": "its file was gone",
    }


@pytest.mark.parametrize(
    "broken", [None, "", "{", "[]", '{"version":1,"made":{"a":1}}', '{"version":99}', "\x00"]
)
def test_a_lost_or_broken_memory_costs_nothing_but_time(build, site, tmp_path, broken):
    build(PAGES)
    memory = tmp_path / "memory.json"
    if broken is None:
        memory.unlink()
    else:
        memory.write_text(broken)
    assert build(PAGES) == ([], [])
    assert build({"index.html": "home"}) == ([], ["coins/a/index.html", "coins/b/index.html"])


def test_a_record_of_the_earlier_version_counts_where_nothing_was_added_to_it(build, tmp_path):
    build(PAGES)
    memory = tmp_path / "memory.json"
    whole = read_made(memory)
    memory.write_text(seal(unseal(memory.read_text()).replace('"version":2', '"version":1', 1)))
    assert read_made(memory) == whole
    (tmp_path / "memory.json.since").write_text("of another time\n")
    assert read_made(memory) == {}


def test_a_folder_that_holds_others_files_at_our_addresses_is_refused(build, site):
    site.mkdir()
    (site / "index.html").write_text("somebody's home page")
    with pytest.raises(CannotContinue, match=r"index\.html is there already and was not made by Daterun"):
        build(PAGES)
    assert files(site) == ["index.html"]
    assert not (site / SIGN).exists()


def test_a_folder_with_others_files_elsewhere_is_shared(build, site):
    site.mkdir()
    (site / "CNAME").write_text("example.org")
    assert build(PAGES) == (list(PAGES), [])
    assert build({}) == ([], sorted(PAGES))
    assert files(site) == ["CNAME"]


def test_a_new_page_never_takes_the_place_of_a_stranger_s_file(build, site):
    build({"index.html": "home"})
    (site / "map.html").write_text("mine")
    with pytest.raises(CannotContinue, match="was not made by Daterun"):
        build({"index.html": "home", "map.html": "ours"})
    assert (site / "map.html").read_text() == "mine"


class Killed(BaseException):
    pass


@pytest.mark.parametrize("at", range(3))
def test_a_build_that_is_killed_leaves_every_file_whole_and_the_next_mends_the_rest(build, site, at):
    build(PAGES)
    newer = {address: f"{text} newer" for address, text in PAGES.items()}
    calls = []

    def kill(output):
        calls.append(1)
        if len(calls) > at:
            raise Killed

    with pytest.raises(Killed):
        build(newer, after=kill)
    for address in PAGES:
        assert (site / address).read_text() in (PAGES[address], newer[address])
    written, _ = build(newer)
    assert len(written) == 3 - at
    assert {each: (site / each).read_text() for each in PAGES} == newer
    assert files(site) == sorted(PAGES)


def test_what_a_killed_build_wrote_is_not_forgotten(build, site, monkeypatch, tmp_path):
    """Killed so hard that even the memory of what was written is that from before the writing."""
    import daterun.press.output as module

    saves = []
    whole = module.write_made

    def save_once(path, made):
        saves.append(1)
        if len(saves) == 1:
            whole(path, made)

    monkeypatch.setattr(module, "write_made", save_once)
    build(PAGES)
    monkeypatch.setattr(module, "write_made", whole)
    assert build({"index.html": "home"}) == ([], ["coins/a/index.html", "coins/b/index.html"])


def test_a_half_written_file_is_swept_up(build, site):
    build(PAGES)
    (site / "coins/a/.0123.daterun-new").write_text("half")
    build(PAGES)
    assert files(site) == sorted(PAGES)


def test_a_link_to_a_folder_within_is_refused(build, site, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    site.mkdir()
    (site / "coins").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(CannotContinue, match="is a link to another folder"):
        build(PAGES)
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_link_in_the_place_of_a_page_is_replaced_and_its_target_left(build, site, tmp_path):
    build(PAGES)
    (tmp_path / "target").write_text("home")
    (site / "index.html").unlink()
    (site / "index.html").symlink_to(tmp_path / "target")
    build({**PAGES, "index.html": "new"})
    assert (tmp_path / "target").read_text() == "home"
    assert not (site / "index.html").is_symlink()


def test_a_folder_that_holds_another_edition_is_refused(build, site):
    (site / "club").mkdir(parents=True)
    (site / "club" / SIGN).write_text("club")
    with pytest.raises(CannotContinue, match="holds another edition, in club"):
        build(PAGES)


def test_a_place_that_cannot_be_written_is_named(build, site):
    site.mkdir()
    (site / "coins").write_text("a file where a folder is needed")
    with pytest.raises(CannotContinue, match="cannot be written"):
        build(PAGES)


def test_two_pages_at_one_place_are_refused():
    with pytest.raises(
        CannotContinue, match=r"coins/Ort/index\.html and coins/ort/index\.html are one place"
    ):
        check_addresses(["coins/ort/index.html", "coins/Ort/index.html"])


def test_a_page_that_is_another_s_folder_is_refused():
    with pytest.raises(
        CannotContinue, match=r"coins/a would be both a file and the folder of coins/a/index\.html"
    ):
        check_addresses(["coins/a", "coins/a/index.html"])


def test_a_leftover_that_cannot_be_removed_is_named_and_not_forgotten(build, site, monkeypatch):
    build(PAGES)
    less = {"index.html": "home"}

    def busy(self, missing_ok=False):
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as patched:
        patched.setattr("pathlib.Path.unlink", busy)
        with pytest.raises(CannotContinue, match=r"coins/a/index\.html cannot be removed: Permission denied"):
            build(less)
    assert build(less) == ([], ["coins/a/index.html", "coins/b/index.html"])
