"""Problems laid out for a person or a program; what is wrong is left to those who found it."""

import json
import unicodedata
from collections.abc import Callable, Iterable, Sequence

from daterun.problems import Place, Problem, Severity

SourceLines = Callable[[str, int], str | None]
"""Gives a line of a file of the catalogue, from 1, without its end; None where there is none."""

WIDEST = 100
"""Columns of a source line that are shown; a terminal seldom has fewer beside the gutter."""

LONGEST = 400
"""Characters of a sentence that are shown; a value quoted in it can be as long as its file."""


def report_text(problems: Sequence[Problem], source_lines: SourceLines) -> str:
    """Lay out problems for a person, one under the other with the lines they are about; "" for none."""
    return "\n".join(_problem_text(each, source_lines) for each in problems)


def report_json(problems: Sequence[Problem]) -> str:
    """Lay out problems for a program, as one JSON object whose texts are all in ASCII."""
    errors = sum(each.is_error for each in problems)
    whole = {
        "errors": errors,
        "advice": len(problems) - errors,
        "problems": [
            {
                "rule": each.rule,
                "severity": each.severity.value,
                "sentence": each.sentence,
                "hint": each.hint,
                **_place_facts(each.place),
                "others": [_place_facts(other) for other in each.others],
            }
            for each in problems
        ],
    }
    return json.dumps(whole, indent=2) + "\n"


def summary(problems: Sequence[Problem], coins: int) -> str:
    """Sum up problems in one sentence; the coins are all that were read."""
    errors = sum(each.severity is Severity.ERROR for each in problems)
    advice = len(problems) - errors
    among = f" in {_counted(coins, 'coin')}" if coins else ", and no coins yet"
    where = _counted(len({each.place.path for each in problems}), "file")
    if errors and advice:
        return f"{_counted(errors, 'error')} and {_advice(advice)} in {where}."
    if errors:
        return f"{_counted(errors, 'error')} in {where}."
    if advice:
        return f"No errors{among}; {_advice(advice)} in {where}."
    return f"No problems{among}."


def _counted(number: int, what: str) -> str:
    return f"{number:,} {what}" if number == 1 else f"{number:,} {what}s"


def _advice(number: int) -> str:
    return f"{_counted(number, 'piece')} of advice"


def _place_facts(place: Place) -> dict[str, str | int]:
    return {"path": place.path, "line": place.line, "column": place.column, "length": place.length}


def _problem_text(problem: Problem, source_lines: SourceLines) -> str:
    said = _shortened(problem.sentence)
    lines = [f"{_place_text(problem.place)}: {problem.severity.value}: {said} [{problem.rule}]"]
    lines += _source_text(problem.place, source_lines)
    if problem.hint:
        lines.append(f"  hint: {_shortened(problem.hint)}")
    for other in problem.others:
        lines.append(f"  other place: {_place_text(other)}")
        lines += _source_text(other, source_lines)
    return "\n".join(lines) + "\n"


def _place_text(place: Place) -> str:
    parts = [_safe(place.path)]
    if place.line:
        parts.append(str(place.line))
        if place.column:
            parts.append(str(place.column))
    return ":".join(parts)


def _source_text(place: Place, source_lines: SourceLines) -> Iterable[str]:
    """Show the line of a place with carets under what is marked; nothing for a file as a whole."""
    source = source_lines(place.path, place.line) if place.line else None
    if source is None:
        return []
    start = max(place.column - 1, 0)
    length = min(place.length, max(len(source) - start, 0))
    before, marked, after = _trimmed(
        _safe(source[:start]), _safe(source[start : start + length]), _safe(source[start + length :])
    )
    number = str(place.line)
    lines = [f"  {number} | {(before + marked + after).rstrip()}"]
    if place.column and place.length:
        gutter = " " * len(number)
        lines.append(f"  {gutter} | {' ' * _cells(before)}{'^' * max(_cells(marked), 1)}")
    return lines


def _trimmed(before: str, marked: str, after: str) -> tuple[str, str, str]:
    """Cut a line that is too long, keeping what is marked and what stands just before it."""
    if _cells(marked) > WIDEST // 2:
        marked, after = marked[: WIDEST // 2] + "…", ""
    room = WIDEST - _cells(marked)
    if _cells(before) + _cells(after) <= room:
        return before, marked, after
    if _cells(before) > room * 2 // 3:
        before = "…" + before[-(room // 2) :]
    room -= _cells(before)
    if _cells(after) > room:
        after = after[: max(room - 1, 0)] + "…"
    return before, marked, after


def _shortened(text: str) -> str:
    safe = _safe(text)
    return safe if len(safe) <= LONGEST else safe[: LONGEST - 1] + "…"


def _safe(text: str) -> str:
    """Make every sign visible in its place: a terminal obeys some, and some turn the line round."""
    return "".join(_visible(sign) for sign in text)


def _visible(sign: str) -> str:
    if sign == "\t":
        return "→"
    if ord(sign) < 0x20:
        return chr(0x2400 + ord(sign))
    if ord(sign) == 0x7F:
        return "␡"
    if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"):
        return "\N{REPLACEMENT CHARACTER}"
    return " " if unicodedata.category(sign) == "Zs" else sign


def _cells(text: str) -> int:
    """Count the columns that a text takes in a terminal: two for wide signs, none for marks on another."""
    wide = sum(unicodedata.east_asian_width(each) in "WF" for each in text)
    return len(text) + wide - sum(unicodedata.combining(each) != 0 for each in text)
