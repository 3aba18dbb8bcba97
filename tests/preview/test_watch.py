import queue
from dataclasses import dataclass

import pytest

from daterun.preview.watch import Watch, relevant, watching


class Script:
    """Events that come after given times; no time passes in truth."""

    def __init__(self, *events):
        self.events = list(events)
        self.waits = []

    def get(self, timeout):
        self.waits.append(timeout)
        after, path, *what = self.events[0] if self.events else (float("inf"), "")
        if after > timeout:
            if self.events:
                self.events[0] = (after - timeout, path, *what)
            raise queue.Empty
        self.events.pop(0)
        return path, what[0] if what else "modified"


def test_events_close_together_are_one_change():
    watch = Watch(Script((3.0, "a"), (0.1, "b"), (0.1, "a"), (0.2, "c")), quiet=0.15, clock=lambda: 0.0)
    changes = watch.changes()
    assert next(changes) == {"a", "b"}
    assert next(changes) == {"c"}


def test_a_text_saved_after_a_calm_is_followed_at_once_and_what_follows_it_in_one():
    saves = Script((3.0, "a.md"), (0.01, "a.md"), *[(0.05, "a.md")] * 8, (0.2, "b.md"))
    watch = Watch(saves, quiet=0.15, clock=lambda: 0.0)
    assert watch.next_change() == {"a.md"}
    assert len(saves.events) == 9  # of ten quick saves the first is followed at once
    assert watch.next_change() == {"a.md"}
    assert len(saves.events) == 1  # and the others in one


def test_a_photo_is_given_the_time_to_be_written():
    watch = Watch(Script((3.0, "a.jpg"), (0.1, "a.jpg"), (0.1, "a.md"), (0.2, "c")), quiet=0.15)
    assert watch.next_change() == {"a.jpg", "a.md"}


def test_a_photo_that_is_told_to_be_whole_is_followed_at_once():
    saves = Script((3.0, "a.jpg"), (0.1, "a.jpg"), (0.1, "a.jpg", "closed"), (0.05, "b.jpg"))
    watch = Watch(saves, quiet=0.15, clock=lambda: 0.0)
    assert watch.next_change() == {"a.jpg"}
    assert watch.next_change() == {"b.jpg"}


def test_a_file_that_is_closed_after_its_change_is_over_is_no_change_of_its_own():
    saves = Script((3.0, "a.md"), (0.05, "a.md", "closed"), (0.7, "b.md"))
    watch = Watch(saves, quiet=0.15, clock=lambda: 0.0)
    assert watch.next_change() == {"a.md"}
    assert watch.next_change() == {"b.md"}


def test_a_photo_that_is_written_again_is_not_whole():
    saves = Script((3.0, "a.jpg", "moved"), (0.01, "a.jpg"), (0.1, "b.jpg", "moved"), (0.1, "c.md"))
    watch = Watch(saves, quiet=0.15, clock=lambda: 0.0)
    assert watch.next_change() == {"a.jpg", "b.jpg", "c.md"}


@dataclass
class Event:
    event_type: str
    src_path: str
    dest_path: str = ""
    is_directory: bool = False


@pytest.mark.parametrize(
    ("event", "paths"),
    [
        (Event("modified", "content/coins/a.md"), ["content/coins/a.md"]),
        (Event("moved", "content/.a.md.tmp", "content/a.md"), ["content/a.md"]),
        (Event("moved", "content/a.md", "content/a.md~"), ["content/a.md"]),
        (Event("deleted", "content/coins", is_directory=True), ["content/coins"]),
        (Event("created", "content/.a.md.swp"), []),
        (Event("created", "content/#a.md#"), []),
        (Event("modified", "content/coins", is_directory=True), []),
        (Event("opened", "content/a.md"), []),
        (Event("closed", "content/a.md"), ["content/a.md"]),
        (Event("closed_no_write", "content/a.md"), []),
        (Event("modified", b"content/a.md"), ["content/a.md"]),
    ],
)
def test_only_changes_to_what_is_read_are_of_interest(event, paths):
    assert relevant(event) == paths


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "content" / "coins").mkdir(parents=True)
    (tmp_path / "content" / "coins" / "a.md").write_text("one")
    return tmp_path


def names(change):
    return {each.rpartition("/")[2] for each in change}


def test_a_file_that_is_written_is_a_change(folder):
    with watching(folder, quiet=0.01) as watch:
        (folder / "content" / "coins" / "a.md").write_text("two")
        assert "a.md" in names(watch.next_change())


def test_a_file_saved_by_replacing_is_a_change(folder):
    with watching(folder, quiet=0.01) as watch:
        (folder / "content" / "coins" / ".a.md.new").write_text("two")
        (folder / "content" / "coins" / ".a.md.new").replace(folder / "content" / "coins" / "a.md")
        assert names(watch.next_change()) == {"a.md"}


def test_a_themes_folder_that_comes_later_is_watched_too(folder):
    with watching(folder, quiet=0.01) as watch:
        (folder / "themes").mkdir()
        assert names(watch.next_change()) == {"themes"}
        (folder / "themes" / "style.css").write_text("p {}")
        assert "style.css" in names(watch.next_change())
