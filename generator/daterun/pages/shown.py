"""Which pages show which pictures: found once in a plan, so that a replaced picture is sought in those alone."""

from array import array
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from daterun.pages.pieces import Picture
from daterun.pages.tagviews import SocialPicture, Tags
from daterun.pages.views import Page

_UNDER = "pictures/"
"""What the address of every picture and plate begins with; a whole one has it further on."""

_Keys = tuple[str, ...]
_NONE: _Keys = ()


class Shown:
    """The pages of a plan by the pictures on them, each told by the address of its smallest size.

    Plates are told by their own addresses, and pictures shown elsewhere by their whole ones. A page that shows a
    picture no more may still be named.
    """

    def __init__(self, pages: Iterable[Page]) -> None:
        self._pages: dict[str, array[int]] = {}
        self._places: dict[str, int] = {}
        kept: dict[int, _Keys] = {}
        for nth, page in enumerate(pages):
            self._places[page.address] = nth
            self._note(nth, page, kept)

    def note(self, page: Page) -> None:
        """Note what a page shows that has been planned anew."""
        self._note(self._places[page.address], page, {})

    def place(self, address: str) -> int:
        """Tell the place of a page among all."""
        return self._places[address]

    def places(self, addresses: Iterable[str]) -> list[int]:
        """List the places of the pages that show any of these."""
        return sorted({nth for each in addresses for nth in self._pages.get(each, ())})

    def rename(self, before: str, after: str) -> None:
        """Tell a picture by another address."""
        if (places := self._pages.pop(before, None)) is not None:
            self._pages[after] = places

    def _note(self, nth: int, page: Page, kept: dict[int, _Keys]) -> None:
        for key in {*_keys_of(page.frame, kept), *_keys_of(page.body, kept)}:
            places = self._pages.get(key)
            if places is None:
                places = self._pages[key] = array("L")
            places.append(nth)


def _keys_of(value: Any, kept: dict[int, _Keys]) -> _Keys:
    """Find the addresses in a view; what many views share is looked at once, by where it lies in memory."""
    kind = type(value)
    if kind is str:
        return (value,) if _UNDER in value else _NONE
    parts = value if kind is tuple else _parts_of(value, kind)
    if not parts:
        return _NONE
    found = kept.get(id(value))
    if found is None:
        found = _NONE
        for each in parts:
            if keys := _keys_of(each, kept):
                found = found + keys if found else keys
        kept[id(value)] = found
    return found


def _parts_of(value: Any, kind: type) -> tuple[Any, ...]:
    if kind is Picture:
        return (value.sizes[0].address,)
    if kind is SocialPicture:
        return (value.url,)
    if kind is Tags:
        return (value.picture,)
    return tuple([getattr(value, name) for name in names_of(kind)])


@cache
def names_of(kind: type) -> tuple[str, ...]:
    """Name the fields of a kind of view that may hold an address; none for anything else."""
    return (
        tuple(each.name for each in fields(kind) if each.type not in (int, bool))
        if is_dataclass(kind)
        else ()
    )
