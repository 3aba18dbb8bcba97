"""The README is held to the program: every command, option, key and rule is there, and its examples work."""

import ast
import importlib.util
import os
import pkgutil
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

import daterun.records
from daterun.bundled import themes_folder
from daterun.checks.catalogue import check_catalogue
from daterun.checks.rules import RULES
from daterun.command.main import COMMANDS, main
from daterun.command.report import report_text
from daterun.problems import Problem, sort_problems
from daterun.records.catalogue import read_catalogue
from daterun.records.fields import Form

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
PACKAGE = ROOT / "generator" / "daterun"

MAKE_THE_DEMO = (
    "python3 -m venv .venv && .venv/bin/pip install --quiet --editable . && .venv/bin/daterun build"
)


def load(path: Path):
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


REFERENCE = load(ROOT / "tests" / "reference.py")


def forms():
    """Every table of fields in the records that has a name of its own."""
    for info in pkgutil.iter_modules(daterun.records.__path__):
        module = importlib.import_module(f"daterun.records.{info.name}")
        for name, value in vars(module).items():
            if isinstance(value, Form) and not name.startswith("_"):
                yield f"{info.name}.{name}", value


def lines_of_code(markdown: str) -> list[str]:
    return [line[4:] for line in markdown.splitlines() if line.startswith("    ")]


def test_the_command_of_ci_stands_word_for_word_in_the_readme():
    script = [line for line in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines() if line]
    assert script[-1].endswith(".venv/bin/python tests/run.py")
    assert script[-1] in lines_of_code(README)


def test_the_command_that_makes_the_demo_stands_in_the_readme():
    assert MAKE_THE_DEMO in lines_of_code(README)


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no mark of what can be run")
def test_the_script_of_ci_can_be_run():
    assert os.access(ROOT / ".ci" / "run", os.X_OK)


def test_the_reference_is_what_the_tables_of_fields_and_rules_say():
    assert REFERENCE.written(README) == README, "run: python tests/reference.py --write"


def test_every_table_of_fields_is_in_the_reference():
    listed = [form for _, of_file in REFERENCE.FILES for form in of_file]
    assert [name for name, form in forms() if not any(form is each for each in listed)] == []


def test_every_key_is_in_the_readme_with_what_it_means():
    for name, form in forms():
        for field in form.fields:
            assert f"`{field.key}`" in README, name
            assert field.about in README, name


def rules_in(tree: ast.Module):
    """Find the rules that a module names where it makes or reports a problem."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and node.args:
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            first = node.args[0]
            if (
                called in ("Problem", "report")
                and isinstance(first, ast.Constant)
                and isinstance(first.value, str)
            ):
                yield first.value


def test_every_rule_that_the_program_names_is_in_the_readme():
    named = {
        rule
        for path in sorted(PACKAGE.rglob("*.py"))
        for rule in rules_in(ast.parse(path.read_text(encoding="utf-8")))
    }
    of_kinds = {field.kind.rule for _, form in forms() for field in form.fields}
    listed = {line.split("|")[1].strip() for line in README.splitlines() if line.startswith("| ")}
    assert (named | of_kinds | set(RULES)) - listed == set()
    assert "grade" in named | of_kinds
    assert "not struck" in named


def ask_help(*command: str) -> str:
    ran = subprocess.run(
        [sys.executable, "-m", "daterun", *command, "--help"],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
        env={**os.environ, "COLUMNS": "200", "PYTHONIOENCODING": "utf-8"},
    )
    return ran.stdout


def test_every_command_and_option_is_in_the_readme():
    assert set(COMMANDS) >= {"check", "build", "preview", "gaps"}
    for name in COMMANDS:
        assert name in ask_help()
        row = next((line for line in README.splitlines() if line.startswith(f"| `daterun {name}` ")), "")
        assert row, f"the README has no row for daterun {name}"
        options = set(re.findall(r"--[a-z][a-z-]*", ask_help(name).split("example")[0])) - {"--help"}
        assert set(re.findall(r"--[a-z][a-z-]*", row)) == options, name
    general = set(re.findall(r"--[a-z][a-z-]*", ask_help().split("example")[0]))
    assert [each for each in general if f"{each}`" not in README] == []


def test_every_command_says_an_example_in_its_help():
    for name in COMMANDS:
        assert f"daterun {name}" in ask_help(name).partition("example")[2], name


def first_catalogue() -> dict[str, str]:
    """Take the files of the README's first catalogue: a path at the head of a sentence, then its text."""
    section = README.partition("## A first catalogue")[2].partition("\n## ")[0]
    files: dict[str, str] = {}
    path = ""
    for line in section.splitlines():
        if found := re.match(r"`(content/[^`]+)`", line):
            path = found[1]
        elif path and line.startswith("    "):
            files[path] = files.get(path, "") + line[4:] + "\n"
        elif path and line and path in files:
            path = ""
    return files


def problems_of(folder: Path) -> tuple[Problem, ...]:
    catalogue, problems = read_catalogue(folder)
    return sort_problems([*problems, *check_catalogue(catalogue, None)])


def report(folder: Path) -> str:
    def source_line(path: str, line: int) -> str | None:
        lines = (folder / path).read_text(encoding="utf-8").splitlines()
        return lines[line - 1] if 0 < line <= len(lines) else None

    return report_text(problems_of(folder), source_line)


def test_the_first_catalogue_of_the_readme_has_no_problem(catalogue_folder):
    files = first_catalogue()
    assert len(files) >= 4
    assert report(catalogue_folder(files, base={})) == ""


def commands_of(heading: str) -> list[list[str]]:
    chapter = README.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    return [shlex.split(line)[1:] for line in lines_of_code(chapter) if line.startswith("daterun ")]


def test_the_first_catalogue_is_checked_built_counted_and_printed_as_shown(
    catalogue_folder, monkeypatch, capsys, tmp_path
):
    catalogue_folder(first_catalogue(), base={}).rename(tmp_path / "my-coins")
    monkeypatch.chdir(tmp_path)
    shown = commands_of("A first catalogue")
    assert [command[0] for command in shown] == ["check", "build", "gaps", "preview"]
    assert [main(command) for command in shown[:3]] == [0, 0, 0]
    assert "No problems in 1 coin." in capsys.readouterr().out
    assert Path("my-coins/output/public/coins/ort/1899/index.html").is_file()
    monkeypatch.chdir("my-coins")
    assert [main(command) for command in commands_of("Printing")] == [0]
    assert Path("output/club/print/catalogue.pdf").read_bytes().startswith(b"%PDF")


def test_the_problem_that_the_readme_shows_is_what_is_said(catalogue_folder):
    files = first_catalogue()
    coin = files["content/coins/ort/1899.md"]
    files["content/coins/ort/1899.md"] = re.sub(r"(?m)^grade: .*$", "grade: MS-72", coin)
    said = report(catalogue_folder(files, base={})).rstrip("\n").splitlines()
    shown = lines_of_code(README)
    start = shown.index(said[0])
    assert shown[start : start + len(said)] == said


def test_the_themes_that_come_with_the_program_are_named():
    for folder in themes_folder().iterdir():
        if folder.is_dir():
            assert f"`{folder.name}`" in README
