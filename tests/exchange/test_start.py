import os

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.exchange.carried import choose
from daterun.exchange.start import lay_out
from daterun.problems import CannotContinue
from daterun.records.catalogue import read_catalogue
from daterun.records.settings import SETTINGS


def problems_of(folder):
    catalogue, problems = read_catalogue(folder)
    return [*problems, *check_catalogue(catalogue, None)]


def test_a_catalogue_laid_out_has_no_problem(tmp_path):
    laid = lay_out(tmp_path / "coins")
    assert problems_of(tmp_path / "coins") == []
    assert {
        "content/catalogue.yaml",
        "content/series/vessmark/ort.yaml",
        "content/coins/ort/1899.md",
        "content/pages/about.md",
        "themes/tray/NOTE.md",
    } <= set(laid.files)
    assert sorted(each.relative_to(tmp_path / "coins").as_posix() for each in (tmp_path / "coins").rglob("*")
                  if each.is_file()) == list(laid.files)  # fmt: skip


def test_every_option_of_the_settings_is_explained_in_place(tmp_path):
    lay_out(tmp_path)
    text = (tmp_path / "content/catalogue.yaml").read_text(encoding="utf-8")
    assert [
        each.key
        for each in SETTINGS.fields
        if f"\n# {each.key}:" not in text and f"\n{each.key}:" not in text
    ] == []


def test_the_options_that_are_turned_off_can_be_turned_on(tmp_path):
    lay_out(tmp_path)
    path = tmp_path / "content/catalogue.yaml"
    lines = path.read_text(encoding="utf-8").splitlines()
    keys = tuple(f"# {each.key}:" for each in SETTINGS.fields)
    turned = [line[2:] if line.startswith((*keys, "#  ")) else line for line in lines]
    path.write_text("\n".join(turned), encoding="utf-8")
    assert [each.sentence for each in problems_of(tmp_path) if each.rule != "after as of"] == []


def test_a_folder_in_use_is_refused_and_left_as_it_was(tmp_path):
    (tmp_path / "letters.txt").write_text("mine")
    with pytest.raises(CannotContinue, match="is in use: it holds letters"):
        lay_out(tmp_path)
    assert [each.name for each in tmp_path.iterdir()] == ["letters.txt"]


def test_a_file_is_no_folder_to_lay_out(tmp_path):
    (tmp_path / "coins").write_text("mine")
    with pytest.raises(CannotContinue, match="is a file"):
        lay_out(tmp_path / "coins")


def test_hidden_files_do_not_make_a_folder_one_in_use(tmp_path):
    (tmp_path / ".git").mkdir()
    lay_out(tmp_path)
    assert problems_of(tmp_path) == []


def test_a_name_that_no_starter_series_has_writes_nothing(tmp_path):
    with pytest.raises(CannotContinue, match='no starter series "zealand"; did you mean "new-zealand"'):
        lay_out(tmp_path / "coins", ["zealand"])
    assert not (tmp_path / "coins").exists()


def test_starter_series_can_be_chosen_one_by_one():
    assert choose(["new-zealand/florin", "farthing"]).series == (
        "new-zealand/florin",
        "united-kingdom/farthing",
    )
    assert choose(["new-zealand/florin"]).files.keys() == {
        "content/issuers/new-zealand.yaml",
        "content/series/new-zealand/florin.yaml",
    }
    with pytest.raises(CannotContinue, match="several starter series"):
        choose(["florin"])


@pytest.mark.skipif(
    os.name == "nt" or os.geteuid() == 0, reason="rights over folders are not kept from this user"
)
def test_a_folder_that_cannot_be_written_is_told(tmp_path):
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(CannotContinue, match="cannot be written"):
            lay_out(tmp_path / "coins")
    finally:
        tmp_path.chmod(0o700)
