"""Notes in Markdown made into HTML that can be trusted: the one place from which raw HTML comes.

What the keeper typed is cleaned by a strict list of what is allowed; the plates and links of coins are put in
after the cleaning, so that nothing typed can pass for them.
"""

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from html import escape

import markdown
import nh3
from markdown.extensions.footnotes import FootnoteExtension
from markdown.extensions.tables import TableExtension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from daterun.pages.pieces import Note, NoteLink
from daterun.press.typography import Typographer
from daterun.records.links import LINK_PATTERN

_OPEN, _CLOSE = "\ue000", "\ue001"
"""Signs of Unicode's private use that stand round the number of a link until the cleaning is done."""

_TOKEN = re.compile(f"{_OPEN}\\d+{_CLOSE}")
_PIECE = re.compile(f'<(/?)([a-z0-9]+)(?:"[^"]*"|[^">])*>|{_OPEN}(\\d+){_CLOSE}')
_EMPTY_PARAGRAPH = re.compile(r"<p>\s*</p>\n?")
_ALIGNED = re.compile(r'<(td|th) align="(left|center|right)"')
_VOID = frozenset(("br", "hr"))
_MAY_HOLD_FIGURES = frozenset(("li", "dd", "td", "blockquote", "div", "section"))

_PLAIN = re.compile(r"[^\W\d_](?:[^\W_]|[ ,;()]|\.(?!\.)|\n\n?(?=[^\W\d_]))*(?<! )\n?")
"""Paragraphs of words alone, in which Markdown and typography find nothing to do."""

_TAGS = {
    *("p", "br", "hr", "h2", "h3", "h4", "h5", "h6", "blockquote", "pre", "div", "span", "a"),
    *("em", "strong", "b", "i", "u", "s", "del", "ins", "mark", "small", "sub", "sup"),
    *("abbr", "cite", "q", "dfn", "kbd", "samp", "code", "ul", "ol", "li", "dl", "dt", "dd"),
    *("table", "caption", "thead", "tbody", "tfoot", "tr", "th", "td"),
}
_ATTRIBUTES = {
    "a": {"href", "title", "class"},
    "abbr": {"title"},
    "code": {"class"},
    "div": {"class"},
    "li": {"id"},
    "sup": {"id"},
    "ol": {"start"},
    "td": {"align", "colspan", "rowspan"},
    "th": {"align", "colspan", "rowspan", "scope"},
}
_CLASSES = re.compile(r"footnote|footnote-ref|footnote-backref|language-[\w+-]+")
_IDS = re.compile(r"fn(ref)?\d*:[^\s\"<>]+")


def _keep_attribute(tag: str, name: str, value: str) -> str | None:
    if name == "class":
        return value if _CLASSES.fullmatch(value) else None
    if name == "id":
        return value if _IDS.fullmatch(value) else None
    return value


class _LinkProcessor(InlineProcessor):
    """Puts a numbered token for each link of the note that is known, and plain words for any other."""

    def __init__(self, md: markdown.Markdown) -> None:
        super().__init__(LINK_PATTERN, md)
        self.links: dict[str, NoteLink] = {}
        self.used: list[NoteLink] = []

    def handleMatch(  # type: ignore[override]  # noqa: N802
        self, m: re.Match[str], data: str
    ) -> tuple[str, int, int]:
        link = self.links.get(m.group(1))
        if link is None:
            target, _, label = m.group(1).partition("|")
            return (label or target).strip(), m.start(0), m.end(0)
        self.used.append(link)
        return f"{_OPEN}{len(self.used) - 1}{_CLOSE}", m.start(0), m.end(0)


class _ShapeProcessor(Treeprocessor):
    """Sets headings under the page's own, makes typed images words, and quotes and dashes typographic."""

    def __init__(self, md: markdown.Markdown, typographer: Typographer) -> None:
        super().__init__(md)
        self.typographer = typographer
        self.top = 2

    def run(self, root: ElementTree.Element) -> None:
        levels = [int(each.tag[1]) for each in root.iter() if _is_heading(each)]
        down = self.top - min(levels, default=self.top)
        for each in root.iter():
            if _is_heading(each):
                each.tag = f"h{min(max(int(each.tag[1]) + down, 2), 6)}"
            elif each.tag == "img":
                text = each.get("alt", "")
                each.attrib.clear()
                each.tag, each.text = "span", text
        self.typographer.set_tree(root)


