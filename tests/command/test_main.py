import pytest

from daterun import __version__
from daterun.command import main as module
from daterun.command.main import COMMANDS, main
from daterun.problems import CannotContinue


def usage(capsys, *arguments):
    """The exit code, and what is said on standard error."""
    try:
        code = main(arguments)
    except SystemExit as left:
        code = left.code
    return code, capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["biuld"], 'daterun: there is no command "biuld"\n  hint: did you mean "build"?\n'),
        (["zzz"], 'daterun: there is no command "zzz"\n  hint: known here: ' + ", ".join(COMMANDS) + "\n"),
        (
            ["build", "--for", "kepeer"],
            'daterun build: argument --for: "kepeer" is not a reader\n  hint: did you mean "keeper"?\n',
        ),
        (
            ["check", "--flder", "x"],
            'daterun check: there is no option "--flder"\n  hint: did you mean "--folder"?\n',
        ),
        (
            ["check", "--fold", "x"],
            'daterun check: there is no option "--fold"\n  hint: did you mean "--folder"?\n',
        ),
        (["check", "here"], 'daterun check: "here" is not asked for here\n'),
        (
            ["preview", "--port", "http"],
            'daterun preview: argument --port: "http" is not a port\n  hint: a number from 1 to 65535\n',
        ),
        (["build", "--output"], "daterun build: argument --output: expected one argument\n"),
    ],
)
def test_wrong_usage_is_met_with_a_hint_and_exit_code_2(capsys, arguments, said):
    assert usage(capsys, *arguments) == (2, said)


def test_no_command_at_all_says_what_to_do_next(capsys, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    assert main([]) == 0
    assert capsys.readouterr().out == (
        "There is no catalogue in this folder. Begin one here, or in a new folder:\n"
        "  daterun start\n"
        "  daterun start my-coins\n"
        "  daterun start my-coins --series united-kingdom\n"
        "daterun --help lists all commands.\n"
    )


def test_the_version_is_told(capsys):
    with pytest.raises(SystemExit) as left:
        main(["--version"])
    assert left.value.code == 0
    assert capsys.readouterr().out == f"daterun {__version__}\n"


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example(capsys, command):
    with pytest.raises(SystemExit) as left:
        main([command, "--help"])
    assert left.value.code == 0
    said = capsys.readouterr().out
    assert f"example:\n  daterun {command}" in said
    assert "--folder FOLDER" in said


def test_a_folder_that_is_no_catalogue_is_wrong_usage(capsys, tmp_path):
    code, said = usage(capsys, "check", "--folder", str(tmp_path))
    assert code == 2
    assert said.startswith(f"daterun: there is no catalogue in {tmp_path}: it has no folder named content\n")


@pytest.mark.parametrize(
    ("error", "code", "said"),
    [
        (CannotContinue("the disk is full"), 2, "daterun: the disk is full\n"),
        (KeyboardInterrupt(), 130, "\nstopped\n"),
    ],
)
def test_what_stops_a_command_is_told_once(capsys, monkeypatch, error, code, said):
    def stop(args):
        raise error

    monkeypatch.setattr(module.check, "run", stop)
    assert usage(capsys, "check") == (code, said)


def test_a_fault_of_the_program_keeps_its_traceback(monkeypatch):
    def fail(args):
        raise ZeroDivisionError

    monkeypatch.setattr(module.check, "run", fail)
    with pytest.raises(ZeroDivisionError):
        main(["check"])
