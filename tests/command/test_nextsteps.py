import os

import pytest

from daterun.command.main import main
from daterun.command.nextsteps import say_next


def said(folder):
    return list(say_next(folder))


def test_a_folder_with_other_things_is_left_to_them(tmp_path):
    (tmp_path / "mine.csv").write_text("Year\n1899\n")
    assert said(tmp_path) == [
        "There is no catalogue in this folder. Begin one in a new folder beside what is here:",
        "  daterun start my-coins",
        "  daterun start my-coins --series united-kingdom",
        "Then take in the table that lies here: daterun intake --folder my-coins mine.csv",
    ]


def test_a_catalogue_without_coins_asks_for_the_first(catalogue_folder):
    folder = catalogue_folder({})
    assert said(folder)[1:] == [
        "No coin is there yet. Add one, or take in a spreadsheet:",
        "  daterun add ort DATE",
        "  daterun intake FILE.csv",
    ]
    (folder / "old.xlsx").write_bytes(b"")
    assert said(folder)[-1] == "  daterun intake old.xlsx"


def test_a_catalogue_without_series_is_told_of_starters(catalogue_folder):
    folder = catalogue_folder(
        {"content/series/vessmark/ort.yaml": None, "content/catalogue.yaml": "title: A\n"}
    )
    (folder / "content/series/vessmark/ort.yaml").unlink(missing_ok=True)
    assert said(folder)[0] == "A: 0 coins of 0 series."
    assert "daterun start NEW-FOLDER --series united-kingdom" in said(folder)[2]


def test_errors_come_first(catalogue_folder, coin):
    folder = catalogue_folder({"content/coins/a.md": coin("1891", "grade: lovely")})
    assert said(folder)[1:] == [
        "1 error to be mended first; this shows each with its line:",
        "  daterun check",
    ]


@pytest.fixture
def good(catalogue_folder, coin):
    return catalogue_folder({"content/coins/a.md": coin("1891", "grade: VF30")})


def test_a_site_is_built_then_opened_then_built_again(good):
    assert said(good)[1:3] == ["The site is not built yet:", "  daterun build"]
    assert main(["build", "--folder", str(good)]) == 0
    assert said(good)[1].startswith("The site is built; open file:///")
    later = (good / "output/public/.daterun-edition").stat().st_mtime + 10
    os.utime(good / "content/coins/a.md", (later, later))
    assert said(good)[1].startswith("Files have changed since the site was last made")


def test_a_folder_within_a_catalogue_leads_up_to_it(good):
    assert said(good / "content/coins") == [
        f"This folder lies within the catalogue {good}. Commands are given there:",
        f"  cd {good}",
    ]


def test_a_command_given_within_a_catalogue_is_told_where_it_is(good, monkeypatch, capsys):
    monkeypatch.chdir(good / "content")
    assert main(["check"]) == 2
    assert capsys.readouterr().err == (
        "daterun: there is no catalogue in .: it has no folder named content\n"
        f"  hint: there is one in {good}: go there, or say --folder {good}\n"
    )


def test_a_command_given_where_there_is_no_catalogue_is_told_how_to_find_or_begin_one(tmp_path, capsys):
    assert main(["build", "--folder", str(tmp_path)]) == 2
    assert capsys.readouterr().err.endswith(
        "\n  hint: say --folder to name the folder of your catalogue, or begin one with daterun start\n"
    )


def test_another_trouble_has_no_hint_of_that_kind(good, capsys):
    assert main(["add", "--folder", str(good), "otr", "1891"]) == 2
    assert capsys.readouterr().err == 'daterun: there is no series "otr"; did you mean "ort"?\n'
