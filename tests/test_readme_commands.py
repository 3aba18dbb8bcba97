"""The commands that the README shows are run as they stand, in the order in which they stand."""

import json
import re
import shlex
from pathlib import Path

from daterun.command.main import COMMANDS, main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")

TABLE = """Coin;Year;Condition;Paid;Bought;Remarks
Florin;1926;GVF;12,50;3/4/2019;=1+1
Half-crown;1935;VF;£20;2019-05-01;
Sixpence;1899;VF;5;;before the series begins
"""

TRIED = {
    "Two commands": "tests/test_readme.py and .ci/run",
    "Ten minutes": "below",
    "A first catalogue": "tests/test_readme.py and tests/preview/test_process.py",
    "An editor that knows your series": "below",
    "Publishing": "tests/test_publishing.py",
    "Printing": "tests/test_readme.py",
}
"""The chapters of the README that show commands, and where those are run."""

PROGRAM = re.compile(r"(daterun|cd|git|rsync|rclone|python3?|pip|eval)\b")


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


def test_every_schema_that_an_editor_is_shown_is_written(catalogue_folder, coin, monkeypatch, capsys):
    folder = catalogue_folder(
        {"content/coins/ort/1899.md": coin("1891"), "content/pages/a.md": "---\ntitle: A\n---\n"}
    )
    monkeypatch.chdir(folder)
    lines = section("An editor that knows your series")
    assert run(shlex.split(lines[0])[1:], capsys) == 0
    named = set(re.findall(r"\.daterun/schemas/[a-z]+\.schema\.json", "\n".join(lines)))
    assert len(named) == 5
    assert [each for each in named if not (folder / each).is_file()] == []
    assert (folder / ".daterun/schemas/essay.schema.json").is_file()
    settings = json.loads("\n".join(lines[lines.index("{") : lines.index("}") + 1]))
    assert set(settings) == {"yaml.schemas", "files.associations"}
    in_lua = dict(re.findall(r'\["(\.daterun[^"]+)"\] = "([^"]+)"', "\n".join(lines)))
    assert in_lua == settings["yaml.schemas"]
    for schema, files in in_lua.items():
        assert schema in named
        assert list(folder.glob(files)) or "lots" in files


def test_a_file_that_names_its_schema_finds_it_and_is_read_as_before(catalogue_folder, coin, base_files):
    lines = [
        each for each in section("An editor that knows your series") if each.startswith("# yaml-language")
    ]
    series, of_coin = lines
    folder = catalogue_folder(
        {
            "content/series/vessmark/ort.yaml": f"{series}\n"
            + base_files["content/series/vessmark/ort.yaml"],
            "content/coins/ort/1891.md": coin("1891").replace("---\n", f"---\n{of_coin}\n", 1),
        }
    )
    assert main(["check", "--schemas", "--folder", str(folder)]) == 0
    for line, file in ((series, "content/series/vessmark/ort.yaml"), (of_coin, "content/coins/ort/1891.md")):
        assert (folder / file).parent.joinpath(line.partition("$schema=")[2]).resolve().is_file()


def test_every_chapter_that_shows_commands_is_tried():
    chapters = re.split(r"(?m)^## ", README)[1:]
    showing = {
        chapter.partition("\n")[0]
        for chapter in chapters
        if any(PROGRAM.match(line[4:]) for line in chapter.splitlines() if line.startswith("    "))
    }
    assert showing == set(TRIED)


def test_every_command_within_a_sentence_is_one_that_the_program_knows(capsys):
    spans = [each.replace("\n", " ") for each in re.findall(r"`(daterun [^`]+)`", README)]
    assert len(spans) > 15
    for span in spans:
        words = re.sub(r"[\[\]|]", " ", span).split()[1:]
        name = words[0]
        options = [each for each in words if each.startswith("--")]
        if name.startswith("--"):
            known = {"--version", "--completion", "--help"}
        else:
            assert name in COMMANDS, span
            known = {*re.findall(r"--[a-z][a-z-]*", help_of(name, capsys))}
        assert [each for each in options if each not in known] == [], span


def help_of(name, capsys):
    try:
        main([name, "--help"])
    except SystemExit as left:
        assert left.code == 0
    return capsys.readouterr().out
