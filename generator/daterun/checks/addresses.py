"""Whether names of files can be addresses on the site, each of one page."""

from collections.abc import Iterable, Iterator

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
    pages = [(f"coins/{each.id}/index.html", Place(each.path)) for each in catalogue.coins]
    pages += [(f"pages/{each.id}/index.html", Place(each.path)) for each in catalogue.essays]
    yield from check_pages(pages)


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


def check_pages(pages: Iterable[tuple[str, Place]]) -> Iterator[Problem]:
    """Find two pages at one address, letters' case apart, or one where another needs a folder.

    Two files of one name but for its case have been reported when they were read.
    """
    taken: dict[str, Place] = {}
    folders: dict[str, Place] = {}
    ordered = sorted(pages)
    for address, place in ordered:
        folded = fold_name(address)
        parts = folded.split("/")
        for depth in range(1, len(parts)):
            folders.setdefault("/".join(parts[:depth]), place)
        if folded in taken and fold_name(taken[folded].path) != fold_name(place.path):
            yield _clash(address, place, taken[folded])
        taken.setdefault(folded, place)
    for address, place in ordered:
        if (other := folders.get(fold_name(address))) is not None:
            yield _clash(address, other, place)


def _clash(address: str, place: Place, other: Place) -> Problem:
    return Problem(
        "same address",
        f"the page of this file would lie at {address}, where another lies",
        place,
        "rename one of the two files",
        others=(other,),
    )
