"""Whatever a slip or a bad disk makes of a file, reading goes on and both parsers see the same."""

import re
import tempfile
from pathlib import Path

import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from daterun.records.catalogue import read_catalogue
from daterun.records.located import Items, Mapping, read_located, read_with

EXAMPLE = Path(__file__).parent / "example"
FILES = {
    path.relative_to(EXAMPLE).as_posix(): path.read_bytes()
    for path in sorted(EXAMPLE.rglob("*"))
    if path.is_file()
}
YAML_TEXTS = [
    data.decode() if name.endswith(".yaml") else data.decode().split("---\n")[1]
    for name, data in FILES.items()
]
NASTY = [
    "{",
    "}",
    "[",
    "]",
    ": ",
    ":",
    "\n",
    "\n  ",
    "\t",
    "- ",
    "---\n",
    "...\n",
    '"',
    "'",
    "#",
    "&a ",
    "*a",
    "!!x ",
]
NASTY += [
    "\0",
    "\r",
    "\ufeff",
    "\u2028",
    "\u0301",
    "9" * 30,
    "-1",
    ",",
    "|",
    "> ",
    "?",
    "~",
    "%",
    "@",
    "0640",
    "é",
]

cuts = st.tuples(
    st.integers(0, 10_000),
    st.integers(0, 40),
    st.lists(st.sampled_from(NASTY), max_size=3).map("".join) | st.text(max_size=4),
)


def mutate(data, changes):
    for start, length, put in changes:
        at = start % (len(data) + 1)
        piece = put.encode("utf-8", "replace") if isinstance(data, bytes) else put
        data = data[:at] + piece + data[at + length :]
    return data


@settings(deadline=None, max_examples=200)
@given(name=st.sampled_from(sorted(FILES)), changes=st.lists(cuts, min_size=1, max_size=4))
def test_no_change_to_a_file_makes_reading_fail(name, changes):
    with tempfile.TemporaryDirectory() as folder:
        for each, data in FILES.items():
            path = Path(folder) / each
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(mutate(data, changes) if each == name else data)
        catalogue, problems = read_catalogue(Path(folder))
    assert catalogue.settings.title
    assert all(each.sentence and each.place.path for each in problems)


@settings(deadline=None, max_examples=100)
@given(
    name=st.sampled_from(sorted(FILES)),
    data=st.binary(max_size=60) | st.text(max_size=60).map(lambda each: each.encode("utf-8", "replace")),
)
def test_a_file_of_anything_at_all_is_read_or_is_a_problem(name, data):
    with tempfile.TemporaryDirectory() as folder:
        for each, kept in FILES.items():
            path = Path(folder) / each
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data if each == name else kept)
        _, problems = read_catalogue(Path(folder))
    assert problems


@pytest.mark.skipif(not yaml.__with_libyaml__, reason="PyYAML is built without libyaml here")
@settings(deadline=None, max_examples=200)
@given(text=st.sampled_from(YAML_TEXTS), changes=st.lists(cuts, max_size=3))
def test_both_parsers_give_the_same_nodes_and_problems(text, changes):
    changed = mutate(text, changes)
    assume(not re.search(r":[,\[\]{}?]", changed))  # libyaml alone refuses {daler:, …}
    assert read_with(yaml.CSafeLoader, changed, "a.yaml") == read_with(yaml.SafeLoader, changed, "a.yaml")


def mappings_in(node):
    """Give a node's mappings, every one before those within it."""
    if isinstance(node, Mapping):
        yield node
        for entry in node.entries.values():
            yield from mappings_in(entry.value)
    elif isinstance(node, Items):
        for each in node:
            yield from mappings_in(each)


@settings(deadline=None, max_examples=200)
@given(text=st.sampled_from(YAML_TEXTS), changes=st.lists(cuts, max_size=3))
def test_a_mapping_that_has_let_go_is_what_it_was(text, changes):
    changed = mutate(text, changes)
    kept, _ = read_located(changed, "a.yaml", 2)
    assume(isinstance(kept, Mapping))
    again, _ = read_located(changed, "a.yaml", 2)
    held = list(mappings_in(again))
    again.let_go()
    for before, after in zip(mappings_in(kept), held, strict=True):
        assert all(key in after for key in before.entries)
        assert "no such key" not in after
        assert after.place_of("no such key") == before.place
        assert list(after.entries) == list(before.entries)
        assert after == before
