"""Which macros of templates are pure: what one makes hangs on what it is handed, and on where links begin.

Only those at the top of a template count, for one within a block may see more than it names.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from jinja2 import nodes

_PURE = frozenset(("to", "asset", "words", "range", "dict"))
"""What a pure macro may ask for beside other pure macros. ``to`` hangs on the page, which is minded elsewhere."""

_OF_THE_PAGE = frozenset(("page", "view", "address", "root", "notes", "caller", "varargs", "kwargs", "self"))

_NEVER = (
    nodes.Include,
    nodes.Import,
    nodes.FromImport,
    nodes.CallBlock,
    nodes.Macro,
    nodes.Block,
    nodes.ContextReference,
    nodes.DerivedContextReference,
    nodes.EnvironmentAttribute,
    nodes.ExtensionAttribute,
)


@dataclass(frozen=True, slots=True)
class _Macro:
    """The names that a macro takes from round it; none of the others could be anything but its own."""

    free: frozenset[str]
    may_be: bool


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What stands at the top of one template: its macros, and from which template which other names come."""

    macros: dict[str, _Macro]
    imported: dict[str, tuple[str, str]]


class Purity:
    """Learns templates as they are parsed, and tells which of their macros are pure."""

    def __init__(self) -> None:
        self._sheets: dict[str, _Sheet] = {}
        self._by_file: dict[str, str] = {}

    def learn(self, tree: nodes.Template, name: str, filename: str) -> None:
        macros: dict[str, _Macro] = {}
        imported: dict[str, tuple[str, str]] = {}
        for each in tree.body:
            if isinstance(each, nodes.Macro):
                twice = each.name in macros
                macros[each.name] = _Macro(_free(each), not twice and _may_be(each))
            elif isinstance(each, nodes.FromImport) and isinstance(each.template, nodes.Const):
                for one in each.names:
                    theirs, ours = one if isinstance(one, tuple) else (one, one)
                    imported[ours] = (str(each.template.value), theirs)
        self._sheets[name] = _Sheet(macros, imported)
        self._by_file[filename] = name

    def tells(self, filename: str, macro: str) -> bool:
        """Tell whether a macro of the template in a file is pure; one that is not known counts as not."""
        return self._is_pure(self._by_file.get(filename, ""), macro, set())

    def _is_pure(self, template: str, name: str, asked: set[tuple[str, str]]) -> bool:
        if (template, name) in asked:
            return True  # it calls itself: the rest of it decides
        asked.add((template, name))
        sheet = self._sheets.get(template)
        if sheet is None:
            return False
        if name in sheet.imported:
            return name not in sheet.macros and self._is_pure(*sheet.imported[name], asked)
        macro = sheet.macros.get(name)
        if macro is None or not macro.may_be:
            return False
        return all(each in _PURE or self._is_pure(template, each, asked) for each in macro.free)


def _may_be(macro: nodes.Macro) -> bool:
    """Tell whether nothing within a macro rules out by itself that it is pure."""
    within = [part for each in (*macro.defaults, *macro.body) for part in (each, *each.find_all(nodes.Node))]
    draws_lots = any(isinstance(each, nodes.Filter) and each.name == "random" for each in within)
    stored = {each.name for each in _names(within) if each.ctx != "load"}
    return (
        not draws_lots and not any(isinstance(each, _NEVER) for each in within) and stored.isdisjoint(_PURE)
    )


def _free(macro: nodes.Macro) -> frozenset[str]:
    """Name what a macro takes from round it; of what it sets itself only what might be the page's before."""
    within = [part for each in (*macro.defaults, *macro.body) for part in (each, *each.find_all(nodes.Node))]
    own = {each.name for each in macro.args}
    own |= {each.name for each in _names(within) if each.ctx != "load"} - _OF_THE_PAGE
    if any(isinstance(each, nodes.For) for each in within):
        own.add("loop")
    return frozenset(each.name for each in _names(within) if each.ctx == "load" and each.name not in own)


def _names(within: Iterable[nodes.Node]) -> list[nodes.Name]:
    return [each for each in within if isinstance(each, nodes.Name)]
