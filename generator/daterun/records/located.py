"""YAML read as located text: every scalar as it was typed, with its line and column.

Nothing is resolved: what a scalar means is the schema's business, so a mint mark ``NO`` stays ``NO`` and a
certificate ``0640`` stays ``0640``. Anchors, tags and endless nesting, which no coin file needs, are refused.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from sys import intern
from typing import Any

import yaml

from daterun.problems import Place, Problem
from daterun.records.commas import tell_of_comma
from daterun.records.syntax import explain, find_unfit

try:
    from yaml import CSafeLoader as _Loader
except ImportError:  # PyYAML built without libyaml reads the same, more slowly
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

DEEPEST = 12
"""No format of the catalogue nests deeper than five; beyond this a file is hostile or a slip."""

MOST_NODES = 50_000
"""A series of three hundred dates has some three thousand; beyond this a file is hostile or a slip."""

# PyYAML's own parser and libyaml part ways over tabs, which mean no more than spaces here, and over a question
# mark within a text in braces (18?2), which a mark for private use stands in for while they read.
_ASKING = re.compile(r"\?(?=\S)|(?<=[^\s,\[\]{}])\?")
_MARK = "\ue000"


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


class Mapping:
    """Keys with their values, in the order they were typed; no key stands twice.

    One that has let go of its entries keeps its keys, and reads the rest again from the text of its file whenever
    that is asked for.
    """

    __slots__ = ("_entries", "_keys", "_nth", "_source", "misread", "place")

    def __init__(
        self, entries: dict[str, Entry], place: Place, source: "_Source | None" = None, nth: int = 0
    ) -> None:
        self.place = place
        self.misread: frozenset[str] = frozenset()
        """The keys under which something stands that could not be read, as the reading of the record notes."""
        self._entries: dict[str, Entry] | None = entries
        self._keys: tuple[str, ...] = ()
        self._source = source
        self._nth = nth

    @property
    def entries(self) -> dict[str, Entry]:
        if self._entries is not None:
            return self._entries
        assert self._source is not None, "nothing else lets go"
        return self._source.entries_again(self._nth)

    def __contains__(self, key: str) -> bool:
        return key in (self._keys if self._entries is None else self._entries)

    def let_go(self) -> None:
        """Let go of the entries here and in every mapping within, which are seldom asked for once they are read.

        They take some eight times the memory of the text that they are read from.
        """
        if self._source is None or self._entries is None:
            return
        entries, self._entries = self._entries, None
        keys = tuple(entries)
        self._keys = _alike.setdefault(keys, keys)
        for each in entries.values():
            _let_go(each.value)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Mapping):
            return NotImplemented
        return self is other or (self.place == other.place and self.entries == other.entries)

    def __hash__(self) -> int:
        return hash(self.place)

    def __repr__(self) -> str:
        return f"Mapping({self.entries!r}, {self.place!r})"

    def get(self, key: str) -> "Node | None":
        return self.entries[key].value if key in self else None

    def place_of(self, *keys: str | int) -> Place:
        """Find where a value stands, by keys and list positions; the nearest place above it otherwise."""
        node: Node = self
        for key in keys:
            if isinstance(node, Mapping) and isinstance(key, str) and key in node:
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
        return self.entries[key].place if key in self else self.place


Node = Text | Items | Mapping


def _let_go(node: Node) -> None:
    if isinstance(node, Mapping):
        node.let_go()
    elif isinstance(node, Items):
        for each in node:
            _let_go(each)


class _Source:
    """The text of a document. It knows none of what was read from it, so that nothing comes to hold itself."""

    __slots__ = ("_first_line", "_path", "_text")

    def __init__(self, text: str, path: str, first_line: int) -> None:
        self._text = text
        self._path = path
        self._first_line = first_line

    def entries_again(self, nth: int) -> dict[str, Entry]:
        """Read the entries of the nth mapping again, in the order in which mappings end.

        Those of the document that was read last are kept, for several places of one are asked for together.
        """
        global _latest
        source, again = _latest
        if source is not self:
            reading = _Reading(self._text, self._path, self._first_line)
            reading.document(_Loader)
            again = reading.entries
            _latest = (self, again)
        return again[nth]


_latest: tuple[_Source | None, list[dict[str, Entry]]] = (None, [])
"""The document that was read again last, and the entries of its mappings."""

_alike: dict[tuple[str, ...], tuple[str, ...]] = {}
"""The keys of mappings that have let go: most files have the same ones."""


def read_located(text: str, path: str, first_line: int = 1) -> tuple[Node | None, list[Problem]]:
    """Read one YAML document into located nodes; None where there is nothing or it is not YAML.

    The first line is the line in the file at which the text begins, for front matter.
    """
    return read_with(_Loader, text, path, first_line)


def read_with(loader: Any, text: str, path: str, first_line: int = 1) -> tuple[Node | None, list[Problem]]:
    """Read as ``read_located`` does, with a PyYAML loader of one's own choice.

    All loaders give the same nodes and problems, but that libyaml refuses a colon inside braces with a comma,
    brace or bracket right behind it, where PyYAML's own parser passes over the missing space.
    """
    if unfit := find_unfit(text, path, first_line):
        return None, [unfit]
    reading = _Reading(text, path, first_line)
    try:
        node = reading.document(loader)
    except _UnreadableError as error:
        return None, [error.problem]
    except yaml.MarkedYAMLError as error:
        return None, [explain(error, _to_parse(text), path, first_line)]
    return node, reading.problems


def _to_parse(text: str) -> str:
    return _ASKING.sub(_MARK, text.replace("\t", " "))


def _marks(event: yaml.Event) -> tuple[Any, Any]:
    assert event.start_mark is not None and event.end_mark is not None, "a parsed event has its marks"
    return event.start_mark, event.end_mark


class _UnreadableError(Exception):
    def __init__(self, problem: Problem) -> None:
        self.problem = problem


class _Reading:
    """Located nodes made from the events of PyYAML's parser, which are cheaper than its nodes."""

    def __init__(self, text: str, path: str, first_line: int) -> None:
        self.text = text
        self.path = path
        self.shift = first_line
        self.source = _Source(text, path, first_line)
        self.entries: list[dict[str, Entry]] = []  # of every mapping, in the order in which they end
        self.problems: list[Problem] = []
        self.nodes = 0

    def place(self, event: yaml.Event) -> Place:
        start, end = _marks(event)
        whole = isinstance(event, yaml.ScalarEvent) and start.line == end.line
        length = max(end.column - start.column, 1) if whole else 1
        return Place(self.path, start.line + self.shift, start.column + 1, length)

    def report(
        self, rule: str, sentence: str, place: Place, hint: str = "", others: tuple[Place, ...] = ()
    ) -> None:
        self.problems.append(Problem(rule, sentence, place, hint, others=others))

    def document(self, loader: Any) -> Node | None:
        events = yaml.parse(_to_parse(self.text), Loader=loader)
        node: Node | None = None
        begun = False
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if begun:
                    self.report(
                        "yaml", "a second document begins here", self.place(event), "keep one in a file"
                    )
                    return node
                begun = True
                first = next(events)
                node = self.convert(first, events, 0)
                if isinstance(node, Text) and not node.value and not node.quoted:
                    node = None
        return node

    def convert(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        place = self.place(event)
        self.nodes += 1
        if depth > DEEPEST or self.nodes > MOST_NODES:
            why = "nested too deeply" if depth > DEEPEST else "too long"
            raise _UnreadableError(Problem("yaml", f"this is {why} to be read", place))
        if isinstance(event, yaml.AliasEvent):
            self.report("yaml", "a text cannot begin with *", place, "put the text in quotes")
            return Text("", place, quoted=True)
        assert isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent), "a node begins here"
        if event.anchor is not None or event.tag is not None:
            sign = "&" if event.anchor is not None else "!"
            self.report("yaml", f"a text cannot begin with {sign}", place, "put the text in quotes")
        if isinstance(event, yaml.ScalarEvent):
            quoted = bool(event.style)  # libyaml says "" of a plain one, PyYAML's own parser None
            value = event.value.replace(_MARK, "?")
            return Text(value if quoted else value.strip(), place, quoted)
        if isinstance(event, yaml.SequenceStartEvent):
            items = []
            while not isinstance(each := next(events), yaml.SequenceEndEvent):
                items.append(self.convert(each, events, depth + 1))
            return Items(tuple(items), place)
        return self.mapping(event, events, place, depth)

    def mapping(
        self, start: yaml.CollectionStartEvent, events: Iterator[yaml.Event], place: Place, depth: int
    ) -> Mapping:
        entries: dict[str, Entry] = {}
        key = ""
        pieces: list[Text] = []  # the value of that key, and in braces what a comma parted from it
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key_node = self.convert(event, events, depth + 1)
            after = next(events)
            value = self.convert(after, events, depth + 1)
            if not isinstance(key_node, Text) or isinstance(event, yaml.AliasEvent):
                if isinstance(key_node, Items | Mapping):
                    self.report("yaml", "a list or a mapping cannot be a key", key_node.place)
                continue
            if isinstance(value, Text) and not value.value and not value.quoted:
                value = Text("", key_node.place)
                colonless = _marks(after)[0].index == _marks(event)[1].index
                if start.flow_style and colonless and pieces and key_node.value and not key_node.quoted:
                    pieces.append(key_node)
                    continue
            self.tell_of_commas(key, pieces)
            key = intern(key_node.value)  # the same in all files of a kind
            pieces = [value] if isinstance(value, Text) and value.value and not value.quoted else []
            if key in entries:
                first = entries[key].place
                self.report(
                    "repeated key",
                    f'"{key}" is said twice; only one of them can be meant',
                    key_node.place,
                    f"it is first said in line {first.line}",
                    others=(first,),
                )
                continue
            entries[key] = Entry(key, key_node.place, value)
        self.tell_of_commas(key, pieces)
        self.entries.append(entries)
        return Mapping(entries, place, self.source, len(self.entries) - 1)

    def tell_of_commas(self, key: str, pieces: list[Text]) -> None:
        if len(pieces) > 1:
            self.problems.append(tell_of_comma(key, [(each.value, each.place) for each in pieces]))
