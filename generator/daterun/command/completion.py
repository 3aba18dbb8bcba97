"""Completion of commands and options in a shell: a script that the shell reads once."""

import argparse
from collections.abc import Mapping, Sequence
from typing import Any

SHELLS = ("bash", "zsh", "fish")


class PrintCompletion(argparse.Action):
    """Prints the script for a shell and leaves, as an option that asks for the version does."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        print(script_for(str(values), options_of(parser)))
        parser.exit(0)


def options_of(parser: argparse.ArgumentParser) -> dict[str, list[str]]:
    """List the long options of every command."""
    found: dict[str, list[str]] = {}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for name, command in action.choices.items():
                found[name] = sorted(each for each in command._option_string_actions if each.startswith("--"))
    return found


def script_for(shell: str, options: Mapping[str, Sequence[str]]) -> str:
    """Write the script that completes commands, then a command's options and names of files."""
    if shell == "fish":
        lines = [f"complete -c daterun -n __fish_use_subcommand -f -a '{' '.join(options)}'"]
        for command, words in options.items():
            seen = f"'__fish_seen_subcommand_from {command}'"
            lines += [f"complete -c daterun -n {seen} -l {word[2:]}" for word in words]
        return "\n".join(lines)
    cases = [f"    {command}) words='{' '.join(words)}' ;;" for command, words in options.items()]
    lines = [
        "_daterun() {",
        '  local word="${COMP_WORDS[COMP_CWORD]}" words=""',
        f'  if [ "$COMP_CWORD" -eq 1 ]; then words=\'{" ".join(options)}\'; else case "${{COMP_WORDS[1]}}" in',
        *cases,
        "  esac; fi",
        '  COMPREPLY=( $(compgen -W "$words" -- "$word") )',
        "}",
        "complete -o default -F _daterun daterun",
    ]
    first = ["autoload -U +X bashcompinit && bashcompinit"] if shell == "zsh" else []
    return "\n".join([*first, *lines])
