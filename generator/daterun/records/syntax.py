"""What keeps a text from being YAML, in the collector's words and at its place."""

import re

import yaml

from daterun.problems import Place, Problem

RULE = "yaml"

LONGEST_TO_EXPLAIN = 200_000
"""Characters. PyYAML's own parser takes some two milliseconds for a thousand."""

DEEPEST_TO_EXPLAIN = 50
"""Brackets within brackets. The time that PyYAML's own parser takes grows with the square of their number."""

# What YAML does not allow, and the line ends of other ages, by which an editor does not count lines.
_UNFIT = re.compile(
    r"[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)

_TAB = re.compile(r"^ *\t(?=[ \t]*\S)", re.MULTILINE)

# Said only of a text in quotes, where the whole text or a row of three signs ends.
_OPEN_QUOTE = "unexpected (end of stream|document)"

# What PyYAML's own parser says, what that means to a collector, and what to do about it.
_SYNTAX: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a colon stands here where a text goes on",
        'a text that holds ": " stands in quotes; keys that belong together begin in one column',
    ),
    ("cannot start any token", "a text cannot begin with this sign", "put the text in quotes"),
    (
        r"expected ',' or '\]'",
        "a list in brackets is not closed before this",
        "look for a missing ] or comma",
    ),
    (r"expected ',' or '}'", "braces are not closed before this", "look for a missing } or comma"),
    (_OPEN_QUOTE, "this quote is never closed", "write the same quote again where the text ends"),
    ("unknown escape|hexdecimal", "a backslash means something else here", "put the text in single quotes"),
    (
        "expected <block end>|expected key|document start",
        "this does not line up with what is above it",
        "keys that belong together begin in one column",
    ),
    ("found unexpected ':'", "a space is missing after this colon", "write key: value"),
    ("could not find expected ':'", "a key has no colon before this", "write key: value"),
    ("expected (the )?node content", "a value is missing before this", "look for a missing bracket or brace"),
    ("mapping keys are not allowed", 'a text cannot begin with "? "', "put the text in quotes"),
    (
        "sequence entries are not allowed",
        'a text cannot begin with "- "',
        "put each item on a line of its own",
    ),
)


def find_unfit(text: str, path: str, first_line: int) -> Problem | None:
    """Find the first character that no text file should hold, or a tab in an indent; None where is none."""
    found = _UNFIT.search(text) or _TAB.search(text)
    if found is None:
        return None
    sign = found.group()[-1]
    before = text[: found.end() - 1]
    place = Place(path, before.count("\n") + first_line, len(before) - before.rfind("\n"), 1)
    if sign == "\t":
        return Problem(RULE, "a tab stands here", place, "indent with spaces, not with tabs")
    sentence = f"a character that no text file should hold (U+{ord(sign):04X}) stands here"
    return Problem(RULE, sentence, place, "take it out")


def explain(error: yaml.MarkedYAMLError, text: str, path: str, first_line: int) -> Problem:
    """Say what keeps a text from being YAML, and where, the same whichever parser met the error."""
    plain = _plainest(text, error)
    mark = plain.problem_mark or plain.context_mark
    if re.search(_OPEN_QUOTE, str(plain.problem)):
        mark = plain.context_mark or mark
    place = Place(path, mark.line + first_line, mark.column + 1, 1) if mark else Place(path, first_line, 1)
    what = str(plain.problem or "it cannot be read").strip()
    for pattern, sentence, hint in _SYNTAX:
        if re.search(pattern, what):
            return Problem(RULE, sentence, place, hint)
    return Problem(RULE, f"this is not YAML: {what}", place, "look for a missing quote, bracket or brace")


def _plainest(text: str, error: yaml.MarkedYAMLError) -> yaml.MarkedYAMLError:
    """Find the error as PyYAML's own parser words and places it, which libyaml does a little otherwise."""
    if len(text) < LONGEST_TO_EXPLAIN:
        try:
            depth = 0
            for event in yaml.parse(text, Loader=yaml.SafeLoader):
                depth += isinstance(event, yaml.CollectionStartEvent)
                depth -= isinstance(event, yaml.CollectionEndEvent)
                if depth > DEEPEST_TO_EXPLAIN:
                    break
        except yaml.MarkedYAMLError as plainer:
            return plainer
        except RecursionError:
            pass
    return error
