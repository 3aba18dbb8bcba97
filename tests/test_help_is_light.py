"""Asking for help waits for no library that help does not need."""

import json
import subprocess
import sys

import pytest

HEAVY = {"jinja2", "markdown", "PIL", "yaml", "rich", "watchdog", "nh3"}

ASK = """
import contextlib, io, json, runpy, sys
sys.argv = ["daterun", *sys.argv[1:]]
said = io.StringIO()
try:
    with contextlib.redirect_stdout(said):
        runpy.run_module("daterun", run_name="__main__")
except SystemExit as left:
    print(json.dumps([left.code, said.getvalue(), sorted(sys.modules)]))
"""


def ask(*arguments: str):
    ran = subprocess.run(
        [sys.executable, "-c", ASK, *arguments], capture_output=True, text=True, encoding="utf-8", check=True
    )
    return json.loads(ran.stdout)


@pytest.mark.parametrize("arguments", [("--help",), ("build", "--help")])
def test_asking_for_help_imports_no_library_that_is_slow(arguments):
    code, said, modules = ask(*arguments)
    assert code in (0, None)
    assert "daterun" in said
    assert {each.split(".")[0] for each in modules} & HEAVY == set()
