"""Changes to the files of a catalogue, drawn by Hypothesis: to their bytes, lines, and the tree they hold."""

import itertools
import json
from collections.abc import Callable, Iterator

import yaml
from hypothesis import strategies as st
from material import FILES

BYTES = (
    *(b"{", b"}", b"[", b"]", b": ", b"\n", b"\n  ", b"\t", b"- ", b"---\n", b"...\n", b'"', b"'", b"#"),
    *(b"&a ", b"*a", b"!!x ", b"<<: ", b"\0", b"\r", b"\r\n", b"\xff", b"\xed\xa0\x80", b"\x1b[31m", b"|\n"),
    *(b"> ", b"?", b"~", b"%YAML 9\n", b"@", b"`", b",", b"=", b"9" * 30, b"-1", b"1e9999", b"0640", b"NO"),
    *("\ufeff".encode(), "\u2028".encode(), "\u0301".encode(), "\u202e".encode(), "é".encode(), "Ω".encode()),
    *(b"[[ort 1891]]", b"[[", b"]]", b"![x](javascript:1)", b"<script>", b"../../x", b"[^1]", b"> " * 40),
)
WORDS = (
    *(
        "",
        " ",
        "0",
        "-1",
        "1",
        "1899",
        "1898",
        "18?1",
        "1895-96",
        "1891–1899",
        "1899–1891",
        "AH 1320",
        "none",
    ),
    *(
        "K",
        "ort",
        "vessmark/ort",
        "rich",
        "plain",
        "mule",
        "ingrith",
        "torvald-iii",
        "old",
        "new",
        "fair",
        "yes",
    ),
    *("no", "unknown", "equally", "VF30", "VF30–EF40", "GVF/EF", "AU58+", "9.00 g", "1 oz t", "26 mm", "13h"),
    *(
        "380°",
        ".750",
        "925",
        "40.00 VKR",
        "£1 2s",
        "1/0 ort",
        "1/4d",
        "2019-04-03",
        "2019-02-30",
        "0000-00-00",
    ),
    *(
        "9999-12-31",
        "2019-13",
        "proof",
        "bronze",
        "undated",
        "a.jpg",
        "../a.jpg",
        "/etc/hostname",
        "C:\\x",
        "~",
    ),
    *(
        "ort 1892",
        "ort 1892 old",
        "ort",
        "1e400",
        "NaN",
        "Infinity",
        "1" * 400,
        "١٨٩٩",
        "Ⅳ",
        "½",
        "²",
        "\u0000",
    ),
    *("\ud800", "\u202e", "x" * 300, "https://example.org/", "javascript:1", "http://[::1", "<b>&amp;"),
)


def _matter(text: str) -> tuple[str, str]:
    """Part a file into its YAML and the text after it."""
    if not text.startswith("---\n"):
        return text, ""
    matter, _, notes = text.removeprefix("---\n").partition("\n---\n")
    return matter, notes


TREES = {name: yaml.load(_matter(text)[0], yaml.BaseLoader) for name, text in FILES.items()}
"""What each file holds, with every scalar as a text."""

SORTS = ("bytes", "bytes", "lines", "tree", "tree", "blocks", "whole")

_Code = Iterator[int]
"""Where and how a file is changed, as numbers below 65,536; drawn in one piece, for each draw of many costs more
than reading a catalogue does."""

_codes = st.binary(min_size=40, max_size=40)
_odd = st.text(max_size=5) | st.integers(-3, 10**20).map(str)


def _word(code: _Code, odd: str) -> str:
    at = next(code)
    return WORDS[at % len(WORDS)] if at % 5 else odd


def _value(code: _Code, odd: str) -> object:
    """Choose a word, or a short list or mapping of words."""
    what = next(code) % 8
    if what == 0:
        return [_word(code, odd) for _ in range(next(code) % 3)]
    if what == 1:
        return {_word(code, odd): _word(code, odd) for _ in range(next(code) % 3)}
    return _word(code, odd)


