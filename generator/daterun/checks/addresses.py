"""Whether names of files can be addresses on the site, each of one page."""

from collections.abc import Iterable, Iterator

from daterun.naming import slug
from daterun.problems import Place, Problem
from daterun.records.catalogue import Catalogue
from daterun.records.files import fold_name

_REFUSED = frozenset('\\?#%:*"<>|[]')
"""Signs that part an address, that some machines refuse in a name, or that end a link in notes."""


def check_addresses(catalogue: Catalogue) -> Iterator[Problem]:
    """Find names of files that make no address, and two that make the same."""
    named = [(each.id, each.path) for each in catalogue.coins]
    named += [(each.id, each.path) for each in catalogue.essays]
    named += [(each.id, each.path) for each in catalogue.series.values()]
    named += [(each.id, each.path) for each in catalogue.issuers.values()]
    for name, path in named:
        yield from _check_name(name, path)
    yield from check_pages(_pages(catalogue))


def _pages(catalogue: Catalogue) -> Iterator[tuple[str, Place | None]]:
    """List the pages whose addresses the keeper settles, and those of our own beside them.

    Series of one denomination share a page, whose first file stands for them all.
    """
    yield "coins/index.html", None
    yield "essays/index.html", None
    for coin in catalogue.coins:
        yield f"coins/{coin.id}/index.html", Place(coin.path)
    for essay in catalogue.essays:
        yield f"essays/{essay.id}/index.html", Place(essay.path)
    shared: dict[tuple[str, str], Place] = {}
    for series in catalogue.series.values():
        shared.setdefault((series.issuer, series.denomination or series.name), Place(series.path))
    for (issuer, denomination), place in shared.items():
        yield f"denominations/{issuer}/{slug(denomination)}/index.html", place


def _check_name(name: str, path: str) -> Iterator[Problem]:
    refused = sorted({sign for sign in name if sign in _REFUSED or not sign.isprintable()})
    if refused:
        shown = " ".join(sign if sign.isprintable() else f"U+{ord(sign):04X}" for sign in refused)
        yield Problem(
            "address",
            f"the name of this file holds {shown}, which cannot stand in an address",
            Place(path),
            "rename it with letters, figures, hyphens and dots",
        )
    elif any(part != part.strip(" .") or not part for part in name.split("/")):
        yield Problem(
            "address",
            "the name of this file, or of a folder above it, begins or ends with a space or a dot",
            Place(path),
            "rename it with letters, figures and hyphens",
        )


def check_pages(pages: Iterable[tuple[str, Place | None]]) -> Iterator[Problem]:
    """Find two pages at one address, letters' case apart, or one where another needs a folder.

    A place of None is a page of our own. Two files of one name but for its case have been reported when they
    were read.
    """
    taken: dict[str, tuple[str, Place | None]] = {}
    folders: dict[str, tuple[str, Place | None]] = {}
    for address, place in pages:
        folded = fold_name(address)
        if folded in taken:
            yield from _clash(address, place, taken[folded][1])
        taken.setdefault(folded, (address, place))
        parts = folded.split("/")
        for depth in range(1, len(parts)):
            folders.setdefault("/".join(parts[:depth]), (address, place))
    for folded, (address, place) in taken.items():
        if folded in folders:
            yield from _clash(address, folders[folded][1], place)


def _clash(address: str, place: Place | None, other: Place | None) -> Iterator[Problem]:
    if place is None or (other is not None and fold_name(place.path) == fold_name(other.path)):
        return
    yield Problem(
        "same address",
        f"a page of this file would lie at {address}, where another lies",
        place,
        "rename one of the two" if other is not None else "rename the file",
        others=(other,) if other is not None else (),
    )
