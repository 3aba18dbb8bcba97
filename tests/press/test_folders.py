import pytest

from daterun.press.folders import SIGN, choose_output
from daterun.problems import CannotContinue


@pytest.fixture
def folder(tmp_path):
    home = tmp_path / "coins"
    (home / "content").mkdir(parents=True)
    return home


def sign(folder, reader):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / SIGN).write_text(f"{reader}\n")
    return folder


def refusal(folder, reader, output):
    with pytest.raises(CannotContinue) as caught:
        choose_output(folder, reader, output)
    return str(caught.value)


def test_an_edition_goes_to_a_folder_named_after_its_reader(folder):
    assert choose_output(folder, "club", None) == (folder / "output" / "club").resolve()


def test_an_edition_may_go_anywhere_else(folder, tmp_path):
    assert choose_output(folder, "public", tmp_path / "site") == (tmp_path / "site").resolve()


def test_an_edition_may_be_made_again_where_it_is(folder, tmp_path):
    site = sign(tmp_path / "site", "public")
    assert choose_output(folder, "public", site) == site.resolve()


def test_an_edition_never_goes_inside_another(folder):
    sign(folder / "output" / "public", "public")
    assert "lies inside the public edition" in refusal(
        folder, "keeper", folder / "output" / "public" / "mine"
    )


def test_an_edition_never_takes_the_place_of_another_reader_s(folder, tmp_path):
    assert "holds the public edition" in refusal(folder, "keeper", sign(tmp_path / "site", "public"))


@pytest.mark.parametrize("where", ["content", "content/coins", "themes/x", ".daterun", ".git/x"])
def test_an_edition_never_goes_among_the_keeper_s_files(folder, where):
    assert "which is the keeper's" in refusal(folder, "public", folder / where)


@pytest.mark.parametrize("where", [".", ".."])
def test_an_edition_never_goes_round_the_catalogue(folder, where):
    assert "holds the catalogue itself" in refusal(folder, "public", folder / where)


def test_a_link_out_of_the_catalogue_is_refused(folder, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (folder / "output").symlink_to(tmp_path / "elsewhere")
    assert "is a link that leads out of the catalogue folder" in refusal(folder, "public", None)


def test_a_link_to_content_is_refused(folder, tmp_path):
    (tmp_path / "way").symlink_to(folder / "content")
    assert "which is the keeper's" in refusal(folder, "public", tmp_path / "way")


def test_a_file_is_no_folder(folder, tmp_path):
    (tmp_path / "site").write_text("")
    assert "is a file" in refusal(folder, "public", tmp_path / "site")