def _is_heading(element: ElementTree.Element) -> bool:
    return len(element.tag) == 2 and element.tag[0] == "h" and element.tag[1] in "123456"


class NotePress:
    """Makes notes into HTML; one Markdown parser is kept and set back for each.

    How a plate and a mention of a coin look is the theme's: each is a function from a link to trusted HTML.
    The way back from a footnote is worded with {} for its number.
    """

    def __init__(
        self,
        language: str,
        plate: Callable[[NoteLink], str],
        mention: Callable[[NoteLink], str],
        back_to_text: str = "",
    ) -> None:
        self.plate = plate
        self.mention = mention
        self.footnotes = FootnoteExtension(
            UNIQUE_IDS=True, BACKLINK_TITLE=back_to_text or "Back to note {} in the text"
        )
        self.md = markdown.Markdown(
            extensions=[
                TableExtension(use_align_attribute=True),
                self.footnotes,
                "def_list",
                "fenced_code",
                "sane_lists",
            ],
            output_format="html",
        )
        self.md.ESCAPED_CHARS += ['"', "'"]
        self.links = _LinkProcessor(self.md)
        self.shape = _ShapeProcessor(self.md, Typographer(language))
        # After code spans (190) and escapes (180), before the links of Markdown itself (170 and less).
        self.md.inlinePatterns.register(self.links, "coin links", 175)
        # After the inline patterns (20), before escaped signs become themselves again (0).
        self.md.treeprocessors.register(self.shape, "shape", 10)

    def make(self, note: Note, number: int = 1, top: int = 2) -> Markup:
        """Make a note into HTML for one page.

        The number is that of the note on its page, from 1, and keeps its
        footnotes apart from those of others. The highest heading becomes one of the level ``top``.
        """
        self.md.reset()
        self.footnotes.unique_prefix = number
        self.links.links = {_inside(each.written): each for each in note.links}
        self.links.used = []
        self.shape.top = top
        typed = note.markdown.replace(_OPEN, "").replace(_CLOSE, "")
        if _PLAIN.fullmatch(typed) and " \n" not in typed:
            return Markup("\n".join(f"<p>{each}</p>" for each in typed.strip().split("\n\n")))
        html = nh3.clean(
            self.md.convert(typed),
            tags=_TAGS,
            clean_content_tags={"script", "style", "template", "noscript", "iframe", "svg", "math"},
            attributes=_ATTRIBUTES,
            attribute_filter=_keep_attribute,
            url_schemes={"http", "https", "mailto"},
            link_rel="noopener noreferrer",
        )
        html = _ALIGNED.sub(r'<\1 class="\2"', html)
        if self.links.used:
            html = self._set_links(html, self.links.used)
        return Markup(html)

    def _set_links(self, html: str, links: list[NoteLink]) -> str:
        """Set plates and links where their tokens stand; a plate within a paragraph parts it in two."""
        out: list[str] = []
        open_tags: list[str] = []
        last = 0
        for piece in _PIECE.finditer(html):
            out.append(html[last : piece.start()])
            last = piece.end()
            closing, tag, index = piece.groups()
            if index is None:
                out.append(piece.group())
                if closing:
                    open_tags.pop()
                elif tag not in _VOID:
                    open_tags.append(tag)
                continue
            link = links[int(index)]
            within = open_tags[-1] if open_tags else ""
            if "a" in open_tags:
                out.append(escape(link.text))
            elif not link.is_plate or not (within in ("", "p") or within in _MAY_HOLD_FIGURES):
                out.append(self.mention(link))
            else:
                plate = self.plate(link)
                out.append(f"</p>\n{plate}\n<p>" if within == "p" else plate)
        out.append(html[last:])
        return _EMPTY_PARAGRAPH.sub("", _TOKEN.sub("", "".join(out)))


def _inside(written: str) -> str:
    return written[2:-2] if written.startswith("[[") and written.endswith("]]") else written
