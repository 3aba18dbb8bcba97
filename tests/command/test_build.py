import pytest

from daterun.command.build import describe, describe_strangers
from daterun.command.progress import tell_in_lines


@pytest.mark.parametrize(
    ("counts", "said"),
    [
        ((1, 1, 0, 0), "1 page: 1 of them written."),
        ((1200, 3, 1, 1), "1,200 pages: 3 of them written, 1 picture made, 1 file removed."),
        ((1200, 0, 0, 2), "1,200 pages: 0 of them written, 2 files removed."),
        ((1200, 0, 0, 0), "1,200 pages, all as they were."),
    ],
)
def test_a_build_is_told_in_a_sentence(counts, said):
    assert describe(*counts) == said


def test_strangers_are_named_while_they_are_few():
    assert describe_strangers(("CNAME",)) == "Not made by Daterun, and left alone: CNAME."
    assert (
        describe_strangers(("a", "b", "c", "d")) == "Not made by Daterun, and left alone: a, b, c and 1 more."
    )


def test_a_hidden_folder_of_strangers_is_named_once_and_a_repository_not_at_all():
    strangers = (".git/HEAD", ".git/config", ".well-known/a", ".well-known/b/c", "CNAME", "theirs/d")
    assert (
        describe_strangers(strangers) == "Not made by Daterun, and left alone: .well-known/, CNAME, theirs/d."
    )
    assert describe_strangers((".git/HEAD", ".git/objects/a")) == ""
    assert describe_strangers(()) == ""


def test_each_long_stage_of_a_build_is_told_once():
    lines = []
    tell = tell_in_lines(lines.append)
    tell("reading", 0, 0)
    for done in range(1, 4):
        tell("pictures", done, 1200)
        tell("pages", done, 20)
    assert lines == ["Making pictures: 1,200"]
    tell("reading", 0, 0)
    tell("pictures", 1, 300)
    assert lines[1:] == ["Making pictures: 300"]
