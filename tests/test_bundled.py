import pytest

from daterun.bundled import content_folder, find_bundled, themes_folder


def test_a_wheel_carries_its_own_folders(tmp_path):
    package = tmp_path / "site-packages" / "daterun"
    (package / "bundle" / "themes").mkdir(parents=True)
    assert find_bundled("themes", package) == package / "bundle" / "themes"


def test_a_checkout_has_them_at_its_top(tmp_path):
    package = tmp_path / "generator" / "daterun"
    package.mkdir(parents=True)
    (tmp_path / "themes").mkdir()
    assert find_bundled("themes", package) == tmp_path / "themes"


def test_a_missing_folder_is_named(tmp_path):
    with pytest.raises(FileNotFoundError, match="the folder themes that came with Daterun is missing"):
        find_bundled("themes", tmp_path / "a" / "b")


def test_this_installation_has_both():
    assert themes_folder().name == "themes"
    assert (content_folder() / "series").is_dir()