def change_bytes(data: bytes, code: _Code, odd: bytes) -> bytes:
    """Put something in the place of a stretch of a file."""
    begin, length, what = next(code) % (len(data) + 1), next(code) % 40, next(code)
    put = BYTES[what % len(BYTES)] * (1 + what // len(BYTES) % 2) if what % 5 else odd
    return data[:begin] + put + data[begin + length * (what % 2) :]


def change_lines(text: str, code: _Code, odd: str) -> str:
    """Take a line out, write it twice, let two change places, or put a stray word for a value."""
    lines = text.split("\n")
    at, other, what = next(code) % len(lines), next(code) % len(lines), next(code) % 6
    if what == 0 and len(lines) > 1:
        del lines[at]
    elif what == 1:
        lines.insert(other, lines[at])
    elif what == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif what == 3:
        lines[at] = f"  {lines[at]}"
    elif what == 4:
        lines[at] = lines[at].removeprefix("  ")
    else:
        lines[at] = f"{lines[at].partition(': ')[0]}: {_word(code, odd)}"
    return "\n".join(lines)


def change_tree(tree: object, code: _Code, odd: str) -> object:
    """Put something else in the place of a node, or take it out, rename its key, wrap it, or put a twin there."""
    paths = list(_paths(tree, ()))
    if not paths:
        return tree
    path, twin = paths[next(code) % len(paths)], paths[next(code) % len(paths)]
    what = ("put", "put", "cut", "rename", "wrap", "twin")[next(code) % 6]
    return _changed(tree, path, what, _value(code, odd), _at(tree, twin))


def _paths(tree: object, above: tuple[object, ...]):
    pairs = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, below in pairs:
        yield (*above, key)
        yield from _paths(below, (*above, key))


def _at(tree, path):
    for key in path:
        tree = tree[key]
    return tree


def _changed(tree, path, what: str, value: object, twin: object):
    if len(path) > 1:
        below = _changed(tree[path[0]], path[1:], what, value, twin)
        if isinstance(tree, dict):
            return {**tree, path[0]: below}
        return [*tree[: path[0]], below, *tree[path[0] + 1 :]]
    (key,) = path
    put: Callable[[object], object] = {
        "wrap": lambda old: {"x": old} if isinstance(value, dict) else [old, value],
        "twin": lambda old: twin,
    }.get(what, lambda old: value)
    if isinstance(tree, dict):
        if what == "cut":
            return {each: below for each, below in tree.items() if each != key}
        if what == "rename":
            return {str(value)[:40] if each == key else each: below for each, below in tree.items()}
        return {**tree, key: put(tree[key])}
    return [*tree[:key], *([] if what == "cut" else [put(tree[key])]), *tree[key + 1 :]]


def write_tree(name: str, tree: object, blocks: bool) -> bytes:
    """Write a tree as the file of a name would hold it, as JSON, which is YAML, or as blocks of plain words."""
    matter = "\n".join(_block(tree, "")) if blocks else json.dumps(tree, ensure_ascii=False)
    text = FILES[name]
    if text.startswith("---\n"):
        matter = f"---\n{matter}\n---\n{_matter(text)[1]}"
    return matter.encode("utf-8", "surrogatepass")


def _block(tree: object, indent: str):
    if isinstance(tree, dict) and tree:
        for key, below in tree.items():
            if isinstance(below, dict | list) and below:
                yield f"{indent}{key}:"
                yield from _block(below, indent + "  ")
            else:
                yield f"{indent}{key}: {below or ''}"
    elif isinstance(tree, list) and tree:
        for each in tree:
            inside = list(_block(each, indent + "  "))
            yield f"{indent}- {inside[0].strip()}"
            yield from inside[1:]
    else:
        yield f"{indent}{tree}"


@st.composite
def mutated_files(draw: st.DrawFn) -> tuple[str, bytes]:
    """Draw the name of a file and what it holds after one to three changes of one sort."""
    odd = draw(_odd)
    drawn = draw(_codes)
    code = itertools.cycle(int.from_bytes(drawn[at : at + 2], "big") for at in range(0, len(drawn), 2))
    name, sort = tuple(FILES)[next(code) % len(FILES)], SORTS[next(code) % len(SORTS)]
    times = range(1 + next(code) % 3)
    if sort in ("bytes", "whole"):
        data = FILES[name if sort == "bytes" else tuple(FILES)[next(code) % len(FILES)]].encode()
        for _ in times:
            data = change_bytes(data, code, odd.encode("utf-8", "surrogatepass"))
        return name, data
    if sort == "lines":
        text = FILES[name]
        for _ in times:
            text = change_lines(text, code, odd)
        return name, text.encode("utf-8", "surrogatepass")
    tree = TREES[name]
    for _ in times:
        tree = change_tree(tree, code, odd)
    return name, write_tree(name, tree, sort == "blocks")
