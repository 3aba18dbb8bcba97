"""A catalogue begun and a coin added as they are typed."""

import datetime

import pytest

from daterun.command.main import main


def run(capsys, *arguments):
    code = main([str(each) for each in arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


@pytest.fixture
def started(tmp_path, capsys):
    folder = tmp_path / "coins"
    assert run(capsys, "start", folder)[0] == 0
    return folder


def test_a_catalogue_that_was_started_passes_the_check_and_builds(started, capsys):
    assert run(capsys, "check", "--folder", started)[:2] == (0, "No problems in 1 coin.\n")
    assert run(capsys, "build", "--folder", started)[0] == 0
    assert (started / "output/public/coins/ort/1899/index.html").is_file()


def test_a_start_says_what_to_do_next(tmp_path, capsys):
    _, out, _ = run(capsys, "start", tmp_path / "coins")
    assert f"daterun add --folder {tmp_path / 'coins'} SERIES DATE" in out
    assert "content/catalogue.yaml" in out


def test_starter_series_say_how_far_they_are_verified_and_build(tmp_path, capsys):
    folder = tmp_path / "coins"
    code, out, _ = run(capsys, "start", folder, "--series", "new-zealand/crown", "union-of-south-africa")
    assert code == 0
    assert "  new-zealand/crown: dates from published sources; standards from published sources;" in out
    assert "  union-of-south-africa/shilling: dates from memory;" in out
    assert "left out are penny, halfpenny and farthing" in out
    assert run(capsys, "check", "--folder", folder)[:2] == (0, "No problems, and no coins yet.\n")
    assert run(capsys, "build", "--folder", folder)[0] == 0


def test_a_folder_in_use_is_wrong_usage(started, capsys):
    code, _, err = run(capsys, "start", started)
    assert code == 2
    assert "is in use: it holds content" in err


def test_the_folder_can_be_named_as_with_every_command(tmp_path, capsys):
    assert run(capsys, "start", "--folder", tmp_path / "coins")[0] == 0
    assert (tmp_path / "coins/content/catalogue.yaml").is_file()


def test_a_coin_added_is_written_with_the_day_and_what_it_does(started, capsys, tmp_path):
    photo = tmp_path / "0412.jpg"
    photo.write_bytes(b"photo")
    code, out, _ = run(
        capsys, "add", "--folder", started, "ort", "1897", "--grade", "VF30", "--acquired", "2024-02-11",
        "--price", "45VKR", "--from", "R. Tarn", "--problem", "cleaned", "--obverse", photo,
    )  # fmt: skip
    assert code == 0
    assert out == (
        "Wrote content/coins/ort/1897.md\n"
        "Wrote content/photos/ort/1897.obverse.jpg\n"
        "Fills a gap in Ort: 1897.\n"
    )
    text = (started / "content/coins/ort/1897.md").read_text(encoding="utf-8")
    assert "\nacquired: {on: 2024-02-11, from: R. Tarn, price: 45VKR}\n" in text
    assert "\nproblem: cleaned\n" in text
    assert f"\nadded: {datetime.date.today()}\n" in text


def test_a_coin_that_cannot_be_is_shown_with_its_line_and_not_written(started, capsys):
    code, out, err = run(capsys, "add", "--folder", started, "ort", "1898")
    assert (code, err) == (1, "Nothing was written.\n")
    assert out.startswith(
        "content/coins/ort/1898.md:3:7: error: none of the series Ort was struck with the date"
    )
    assert "  3 | date: 1898\n" in out
    assert not (started / "content/coins/ort/1898.md").exists()


def test_a_date_with_two_mints_is_asked_about(started, capsys):
    assert "hint: write mint: none or K" in run(capsys, "add", "--folder", started, "ort", "1902")[1]
    assert run(capsys, "add", "--folder", started, "ort", "1902", "--mint", "K")[0] == 0
