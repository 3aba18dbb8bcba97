import shutil
import subprocess

import pytest

from daterun.command.completion import SHELLS
from daterun.command.main import COMMANDS, main


def script(capsys, shell):
    with pytest.raises(SystemExit) as left:
        main(["--completion", shell])
    assert left.value.code == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("shell", SHELLS)
def test_a_script_names_every_command_and_its_options(capsys, shell):
    said = script(capsys, shell)
    assert all(command in said for command in COMMANDS)
    assert "day-first" in said


def complete(made, *words):
    asked = " ".join(f'"{word}"' for word in words)
    ask = f'COMP_WORDS=({asked}); COMP_CWORD={len(words) - 1}; _daterun; echo "${{COMPREPLY[@]}}"'
    ran = subprocess.run(["bash", "-c", f"{made}\n{ask}"], capture_output=True, text=True, check=True)
    return ran.stdout.split()


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash on this machine")
def test_bash_completes_commands_and_their_options(capsys):
    made = script(capsys, "bash")
    assert complete(made, "daterun", "pre") == ["preview"]
    assert complete(made, "daterun", "intake", "--day") == ["--day-first"]
    assert complete(made, "daterun", "intake", "mine") == []


def test_a_shell_that_is_not_known_is_wrong_usage(capsys):
    with pytest.raises(SystemExit) as left:
        main(["--completion", "fsh"])
    assert left.value.code == 2
    assert 'did you mean "fish"?' in capsys.readouterr().err
