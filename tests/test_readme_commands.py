"""The commands that the README shows are run as they stand, in the order in which they stand."""

import json
import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from daterun.command.main import main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")

TABLE = """Coin;Year;Condition;Paid;Bought;Remarks
Florin;1926;GVF;12,50;3/4/2019;=1+1
Half-crown;1935;VF;£20;2019-05-01;
Sixpence;1899;VF;5;;before the series begins
"""


def section(heading: str) -> list[str]:
    text = README.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    return [line[4:] for line in text.splitlines() if line.startswith("    ")]


def run(words, capsys):
    """Give the exit code of a command, which says on standard error why where it is wrong usage."""
    try:
        return main(words)
    except SystemExit as left:
        raise AssertionError(capsys.readouterr().err) from left


def test_the_ten_minutes_lead_from_nothing_to_a_site_and_out_again(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "old-list.csv").write_text(TABLE, encoding="utf-8")
    codes = {}
    for line in section("Ten minutes"):
        program, *words = shlex.split(line)
        if program == "cd":
            monkeypatch.chdir(words[0])
            continue
        assert program == "daterun"
        codes[line] = run(words, capsys)
    assert {line: code for line, code in codes.items() if code and "intake" not in line} == {}
    assert [code for line, code in codes.items() if "intake" in line] == [1, 1]  # the sixpence is rejected
    site = tmp_path / "my-coins/output/public"
    assert (site / "coins/florin/1932/index.html").is_file()
    assert (site / "coins/florin/1926/index.html").is_file()
    assert not (site / "coins/sixpence").exists()
    assert "Moss, Kaldhamn" in (tmp_path / "everything.csv").read_text(encoding="utf-8-sig")
    assert len(json.loads((tmp_path / "everything.json").read_text(encoding="utf-8"))["coins"]) == 3
    assert len(json.loads((tmp_path / "coins.jsonld").read_text(encoding="utf-8"))["hasPart"]) == 3


def test_every_schema_that_an_editor_is_shown_is_written(catalogue_folder, monkeypatch, capsys):
    folder = catalogue_folder({})
    monkeypatch.chdir(folder)
    lines = section("An editor that knows your series")
    assert run(shlex.split(lines[0])[1:], capsys) == 0
    named = set(re.findall(r"\.daterun/schemas/[a-z]+\.schema\.json", "\n".join(lines)))
    assert len(named) == 5
    assert [each for each in named if not (folder / each).is_file()] == []
    settings = "\n".join(lines[lines.index("{") : lines.index("}") + 1])
    assert set(json.loads(settings)) == {"yaml.schemas", "files.associations"}


@pytest.mark.skipif(shutil.which("git") is None, reason="there is no git on this machine")
def test_an_edition_is_pushed_from_a_repository_that_builds_leave_alone(
    catalogue_folder, coin, monkeypatch, tmp_path
):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    host = tmp_path / "host.git"
    subprocess.run(["git", "init", "--quiet", "--bare", str(host)], check=True)
    for name in ("GIT_AUTHOR", "GIT_COMMITTER"):
        monkeypatch.setenv(f"{name}_NAME", "Ida Quennell")
        monkeypatch.setenv(f"{name}_EMAIL", "ida@example.org")
    lines = section("Publishing")
    recipe = lines[: lines.index("git push --force origin pages") + 1]
    monkeypatch.chdir(folder)
    for line in recipe:
        program, *words = shlex.split(line.replace("git@example.org:me/coins.git", str(host)))
        if program == "cd":
            monkeypatch.chdir(words[0])
        elif program == "daterun":
            assert main(words) == 0
        else:
            subprocess.run([program, *words], check=True, capture_output=True)
    monkeypatch.chdir(folder)
    assert main(["build"]) == 0
    sent = subprocess.run(
        ["git", "-C", str(host), "ls-tree", "-r", "--name-only", "pages"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    assert "index.html" in sent and "coins/a/index.html" in sent
    assert (folder / "output/public/.git").is_dir()
