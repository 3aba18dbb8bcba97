"""Pages in parts: a page whose lists are long is spread over several, the first of which keeps its address.

What a page has beside its lists stands on the first part alone, its cautions on every one. A grid is never cut.
"""

from dataclasses import replace

from daterun.pages import addresses
from daterun.pages.heaps import deal, heap_of
from daterun.pages.partviews import Parts
from daterun.pages.pieces import Link
from daterun.pages.views import Frame, Page
from daterun.pages.words import Words

MOST = 480
"""What one page holds: so many rows of a table, half as many coins by one picture, a quarter by two."""

MOST_CONTENTS = 60
"""Headings of a list that lead to where they begin; of more, the numbers of the pages lead the way."""

BESIDE = 2
"""Numbers of pages that stand on each side of a page's own, beside the first and the last."""


def spread(page: Page, words: Words, most: int = MOST) -> list[Page]:
    """Spread a page over as many as its lists need; a page that is short enough stays as it is."""
    heap = heap_of(page.body)
    if heap is None or sum(many * weight for many, weight in heap.weights) <= most:
        return [page]
    dealt = deal(heap.weights, most)
    if len(dealt) == 1:
        return [page]
    begins = {piece.nth: nth for nth, pieces in reversed(list(enumerate(dealt, 1))) for piece in pieces}
    contents = tuple(
        Link(heading, addresses.of_part(page.address, begins[nth]))
        for nth, heading in enumerate(heap.headings)
        if heading
    )
    return [
        Page(
            addresses.of_part(page.address, nth),
            page.template,
            _frame(page, nth, len(dealt), contents if 1 < len(contents) <= MOST_CONTENTS else (), words),
            heap.make(pieces, nth == 1),
        )
        for nth, pieces in enumerate(dealt, 1)
    ]


def number_pages(nth: int, many: int) -> list[int]:
    """List the numbers that stand in the links of a page: the first, those about it, the last; 0 for a gap."""
    near = range(nth - BESIDE, nth + BESIDE + 1)
    shown = sorted({1, many, *(each for each in near if 1 <= each <= many)})
    numbers: list[int] = []
    for each in shown:
        if numbers and each - numbers[-1] == 2:
            numbers.append(each - 1)
        elif numbers and each - numbers[-1] > 2:
            numbers.append(0)
        numbers.append(each)
    return numbers


def _frame(page: Page, nth: int, many: int, contents: tuple[Link, ...], words: Words) -> Frame:
    def to(other: int) -> str:
        return addresses.of_part(page.address, other) if other not in (0, nth) else ""

    parts = Parts(
        words.say("parts.name", n=nth, many=words.number(many)),
        Link(words.say("parts.previous"), to(nth - 1)) if nth > 1 else Link(""),
        Link(words.say("parts.next"), to(nth + 1)) if nth < many else Link(""),
        tuple(Link(words.number(each) if each else "", to(each)) for each in number_pages(nth, many)),
        contents,
    )
    frame = page.frame
    if nth == 1:
        return replace(frame, parts=parts)
    title = words.say("parts.title", title=frame.title, n=nth, many=words.number(many))
    return replace(
        frame,
        title=title,
        description=f"{title}. {frame.description}" if frame.description else title,
        trail=(*frame.trail, Link(frame.title, page.address)),
        parts=parts,
    )
