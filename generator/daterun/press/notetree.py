"""Notes in Markdown made into a tree of kinds, for paper: nothing in a note is ever handed on as markup.

Only the kinds listed here come through. What is typed as HTML is text and stands as it was typed.
"""

import html
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from typing import Any

import markdown
from markdown.extensions.footnotes import FootnoteExtension
from markdown.extensions.tables import TableExtension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AMP_SUBSTITUTE, HTML_PLACEHOLDER_RE

from daterun.pages.pieces import Note, NoteLink
from daterun.press.typography import Typographer
from daterun.records.links import LINK_PATTERN

Tree = list[dict[str, Any]]
"""Nodes, each with its ``kind``, and ``text`` or ``children``, and what else the kind has."""

_BLOCKS = {
    "p": "paragraph",
    "blockquote": "quote",
    "ul": "bullets",
    "ol": "numbers",
    "li": "item",
    "hr": "rule",
}
_LISTED = {"dl": "terms", "dt": "term", "dd": "meaning", "pre": "typed", "table": "table"}
_INLINE = {
    "em": "emphasis",
    "strong": "strong",
    "code": "code",
    "sup": "raised",
    "sub": "lowered",
    "br": "break",
}
KINDS = _BLOCKS | _LISTED | _INLINE
"""The tags that come through, by what they are on paper; headings, links and footnotes are seen to apart."""

_ADDRESS = re.compile(r"(https?://|mailto:)[^\s\"<>]+", re.IGNORECASE)
_HEADING = re.compile(r"h[1-6]")
_FENCED = re.compile(r"<pre><code[^>]*>(.*?)</code></pre>", re.DOTALL)
_HOLD_BLOCKS = frozenset(("div", "blockquote", "ul", "ol", "dl"))
_BACK = re.compile("\x02qq[0-9]+zz\x03")
"""What Python-Markdown's footnotes put where the way back is to stand: paper has none."""

_LINK = "coinlink"


class _LinkProcessor(InlineProcessor):
    """Sets an element of its own for each link to a coin or date; raw HTML cannot make one, for there is none."""

    def handleMatch(  # type: ignore[override]  # noqa: N802
        self, m: re.Match[str], data: str
    ) -> tuple[ElementTree.Element, int, int]:
        element = ElementTree.Element(_LINK)
        element.set("written", m.group(1))
        return element, m.start(0), m.end(0)


class _Capture(Treeprocessor):
    """Keeps the tree as it stands when all else is done with it."""

    root: ElementTree.Element | None = None

    def run(self, root: ElementTree.Element) -> None:
        self.root = root


class NoteTrees:
    """Makes notes into trees; one Markdown parser is kept and set back for each."""

    def __init__(self, language: str) -> None:
        self.typographer = Typographer(language)
        self.md = markdown.Markdown(
            extensions=[
                TableExtension(use_align_attribute=True),
                FootnoteExtension(),
                "def_list",
                "fenced_code",
                "sane_lists",
            ],
            output_format="html",
        )
        self.md.ESCAPED_CHARS += ['"', "'"]
        self.md.preprocessors.deregister("html_block")
        self.md.inlinePatterns.deregister("html")
        self.md.inlinePatterns.deregister("entity")
        self.md.inlinePatterns.register(_LinkProcessor(LINK_PATTERN, self.md), "coin links", 175)
        self.capture = _Capture(self.md)
        self.md.treeprocessors.register(self.capture, "capture", -10)

    def make(self, note: Note) -> Tree:
        """Make the tree of a note."""
        self.md.reset()
        self.md.convert(note.markdown.replace("\x02", "").replace("\x03", ""))
        root = self.capture.root
        assert root is not None
        self.typographer.set_tree(root)
        return _Walk(self.md, {_inside(each.written): each for each in note.links}, root).blocks(root)


