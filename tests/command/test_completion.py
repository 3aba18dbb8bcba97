import os
import select
import shutil
import subprocess
import sys

import pytest

from daterun.command.completion import SHELLS
from daterun.command.main import COMMANDS, main

PATIENCE = 60
"""Seconds after which a shell that has not answered will not do so any more."""


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


def test_a_shell_that_is_not_known_is_wrong_usage(capsys):
    with pytest.raises(SystemExit) as left:
        main(["--completion", "fsh"])
    assert left.value.code == 2
    assert 'did you mean "fish"?' in capsys.readouterr().err


STARTS = {"bash": ["bash", "--norc", "-i"], "zsh": ["zsh", "-f", "-i"], "fish": ["fish", "-i"]}
"""Each shell as it is without a word of its owner's in its start file."""

SAYS_WORDS = {
    "bash": 'daterun() { printf "GOT[%s]" "$@"; echo :; }',
    "zsh": 'daterun() { printf "GOT[%s]" "$@"; echo : }',
    "fish": 'function daterun; printf "GOT[%s]" $argv; echo :; end',
}


IN_A_TERMINAL = "import pty, sys; pty.spawn(sys.argv[1:])"


class Typed:
    """A shell in which the script was read, and a person types; the program in it says the words it got."""

    def __init__(self, shell, script_file, home):
        self.said = b""
        self.process = subprocess.Popen(
            [sys.executable, "-c", IN_A_TERMINAL, *STARTS[shell]],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            cwd=home,
            env={**os.environ, "TERM": "dumb", "HOME": str(home), "PS1": "$ ", "XDG_CONFIG_HOME": str(home)},
        )
        self.type(f'{SAYS_WORDS[shell]}\nsource {script_file}\necho read""y\n')
        self.until(b"ready")

    def type(self, text):
        self.process.stdin.write(text.encode())
        self.process.stdin.flush()

    def until(self, text):
        while text not in self.said:
            ready = select.select([self.process.stdout], [], [], PATIENCE)[0]
            more = os.read(self.process.stdout.fileno(), 4096) if ready else b""
            if not more:
                raise AssertionError(self.said.decode(errors="replace"))
            self.said += more

    def completes(self, typed, *words):
        self.type(f"{typed}\n")
        self.until("".join(f"GOT[{each}]" for each in words).encode() + b":")

    def end(self):
        self.process.kill()
        self.process.communicate()


@pytest.fixture(params=SHELLS)
def typed(request, capsys, tmp_path):
    shell = request.param
    if shutil.which(shell) is None:
        pytest.skip(f"there is no {shell} on this machine")
    if sys.platform == "win32":
        pytest.skip("Windows has no terminal that a test can type in")
    (tmp_path / "script").write_text(script(capsys, shell), encoding="utf-8")
    home = tmp_path / "home"
    home.mkdir()
    (home / "old-list.csv").write_text("Year\n1899\n", encoding="utf-8")
    begun = Typed(shell, tmp_path / "script", home)
    yield begun
    begun.end()


def test_a_shell_completes_commands_options_words_and_files_as_they_are_typed(typed):
    typed.completes("daterun prev\t--po\t", "preview", "--port")
    typed.completes("daterun build --for kee\t", "build", "--for", "keeper")
    typed.completes("daterun export --as json-\t", "export", "--as", "json-ld")
    typed.completes("daterun print sche\t--for kee\t", "print", "schedule", "--for", "keeper")
    typed.completes("daterun intake old\t--day\t", "intake", "old-list.csv", "--day-first")
    typed.completes("daterun --compl\tfi\t", "--completion", "fish")
