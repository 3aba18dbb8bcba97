"""Which macros of templates are pure: what one makes hangs on what it is handed, and on where links begin.

Only those at the top of a template count, for one within a block may see more than it names.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from jinja2 import Environment, nodes
from jinja2.compiler import CodeGenerator, Frame

_PURE = frozenset(("to", "asset", "words", "range", "dict"))
"""What a pure macro may ask for beside other pure macros. ``to`` hangs on the page, which is minded elsewhere."""

_OF_THE_CALL = frozenset(("caller", "varargs", "kwargs", "self"))

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
class _Sheet:
    """What stands in one template: what its macros take from round them, and what comes from other templates.

    A name that is bound more than once, or that a macro within a block bears too, is in neither.
    """

    macros: dict[str, frozenset[str]]
    imported: dict[str, tuple[str, str]]


class Purity:
    """Learns templates as they are parsed, and tells which of their macros are pure."""

    def __init__(self) -> None:
        self._sheets: dict[str, _Sheet] = {}
        self._by_file: dict[str, str] = {}
        self._bound: set[str] = set()

    def learn(self, tree: nodes.Template, name: str, filename: str) -> None:
        assert tree.environment is not None, "a parser tells its trees to which environment they belong"
        bound = Counter(_bound(tree))
        bound.update(
            each.name for macro in tree.find_all(nodes.Macro) for each in macro.find_all(nodes.Macro)
        )
        macros: dict[str, frozenset[str]] = {}
        imported: dict[str, tuple[str, str]] = {}
        for each in tree.body:
            if isinstance(each, nodes.Macro) and bound[each.name] == 1 and _may_be(each):
                macros[each.name] = _free(each, tree.environment, name, filename)
            elif isinstance(each, nodes.FromImport) and isinstance(each.template, nodes.Const):
                for one in each.names:
                    theirs, ours = one if isinstance(one, tuple) else (one, one)
                    if bound[ours] == 1:
                        imported[ours] = (str(each.template.value), theirs)
        self._sheets[name] = _Sheet(macros, imported)
        self._by_file[filename] = name
        self._bound |= bound.keys()

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
            return self._is_pure(*sheet.imported[name], asked)
        free = sheet.macros.get(name)
        return free is not None and all(
            each not in self._bound if each in _PURE else self._is_pure(template, each, asked)
            for each in free
        )


def _bound(node: nodes.Node) -> Iterator[str]:
    """Name all that is bound in a template outside of macros, and the macros."""
    for each in node.iter_child_nodes():
        if isinstance(each, nodes.Macro):
            yield each.name
            continue
        if isinstance(each, nodes.Name) and each.ctx != "load":
            yield each.name
        elif isinstance(each, nodes.Import):
            yield each.target
        elif isinstance(each, nodes.FromImport):
            yield from (one[1] if isinstance(one, tuple) else one for one in each.names)
        yield from _bound(each)


def _may_be(macro: nodes.Macro) -> bool:
    """Tell whether nothing within a macro rules out by itself that it is pure."""
    within = [part for each in (*macro.defaults, *macro.body) for part in (each, *each.find_all(nodes.Node))]
    called = any(isinstance(each, nodes.Name) and each.name in _OF_THE_CALL for each in within)
    return not called and not any(isinstance(each, _NEVER) for each in within)


class _Names(CodeGenerator):
    """Jinja2's own way to tell names apart; it writes nothing."""

    def __init__(self, environment: Environment, name: str, filename: str) -> None:
        super().__init__(environment, name, filename)
        self.free: set[str] = set()

    def write(self, x: str) -> None:
        pass

    def enter_frame(self, frame: Frame) -> None:
        super().enter_frame(frame)
        self.free.update(
            name for action, name in frame.symbols.loads.values() if action == "resolve" and name
        )


def _free(macro: nodes.Macro, environment: Environment, name: str, filename: str) -> frozenset[str]:
    """Name what a macro takes from round it, as Jinja2 itself tells it."""
    names = _Names(environment, name, filename)
    names.visit(nodes.Template([macro], lineno=1).set_environment(environment))
    return frozenset(names.free)
