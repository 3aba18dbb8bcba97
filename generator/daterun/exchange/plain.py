"""Plain values of located nodes: what a file says, without the places; and back from a text in braces."""

from daterun.exchange.yamltext import Plain
from daterun.records.located import Items, Mapping, Node, Text, read_located


def plain(node: Node) -> Plain:
    """Take the texts, lists and mappings out of a node, as they were typed."""
    if isinstance(node, Text):
        return node.value
    if isinstance(node, Items):
        return [plain(each) for each in node.items]
    return {key: plain(entry.value) for key, entry in node.entries.items()}


def plain_mapping(node: Mapping) -> dict[str, Plain]:
    """Take what a mapping says, key by key."""
    return {key: plain(entry.value) for key, entry in node.entries.items()}


def read_plain(text: str) -> Plain | None:
    """Read a text in brackets, braces or quotes as the value it stands for; None where it is none."""
    if text[:1] not in ("[", "{", '"'):
        return None
    node, problems = read_located(text, "")
    if node is None or problems or (isinstance(node, Text) and not node.quoted):
        return None
    return plain(node)
