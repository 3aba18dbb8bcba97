"""``daterun print`` as it is typed."""

import pytest

from daterun.command.main import main


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder({"content/coins/ort/1891.md": coin("1891", "grade: VF30")})


def test_what_was_printed_is_named_and_a_second_time_is_as_it_was(folder, capsys):
    assert main(["print", "--folder", str(folder)]) == 0
    path = folder / "output/public/print/catalogue.pdf"
    assert f"{path.resolve().as_uri()} (written)" in capsys.readouterr().out
    assert main(["print", "catalogue", "--folder", str(folder)]) == 0
    assert "catalogue.pdf (as it was)" in capsys.readouterr().out


def test_a_test_sheet_of_labels_stands_beside_the_labels(folder):
    assert main(["print", "labels", "--test", "--sheet", "small", "--folder", str(folder)]) == 0
    assert main(["print", "labels", "--sheet", "small", "--folder", str(folder)]) == 0
    names = {each.name for each in (folder / "output/public/print").iterdir()}
    assert names == {"labels.pdf", "labels-test.pdf"}


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (["wants", "--monarch", "x"], "--monarch is for catalogue, labels and schedule, not for wants"),
        (["catalogue", "--fold"], "--fold is for wants, not for catalogue"),
        (["labels", "--sheet", "smal"], '--sheet: "smal" is no sheet of labels; did you mean "small"?'),
        (["schedule"], "the schedule is for the keeper alone; write --for keeper"),
    ],
)
def test_wrong_usage_is_told_in_a_sentence(folder, capsys, typed, sentence):
    assert main(["print", *typed, "--folder", str(folder)]) == 2
    assert sentence in capsys.readouterr().err


def test_a_thing_that_is_not_printed_is_met_with_the_nearest(folder, capsys):
    with pytest.raises(SystemExit) as left:
        main(["print", "catlogue", "--folder", str(folder)])
    assert left.value.code == 2
    assert 'did you mean "catalogue"?' in capsys.readouterr().err


def test_problems_are_shown_and_nothing_is_printed(folder, capsys):
    coin = folder / "content/coins/ort/1891.md"
    coin.write_text(coin.read_text(encoding="utf-8").replace("VF30", "MS-72"), encoding="utf-8")
    assert main(["print", "--folder", str(folder)]) == 1
    said = capsys.readouterr()
    assert "MS-72" in said.out
    assert "1 error in 1 file." in said.out
    assert "Nothing was printed" in said.err
    assert not (folder / "output").exists()
