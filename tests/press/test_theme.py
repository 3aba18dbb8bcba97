import os

import pytest

from daterun.press.printtheme import read_print_theme
from daterun.press.theme import ThemeMistake, find_theme
from daterun.problems import Place


def test_the_default_stands_behind_a_keeper_s_theme(make_theme):
    theme = make_theme(name="mine", own={"assets/style.css": "p { margin: 1em }\n"})
    assert theme.assets["style.css"].shown == "themes/mine/assets/style.css"
    assert theme.templates["essay.html.j2"].shown == "themes/tray/templates/essay.html.j2"


def test_any_changed_file_changes_the_fingerprint(make_theme):
    first = make_theme()
    prints = {first.fingerprint}
    for name in ("templates/base.html.j2", "words/en.yaml", "assets/style.css"):
        prints.add(make_theme({name: "a: b\n"}).fingerprint)
    assert len(prints) == 4


def test_assets_lie_in_a_folder_named_by_what_they_hold(make_theme):
    first = make_theme()
    same = make_theme({"words/en.yaml": "home: House\n"})
    other = make_theme({"assets/style.css": "p { margin: 1px }\n"})
    assert first.asset_address("style.css") == same.asset_address("style.css")
    assert first.asset_address("style.css") != other.asset_address("style.css")
    assert first.asset_address("style.css").startswith("assets/")


def test_hidden_files_and_an_editor_s_spare_copies_are_no_part_of_a_theme(make_theme):
    first = make_theme()
    assert (
        make_theme({"assets/.style.css.swp": "x", "assets/style.css~": "x"}).fingerprint == first.fingerprint
    )


def test_a_theme_that_is_not_there_is_a_problem_where_it_is_asked_for(make_theme, tmp_path):
    make_theme()
    asked_at = Place("content/catalogue.yaml", 3, 8, 4)
    with pytest.raises(ThemeMistake) as caught:
        find_theme("trya", tmp_path / "catalogue", tmp_path / "bundled", asked_at)
    assert caught.value.problem.sentence == 'there is no theme "trya"'
    assert caught.value.problem.hint == 'did you mean "tray"?'
    assert caught.value.problem.place == asked_at


@pytest.mark.parametrize("part", ["assets", "templates", "words"])
def test_a_link_out_of_a_theme_is_refused(make_theme, tmp_path, part):
    secret = tmp_path / "secret.txt"
    secret.write_text("secret")
    folder = tmp_path / "catalogue" / "themes" / "tray" / part
    folder.mkdir(parents=True)
    (folder / "stolen.css").symlink_to(secret)
    with pytest.raises(ThemeMistake, match="leads out of the theme"):
        make_theme()


@pytest.mark.parametrize("part", ["assets", "templates", "words"])
def test_a_part_of_a_theme_that_is_itself_a_link_out_is_refused(make_theme, tmp_path, part):
    secrets = tmp_path / "secrets"
    secrets.mkdir()
    (secrets / "secret.yaml").write_text("secret: yes")
    folder = tmp_path / "catalogue" / "themes" / "tray"
    folder.mkdir(parents=True)
    (folder / part).symlink_to(secrets, target_is_directory=True)
    with pytest.raises(ThemeMistake, match="leads out of the theme"):
        make_theme()


@pytest.mark.parametrize("link", ["themes", "themes/tray"])
def test_a_theme_that_is_itself_a_link_out_of_the_catalogue_is_refused(make_theme, tmp_path, link):
    elsewhere = tmp_path / "elsewhere"
    (elsewhere / "tray" / "templates").mkdir(parents=True)
    (elsewhere / "tray" / "templates" / "essay.html.j2").write_text("stolen")
    path = tmp_path / "catalogue" / link
    path.parent.mkdir(parents=True)
    path.symlink_to(elsewhere if link == "themes" else elsewhere / "tray", target_is_directory=True)
    with pytest.raises(ThemeMistake) as caught:
        make_theme()
    problem = caught.value.problem
    assert problem.sentence == "this folder is a link that leads out of the catalogue folder"
    assert (problem.place.path, problem.hint) == ("themes/tray", "copy the theme here")


def test_a_theme_that_is_a_link_within_the_catalogue_is_followed(make_theme, tmp_path):
    kept = tmp_path / "catalogue" / "drafts" / "tray" / "templates"
    kept.mkdir(parents=True)
    (kept / "essay.html.j2").write_text("mine")
    (tmp_path / "catalogue" / "themes").mkdir()
    (tmp_path / "catalogue" / "themes" / "tray").symlink_to(kept.parent, target_is_directory=True)
    assert make_theme().templates["essay.html.j2"].path.read_text() == "mine"


@pytest.mark.parametrize("name", ["catalogue.typ", "fonts/stolen.ttf"])
def test_a_link_out_of_what_a_theme_has_for_print_is_refused(make_theme, tmp_path, name):
    secret = tmp_path / "secret.txt"
    secret.write_text("secret")
    link = tmp_path / "catalogue" / "themes" / "tray" / "print" / name
    link.parent.mkdir(parents=True)
    link.symlink_to(secret)
    theme = make_theme()
    with pytest.raises(ThemeMistake, match="leads out of the theme"):
        read_print_theme(theme)


def test_a_theme_without_fonts_for_print_says_so(make_theme):
    with pytest.raises(ThemeMistake, match="no fonts for print"):
        read_print_theme(make_theme())


def test_a_file_of_a_hundred_megabytes_is_refused_and_a_pipe_passed_over(make_theme, tmp_path):
    folder = tmp_path / "catalogue" / "themes" / "tray" / "assets"
    folder.mkdir(parents=True)
    os.mkfifo(folder / "pipe.css")
    assert "pipe.css" not in make_theme().assets
    with (folder / "large.css").open("wb") as file:
        file.truncate(100_000_000)
    with pytest.raises(ThemeMistake, match="100,000,000 bytes"):
        make_theme()
