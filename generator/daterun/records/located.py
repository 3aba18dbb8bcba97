"""YAML read as located text: every scalar as it was typed, with its line and column.

Nothing is resolved: what a scalar means is the schema's business, so a mint mark ``NO`` stays ``NO`` and a
certificate ``0640`` stays ``0640``. Anchors, tags and endless nesting, which no coin file needs, are refused.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from daterun.problems import Place, Problem

try:
    from yaml import CSafeLoader as _Loader
except ImportError:  # PyYAML built without libyaml reads the same, more slowly
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

DEEPEST = 12
"""No format of the catalogue nests deeper than five; beyond this a file is hostile or a slip."""

MOST_NODES = 50_000
"""A series of three hundred dates has some three thousand; beyond this a file is hostile or a slip."""


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar as it was typed; an empty one is the empty text."""

    value: str
    place: Place
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list of nodes."""

    items: tuple["Node", ...]
    place: Place

    def __iter__(self) -> "Iterator[Node]":
        return iter(self.items)


@dataclass(frozen=True, slots=True)
class Entry:
    """One key with its value; the key's place is where the key stands."""

    key: str
    place: Place
    value: "Node"


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with their values, in the order they were typed; no key stands twice."""

    entries: dict[str, Entry] = field(hash=False)
    place: Place

    def get(self, key: str) -> "Node | None":
        entry = self.entries.get(key)
        return entry.value if entry else None

    def place_of(self, *keys: str | int) -> Place:
        """Find where a value stands, by keys and list positions; the nearest place above it otherwise."""
        node: Node = self
        for key in keys:
            if isinstance(node, Mapping) and isinstance(key, str) and key in node.entries:
                node = node.entries[key].value
            elif isinstance(node, Items) and isinstance(key, int) and key < len(node.items):
                node = node.items[key]
            elif isinstance(key, int) and key == 0:
                continue  # one value standing alone where a list may stand
            else:
                break
        return node.place

    def place_of_key(self, key: str) -> Place:
        """Find where a key stands; the mapping's own place where it is not there."""
        return self.entries[key].place if key in self.entries else self.place


Node = Text | Items | Mapping


def read_located(text: str, path: str, first_line: int = 1) -> tuple[Node | None, list[Problem]]:
    """Read one YAML document into located nodes; None where there is nothing or it is not YAML.

    The first line is the line in the file at which the text begins, for front matter.
    """
    reading = _Reading(path, first_line)
    try:
        tree = yaml.compose(text, Loader=_Loader)
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + first_line if isinstance(error.position, int) else 0
        shown = f"U+{error.character:04X}" if isinstance(error.character, int) else "bytes"
        problem = Problem(
            "yaml", f"a character that no text file should hold ({shown}) stands here", Place(path, line, 1)
        )
        return None, [problem]
    except yaml.MarkedYAMLError as error:
        return None, [_syntax_problem(error, path, first_line)]
    except RecursionError:
        return None, [Problem("yaml", "this is nested too deeply to be read", Place(path, first_line, 1))]
    if tree is None:
        return None, []
    return reading.convert(tree, 0), reading.problems


class _Reading:
    def __init__(self, path: str, first_line: int) -> None:
        self.path = path
        self.shift = first_line
        self.problems: list[Problem] = []
        self.seen: set[int] = set()
        self.full = False

    def place(self, node: yaml.Node) -> Place:
        start, end = node.start_mark, node.end_mark
        on_one_line = start.line == end.line
        return Place(
            self.path,
            start.line + self.shift,
            start.column + 1,
            max(end.column - start.column, 1) if on_one_line and isinstance(node, yaml.ScalarNode) else 1,
        )

    def convert(self, node: yaml.Node, depth: int) -> Node:
        place = self.place(node)
        nothing = Text("", place)
        if self.full:
            return nothing
        if id(node) in self.seen:
            self.problems.append(
                Problem("yaml", "an alias (*) stands here; each value is written out in full", place)
            )
            return nothing
        if depth > DEEPEST or len(self.seen) > MOST_NODES:
            self.full = True
            why = "nested too deeply" if depth > DEEPEST else "too long"
            self.problems.append(Problem("yaml", f"this is {why} to be read", place))
            return nothing
        self.seen.add(id(node))
        if isinstance(node, yaml.ScalarNode):
            return Text(
                node.value.strip() if node.style is None else node.value, place, node.style is not None
            )
        if isinstance(node, yaml.SequenceNode):
            return Items(tuple(self.convert(each, depth + 1) for each in node.value), place)
        return self.convert_mapping(node, place, depth)

    def convert_mapping(self, node: yaml.Node, place: Place, depth: int) -> Mapping:
        entries: dict[str, Entry] = {}
        for key_node, value_node in node.value:
            key_place = self.place(key_node)
            if not isinstance(key_node, yaml.ScalarNode):
                self.problems.append(Problem("yaml", "a list or a mapping cannot be a key", key_place))
                continue
            key = key_node.value
            value = self.convert(value_node, depth + 1)
            if key in entries:
                first = entries[key].place
                self.problems.append(
                    Problem(
                        "repeated key",
                        f'"{key}" is said twice; only one of them can be meant',
                        key_place,
                        f"it is first said in line {first.line}",
                        others=(first,),
                    )
                )
                continue
            entries[key] = Entry(key, key_place, value)
        return Mapping(entries, place)


def _syntax_problem(error: yaml.MarkedYAMLError, path: str, first_line: int) -> Problem:
    mark = error.problem_mark or error.context_mark
    place = Place(path, mark.line + first_line, mark.column + 1, 1) if mark else Place(path, first_line, 1)
    what = str(error.problem or "this cannot be read as YAML").strip()
    hint = ""
    if "mapping values are not allowed" in what:
        hint = 'a text that holds ": " stands in quotes'
    elif "\\t" in what or "tab" in what:
        hint = "indent with spaces, not with tabs"
    elif "undefined alias" in what:
        hint = "a text that begins with * stands in quotes"
    elif "did not find expected" in what or "expected" in what:
        hint = "look for a missing bracket, brace, comma or quote just before"
    return Problem("yaml", f"this is not YAML: {what}", place, hint)
