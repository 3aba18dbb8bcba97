"""The view of a list that is spread over several pages, as each of them shows it."""

from dataclasses import dataclass

from daterun.pages.pieces import Link


@dataclass(frozen=True, slots=True)
class Parts:
    """Where a page stands among those over which its list is spread, and the ways to the others.

    The number of the page itself has no address; where numbers are left out stands a link without a text.
    Contents lead to the pages on which the headings of the list begin; there are none where they are very many.
    """

    name: str
    previous: Link
    next: Link
    numbers: tuple[Link, ...]
    contents: tuple[Link, ...]
