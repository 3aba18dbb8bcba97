"""The contract of themes in DEVELOPERS.md is held to the views and to the press."""

import dataclasses
import importlib.util
import re
from pathlib import Path

import pytest

from daterun.bundled import themes_folder
from daterun.press.templates import Press
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place

ROOT = Path(__file__).resolve().parent.parent
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def reference():
    spec = importlib.util.spec_from_file_location("theme_reference", ROOT / "tests" / "theme_reference.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_reference_is_what_the_views_say(reference):
    assert reference.written(DEVELOPERS) == DEVELOPERS, "run: python tests/theme_reference.py --write"


def test_every_template_of_the_default_theme_is_given_a_view(reference):
    templates = {
        path.name.removesuffix(".html.j2") for path in (themes_folder() / DEFAULT / "templates").glob("*.j2")
    }
    assert set(reference.views_by_template()) == templates - {"base"}


def test_a_view_holds_nothing_but_text_numbers_truth_values_and_views(reference):
    for view in reference.views_by_template().values():
        for each in reference.views_within(view):
            assert dataclasses.is_dataclass(each)
            assert each.__dataclass_params__.frozen


def test_everything_that_templates_are_given_beside_views_is_told(tmp_path):
    theme = find_theme(DEFAULT, tmp_path, themes_folder(), Place(""))
    environment = Press(theme, read_words(theme, "en")).environment
    contract = DEVELOPERS[DEVELOPERS.index("## Themes") : DEVELOPERS.index("<!-- views begin -->")]
    for name in ("to", "asset", "words", "notes"):
        assert name in environment.globals
        assert re.search(rf"`{name}\(", contract), name
    for name in ("scaled", "mm", "data"):
        assert name in environment.filters
        assert f"`{name}`" in contract, name


def test_every_asset_of_the_default_theme_is_told_in_its_own_list():
    listed = (themes_folder() / DEFAULT / "theme.yaml").read_text(encoding="utf-8")
    for path in (themes_folder() / DEFAULT / "assets").iterdir():
        assert f"  {path.name}: " in listed
