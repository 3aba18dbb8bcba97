import pytest

from daterun.press.turns import AnotherAtWork
from daterun.preview.loop import Preview
from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.result import BuildResult
from daterun.site import Built


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder(
        {"content/coins/ort/1891.md": coin("1891", "grade: VF30", notes="A sharp strike.")}
    )


@pytest.fixture
def preview(folder):
    return Preview(folder, Reader.PUBLIC, lambda problems: "\n".join(each.sentence for each in problems))


def write(folder, notes, date="1891"):
    text = f"---\nseries: ort\ndate: {date}\ngrade: VF30\n---\n{notes}\n"
    (folder / "content/coins/ort/1891.md").write_text(text)


def test_it_builds_at_once_and_again_at_every_change(preview, folder):
    def changes():
        write(folder, "A weak strike.")
        yield ()

    first = next(preview.follow([()]))
    assert first.pages_written == first.pages_total
    page = preview.root / "coins/ort/1891/index.html"
    assert "A sharp strike." in page.read_text()
    (again,) = preview.follow(changes())
    assert again.pages_written == 2  # the coin's, and the one that finds words in notes
    assert "A weak strike." in page.read_text()


def test_browsers_are_told_only_of_what_changed(preview, folder):
    versions = []
    changes = iter([lambda: None, lambda: None, lambda: write(folder, "x")])

    def follow():
        for change in changes:
            change()
            yield ()

    for _ in preview.follow(follow()):
        versions.append(preview.showing.version)
    assert versions[0] == versions[1] != versions[2]


def test_errors_are_shown_over_the_last_good_pages_until_they_are_mended(preview, folder):
    shown = []

    def changes():
        yield ()
        write(folder, "x", date="1898")
        yield ()
        write(folder, "x")
        yield ()

    for _ in preview.follow(changes()):
        shown.append(preview.showing.problems)
    assert shown[0] == shown[2] == ""
    assert "1898" in shown[1]
    assert (preview.root / "index.html").is_file()


def test_a_catalogue_that_goes_away_is_a_problem_and_may_come_back(preview, folder):
    settings = folder / "content/catalogue.yaml"
    text = settings.read_text()

    def changes():
        settings.unlink()
        yield ()
        settings.write_text(text)
        yield ()

    gone, back = preview.follow(changes())
    assert "content/catalogue.yaml is not there" in gone.problems[0].sentence
    assert gone.has_errors and not back.has_errors


def test_a_folder_that_is_no_catalogue_is_told_at_once(tmp_path):
    preview = Preview(tmp_path, Reader.PUBLIC, lambda problems: "")
    with pytest.raises(CannotContinue, match="there is no catalogue"):
        next(preview.builds())


def test_it_follows_the_keeper_s_own_editor(preview, folder):
    builds = preview.builds()
    assert next(builds).pages_written > 0
    write(folder, "Saved from an editor.")
    assert next(builds).pages_written == 2
    builds.close()


def test_it_builds_as_soon_as_no_other_process_is_at_work(preview, monkeypatch):
    tried = []

    def build(*args, **named):
        tried.append(args)
        if len(tried) < 3:
            raise AnotherAtWork("another daterun is at work")
        return Built(BuildResult((), 1, preview.root))

    monkeypatch.setattr("daterun.workshop.build_with", build)
    monkeypatch.setattr("daterun.preview.loop.PAUSE", 0)
    (result,) = preview.follow([()])
    assert not result.has_errors
    assert len(tried) == 3
