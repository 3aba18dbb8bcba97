"""Commands as they are typed, on small catalogues: what is said, and the exit code."""

import json

import pytest

from daterun.command.main import main


@pytest.fixture
def good(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: VF30")})


@pytest.fixture
def bad(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: MS-72")})


def run(capsys, *arguments):
    code = main([str(each) for each in arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_check_shows_each_problem_with_its_line_and_sums_up(capsys, bad):
    code, out, _ = run(capsys, "check", "--folder", bad)
    assert code == 1
    assert out.startswith("content/coins/ort/1891.md:4:8: error: grade")
    assert "  4 | grade: MS-72\n    |        ^^^^^\n" in out
    assert out.endswith("1 error in 1 file.\n")


def test_a_check_without_errors_is_fine(capsys, good):
    code, out, _ = run(capsys, "check", "--folder", good)
    assert (code, out) == (0, "No problems in 1 coin.\n")


def test_a_check_for_a_program_is_json_and_nothing_else(capsys, bad):
    code, out, err = run(capsys, "check", "--json", "--folder", bad)
    told = json.loads(out)
    assert (code, told["errors"], err) == (1, 1, "")
    assert told["problems"][0]["line"] == 4


def test_a_build_says_what_was_made_and_where_to_open_it(capsys, good):
    code, out, _ = run(capsys, "build", "--folder", good)
    assert code == 0
    assert (good / "output" / "public" / "index.html").resolve().as_uri() in out.splitlines()[-1]
    _, again, _ = run(capsys, "build", "--folder", good)
    assert "all as they were." in again


def test_a_build_for_another_reader_goes_to_a_folder_of_its_own(capsys, good, tmp_path):
    assert run(capsys, "build", "--folder", good, "--for", "keeper", "--output", tmp_path / "mine")[0] == 0
    assert (tmp_path / "mine" / "robots.txt").is_file()
    assert not (good / "output").exists()


def test_a_build_with_errors_shows_them_and_makes_nothing(capsys, bad):
    code, out, err = run(capsys, "build", "--folder", bad)
    assert code == 1
    assert "content/coins/ort/1891.md:4:8: error: grade" in out
    assert err == "Nothing was built; the last good site, if there is one, is as it was.\n"
    assert not (bad / "output").exists()


def test_a_mistake_in_a_theme_is_shown_with_the_line_of_its_file(capsys, good):
    template = good / "themes/tray/templates/coin.html.j2"
    template.parent.mkdir(parents=True)
    template.write_text("<p>\n{{ view.nothing }}\n")
    code, out, _ = run(capsys, "build", "--folder", good)
    assert code == 1
    assert "themes/tray/templates/coin.html.j2:2:1: error:" in out
    assert "  2 | {{ view.nothing }}" in out


@pytest.mark.parametrize("command", ["build", "check"])
def test_a_mistake_in_the_words_of_a_theme_is_shown_from_where_they_lie(capsys, good, command):
    words = good / "themes/tray/words/en.yaml"
    words.parent.mkdir(parents=True)
    words.write_text("nav.home: [a, b]\n")
    code, out, _ = run(capsys, command, "--folder", good)
    assert code == 1
    assert "themes/tray/words/en.yaml:1:11: error: phrases are written as keys with texts" in out


def test_a_check_refuses_a_theme_that_is_not_there_in_the_words_of_a_build(capsys, bad):
    settings = bad / "content/catalogue.yaml"
    settings.write_text(settings.read_text() + "theme: trya\n")
    line = settings.read_text().count("\n")
    code, out, _ = run(capsys, "check", "--folder", bad)
    assert code == 1
    said = f'content/catalogue.yaml:{line}:8: error: there is no theme "trya" [theme]\n'
    assert out.startswith(said)
    assert "error: grade" in out
    assert out.endswith("2 errors in 2 files.\n")
    (bad / "content/coins/ort/1891.md").unlink()
    assert run(capsys, "build", "--folder", bad)[1].startswith(said)


def test_an_edition_in_a_folder_that_may_not_be_written_is_wrong_usage(capsys, good):
    code, _, err = run(capsys, "build", "--folder", good, "--output", good / "content")
    assert code == 2
    assert "which is the keeper's" in err


def test_gaps_can_be_asked_for(capsys, good):
    code, out, _ = run(capsys, "gaps", "--json", "--folder", good)
    assert code == 0
    assert json.loads(out)["series"][0]["filled"] == 1
