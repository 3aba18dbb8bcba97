"""Completion of commands, options and their words in a shell: a script that the shell reads once."""

import argparse
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from daterun.command.options import OneOf

SHELLS = ("bash", "zsh", "fish")


@dataclass(frozen=True, slots=True)
class Offer:
    """What a shell offers after a command: its options, the words of those that take one, and its own words."""

    options: tuple[str, ...]
    words: Mapping[str, tuple[str, ...]]
    own: tuple[str, ...]


class PrintCompletion(argparse.Action):
    """Prints the script for a shell and leaves, as an option that asks for the version does."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        print(script_for(str(values), offers_of(parser)))
        parser.exit(0)


def offers_of(parser: argparse.ArgumentParser) -> dict[str, Offer]:
    """List what is offered after every command, and after the program alone under ""."""
    found = {"": _offer(parser)}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            found |= {name: _offer(command) for name, command in action.choices.items()}
    return found


def _offer(parser: argparse.ArgumentParser) -> Offer:
    options: list[str] = []
    words: dict[str, tuple[str, ...]] = {}
    own: tuple[str, ...] = ()
    for action in parser._actions:
        long = [each for each in action.option_strings if each.startswith("--")]
        options += long
        if isinstance(action.type, OneOf):
            words.update(dict.fromkeys(long, action.type.words))
            own = own if long else action.type.words
    return Offer(tuple(sorted(options)), words, own)


def script_for(shell: str, offers: Mapping[str, Offer]) -> str:
    """Write the script that completes commands, then a command's options and words and names of files."""
    return "\n".join({"bash": _for_bash, "zsh": _for_zsh, "fish": _for_fish}[shell](offers))


def _commands(offers: Mapping[str, Offer]) -> list[str]:
    return [each for each in offers if each]


def _for_bash(offers: Mapping[str, Offer]) -> Iterator[str]:
    yield "_daterun() {"
    yield '  local word="${COMP_WORDS[COMP_CWORD]}" before="${COMP_WORDS[COMP_CWORD-1]}" words=""'
    yield '  case "$COMP_CWORD ${COMP_WORDS[1]} $before" in'
    yield f"    1\\ *) words='{' '.join([*_commands(offers), *offers[''].options])}' ;;"
    for command, offer in offers.items():
        where = f"*\\ {command}" if command else "2\\ *"
        for option, words in offer.words.items():
            yield f"    {where}\\ {option}) words='{' '.join(words)}' ;;"
        if command:
            yield f"    {where}\\ *) words='{' '.join([*offer.own, *offer.options])}' ;;"
    yield "  esac"
    yield '  COMPREPLY=( $(compgen -W "$words" -- "$word") )'
    yield "}"
    yield "complete -o default -F _daterun daterun"


def _for_zsh(offers: Mapping[str, Offer]) -> Iterator[str]:
    yield "(( $+functions[compdef] )) || { autoload -Uz compinit && compinit -i; }"
    yield "_daterun() {"
    yield '  case "$CURRENT $words[2] $words[CURRENT-1]" in'
    yield f"    2\\ *) compadd -- {' '.join([*_commands(offers), *offers[''].options])}; return ;;"
    for command, offer in offers.items():
        where = f"*\\ {command}" if command else "3\\ *"
        for option, words in offer.words.items():
            yield f"    {where}\\ {option}) compadd -- {' '.join(words)}; return ;;"
        if command:
            own = f"compadd -- {' '.join(offer.own)}; " if offer.own else ""
            yield f"    {where}\\ *) {own}[[ $PREFIX == -* ]] && compadd -- {' '.join(offer.options)} ;;"
    yield "  esac"
    yield "  _files"
    yield "}"
    yield "compdef _daterun daterun"


def _for_fish(offers: Mapping[str, Offer]) -> Iterator[str]:
    yield f"complete -c daterun -n __fish_use_subcommand -f -a '{' '.join(_commands(offers))}'"
    for command, offer in offers.items():
        when = f"'__fish_seen_subcommand_from {command}'" if command else "__fish_use_subcommand"
        for option in offer.options:
            words = f" -x -a '{' '.join(offer.words[option])}'" if option in offer.words else ""
            yield f"complete -c daterun -n {when} -l {option[2:]}{words}"
        if offer.own:
            yield f"complete -c daterun -n {when} -a '{' '.join(offer.own)}'"
