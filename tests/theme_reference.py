"""Prints the reference of themes from the views themselves: what each template is given, view by view.

python tests/theme_reference.py            print it
python tests/theme_reference.py --write    put it into DEVELOPERS.md between its marks
"""

import dataclasses
import inspect
import re
import sys
import tempfile
import typing
from pathlib import Path

from daterun.bundled import content_folder, themes_folder
from daterun.pages.plan import plan_pages
from daterun.pages.views import Frame
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue

DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- views begin -->", "<!-- views end -->"


def views_by_template() -> dict[str, type]:
    """Find which view each template is given, by planning the demo for its keeper."""
    catalogue, _ = read_catalogue(content_folder().parent)
    with tempfile.TemporaryDirectory() as nothing:
        theme = find_theme(DEFAULT, Path(nothing), themes_folder(), Place(""))
        words = read_words(theme, catalogue.settings.language)
    plan = plan_pages(close_catalogue(catalogue, {}, Reader.KEEPER), words)
    found: dict[str, set[type]] = {}
    for page in plan.pages:
        found.setdefault(page.template, set()).add(type(page.body))
    assert all(len(each) == 1 for each in found.values()), "a template is given two kinds of view"
    return {template: each.pop() for template, each in sorted(found.items())}


def views_within(view: type) -> list[type]:
    """List the views that a view is made of, each after the one that names it first."""
    found: list[type] = []
    waiting = [view]
    while waiting:
        each = waiting.pop(0)
        if dataclasses.is_dataclass(each) and each not in found:
            found.append(each)
            for kind in typing.get_type_hints(each).values():
                waiting += _named_in(kind)
    return found


def _named_in(kind: object) -> list[type]:
    inner = [each for part in typing.get_args(kind) for each in _named_in(part)]
    return inner or ([kind] if inspect.isclass(kind) else [])


def say_kind(kind: object) -> str:
    """Word a type as the tables show it: text, whole number, truth value, tuples and views by name."""
    if kind is type(None):
        return "none"
    arguments = [each for each in typing.get_args(kind) if each is not Ellipsis]
    if typing.get_origin(kind) is tuple:
        parts = [say_kind(each) for each in arguments]
        return f"tuple of {parts[0]}" if Ellipsis in typing.get_args(kind) else f"({', '.join(parts)})"
    if arguments:
        return " or ".join(say_kind(each) for each in arguments)
    plain = {str: "text", int: "whole number", bool: "truth value"}
    if kind in plain:
        return plain[kind]
    return f"`{kind.__name__}`" if inspect.isclass(kind) else str(kind)


def reference() -> str:
    """Word the whole reference as Markdown."""
    templates = views_by_template()
    lines = ["| template | is given as `view` |", "| --- | --- |"]
    lines += [f"| `{template}.html.j2` | `{view.__name__}` |" for template, view in templates.items()]
    shown: list[type] = []
    for view in (Frame, *templates.values()):
        shown += [each for each in views_within(view) if each not in shown]
    for view in shown:
        about = " ".join(re.sub(r"\s+", " ", inspect.getdoc(view) or "").split())
        lines += ["", f"**`{view.__name__}`** {about}", "", "| name | is |", "| --- | --- |"]
        hints = typing.get_type_hints(view)
        lines += [f"| `{each.name}` | {say_kind(hints[each.name])} |" for each in dataclasses.fields(view)]
        lines += [
            f"| `{name}` | {say_kind(typing.get_type_hints(member.fget)['return'])} |"
            for name, member in vars(view).items()
            if isinstance(member, property)
        ]
    return "\n".join(lines)


def written(developers: str) -> str:
    """Put the reference between its marks in the text of DEVELOPERS.md."""
    before, _, rest = developers.partition(BEGIN)
    _, _, after = rest.partition(END)
    return f"{before}{BEGIN}\n\n{reference()}\n\n{END}{after}"


if __name__ == "__main__":
    if "--write" in sys.argv:
        DEVELOPERS.write_text(written(DEVELOPERS.read_text(encoding="utf-8")), encoding="utf-8")
    else:
        print(reference())
