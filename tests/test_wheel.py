"""The wheel, built without the network and installed elsewhere, makes the demo from what it carries."""

import os
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

WHERE = """
import daterun, daterun.bundled
print(daterun.__file__)
print(daterun.bundled.content_folder())
print(daterun.bundled.themes_folder())
"""


def run(*command: str | Path, **rest) -> str:
    ran = subprocess.run(
        [str(each) for each in command], capture_output=True, text=True, encoding="utf-8", **rest
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout


@pytest.fixture(scope="module")
def source(tmp_path_factory) -> Path:
    """Copy what the wheel is built from, so that nothing is left in the checkout."""
    folder = tmp_path_factory.mktemp("source")
    for name in ("generator", "themes", "content"):
        unwanted = shutil.ignore_patterns("__pycache__", "*.egg-info")
        shutil.copytree(ROOT / name, folder / name, ignore=unwanted)
    for name in ("pyproject.toml", "README.md"):
        shutil.copyfile(ROOT / name, folder / name)
    return folder


@pytest.fixture(scope="module")
def wheel(source, tmp_path_factory) -> Path:
    built = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", built, source)
    (found,) = built.glob("*.whl")
    return found


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory) -> Path:
    """Install the wheel into a folder of its own; the libraries that it needs are the ones of these tests."""
    folder = tmp_path_factory.mktemp("installed")
    pip = ("-m", "pip", "install", "--quiet", "--no-deps", "--no-index", "--disable-pip-version-check")
    run(sys.executable, *pip, "--target", folder, wheel)
    return folder


@pytest.fixture
def environment(installed) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}


def test_the_wheel_carries_the_package_the_theme_and_the_demo_and_nothing_else(wheel, source):
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    tops = {name.split("/")[0] for name in names}
    assert {re.sub(r"-[0-9]+(\.[0-9]+)*", "", each) for each in tops} == {"daterun", "daterun.dist-info"}
    assert "daterun/py.typed" in names
    assert "daterun/bundle/themes/tray/theme.yaml" in names
    assert "daterun/bundle/content/catalogue.yaml" in names
    assert "daterun/exchange/starters/always/content/catalogue.yaml" in names
    assert "daterun/exchange/starters/series/united-kingdom/penny.yaml" in names
    assert sum(name.endswith(".jpg") for name in names) == len(list((source / "content").rglob("*.jpg")))
    assert [name for name in names if "__pycache__" in name or "/tests/" in name] == []


def test_what_runs_is_what_was_installed(installed, environment, tmp_path):
    where = run(sys.executable, "-c", WHERE, env=environment, cwd=tmp_path)
    assert [Path(each).is_relative_to(installed) for each in where.splitlines()] == [True, True, True]


def test_the_installed_program_makes_the_demo_from_the_content_that_it_carries(
    installed, environment, tmp_path
):
    folder = tmp_path / "cabinet"
    shutil.copytree(installed / "daterun" / "bundle" / "content", folder / "content")
    for photo in sorted(folder.glob("content/photos/*/*.jpg"))[40:]:
        photo.unlink()
    said = run(sys.executable, "-m", "daterun", "build", "--folder", folder, env=environment, cwd=tmp_path)
    site = folder / "output" / "public"
    assert (site / "index.html").as_uri() in said
    coins = list((site / "coins").rglob("index.html"))
    assert len(coins) > 150
    assert len(list(site.rglob("*.jpg"))) >= 40
    assert "Wrenfield" in (site / "index.html").read_text(encoding="utf-8")
    assert [each.name for each in tmp_path.iterdir()] == ["cabinet"]


@pytest.mark.skipif(os.name == "nt", reason="scripts have another form there")
def test_the_command_that_the_wheel_installs_answers(installed, environment, tmp_path):
    said = run(sys.executable, installed / "bin" / "daterun", "--version", env=environment, cwd=tmp_path)
    assert re.fullmatch(r"daterun [0-9]+\.[0-9]+\.[0-9]+", said.strip())