class _Walk:
    """One walk through the tree of a note."""

    def __init__(self, md: markdown.Markdown, links: dict[str, NoteLink], root: ElementTree.Element) -> None:
        self.md = md
        self.links = links
        self.footnotes = {
            each.get("id", ""): each
            for box in root.iter("div")
            if box.get("class") == "footnote"
            for each in box.iter("li")
        }
        self.open: set[str] = set()

    def blocks(self, element: ElementTree.Element) -> Tree:
        """Walk what an element holds; space between blocks is nothing."""
        children = list(self._children(element))
        if element.tag not in _HOLD_BLOCKS and element.find("p") is None:
            return children
        return [each for each in children if each["kind"] != "text" or each["text"].strip()]

    def _children(self, element: ElementTree.Element) -> Iterator[dict[str, Any]]:
        yield from self._text(element.text)
        for child in element:
            yield from self._node(child)
            yield from self._text(child.tail)

    def _text(self, text: str | None) -> Iterator[dict[str, Any]]:
        text = _BACK.sub("", text or "").replace(AMP_SUBSTITUTE, "&")
        if not text:
            return
        fenced = HTML_PLACEHOLDER_RE.search(text)
        if fenced is None:
            yield {"kind": "text", "text": html.unescape(text)}
            return
        yield from self._text(text[: fenced.start()].strip())
        raw = self.md.htmlStash.rawHtmlBlocks[int(fenced.group(1))]
        code = _FENCED.search(raw) if isinstance(raw, str) else None
        yield {"kind": "typed", "text": html.unescape(code.group(1) if code else str(raw)).rstrip("\n")}
        yield from self._text(text[fenced.end() :].strip())

    def _node(self, element: ElementTree.Element) -> Iterator[dict[str, Any]]:
        tag = element.tag
        if tag == _LINK:
            yield from self._coin(element.get("written", ""))
        elif tag == "a":
            yield from self._link(element)
        elif tag == "img":
            yield {"kind": "text", "text": html.unescape(element.get("alt", ""))}
        elif tag == "sup" and element.get("id", "").startswith("fnref"):
            yield from self._footnote(element)
        elif tag == "div" and element.get("class") == "footnote":
            return
        elif _HEADING.fullmatch(tag):
            yield {"kind": "heading", "level": int(tag[1]), "children": self.blocks(element)}
        elif tag == "table":
            yield self._table(element)
        elif tag in ("pre", "code"):
            yield {"kind": KINDS[tag], "text": html.unescape("".join(element.itertext())).rstrip("\n")}
        elif tag in KINDS:
            node: dict[str, Any] = {"kind": KINDS[tag], "children": self.blocks(element)}
            if tag == "ol" and element.get("start", "").isdigit():
                node["start"] = int(element.get("start", "1"))
            yield from self._parted(node) if tag == "p" else (node,)
        else:
            yield from self._children(element)

    def _parted(self, paragraph: dict[str, Any]) -> Iterator[dict[str, Any]]:
        """Part a paragraph at its plates and fenced code, which are blocks."""
        run: Tree = []
        for each in paragraph["children"]:
            if each["kind"] in ("plate", "typed"):
                if any(one["kind"] != "text" or one["text"].strip() for one in run):
                    yield {**paragraph, "children": run}
                run = []
                yield each
            else:
                run.append(each)
        if any(one["kind"] != "text" or one["text"].strip() for one in run):
            yield {**paragraph, "children": run}

    def _coin(self, written: str) -> Iterator[dict[str, Any]]:
        link = self.links.get(written)
        if link is None:
            target, _, label = written.partition("|")
            yield {"kind": "text", "text": (label or target).strip()}
        elif link.is_plate:
            yield {"kind": "plate", "sides": link.sides, "caption": link.caption, "address": link.address}
        else:
            yield {"kind": "mention", "text": link.text, "address": link.address}

    def _link(self, element: ElementTree.Element) -> Iterator[dict[str, Any]]:
        href = element.get("href", "").replace(AMP_SUBSTITUTE, "&")
        address = html.unescape(self.md.treeprocessors["unescape"].unescape(href))  # type: ignore[attr-defined]
        children = self.blocks(element)
        if _ADDRESS.fullmatch(address):
            yield {"kind": "link", "to": address, "children": children}
        else:
            yield from children

    def _footnote(self, element: ElementTree.Element) -> Iterator[dict[str, Any]]:
        target = next((each.get("href", "")[1:] for each in element.iter("a")), "")
        note = self.footnotes.get(target)
        if note is None or target in self.open:
            return
        self.open.add(target)
        for back in [(above, each) for above in note.iter() for each in above if _leads_back(each)]:
            back[0].remove(back[1])
        yield {"kind": "footnote", "children": self.blocks(note)}
        self.open.discard(target)

    def _table(self, element: ElementTree.Element) -> dict[str, Any]:
        rows = [
            [{"align": cell.get("align", ""), "children": self.blocks(cell)} for cell in row]
            for row in element.iter("tr")
        ]
        columns = max((len(each) for each in rows), default=1)
        whole = [[*row, *([{"align": "", "children": []}] * (columns - len(row)))] for row in rows]
        return {"kind": "table", "columns": columns, "rows": whole}


def _leads_back(element: ElementTree.Element) -> bool:
    return element.tag == "a" and element.get("class") == "footnote-backref"


def _inside(written: str) -> str:
    return written[2:-2] if written.startswith("[[") and written.endswith("]]") else written
