"""Where in a record a word stands, for fields that hold one word or a list of them."""

from daterun.problems import Place
from daterun.records.located import Items, Mapping, Text


def place_of_word(at: Mapping, key: str, word: str) -> Place:
    """Find the place of one word among those written under a key; that of the whole value otherwise."""
    node = at.get(key)
    for each in node.items if isinstance(node, Items) else (node,):
        if isinstance(each, Text) and each.value == word:
            return each.place
    return at.place_of(key)


def place_of_entry(at: Mapping, key: str, inner: str) -> Place:
    """Find the place of a key inside the mapping under another key; that of the mapping otherwise."""
    node = at.get(key)
    return node.place_of_key(inner) if isinstance(node, Mapping) else at.place_of(key)
