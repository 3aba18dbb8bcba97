"""Addresses on the site, as links from one page to another that also work from a folder on a stick."""

from functools import lru_cache
from posixpath import normpath
from urllib.parse import quote

_SAFE = "/-._~!$&'()*+,;=@"


def root_from(address: str) -> str:
    """Tell the way from a page up to the root of the edition: "" or some ``../``."""
    return "../" * address.count("/")


def link_from(page: str, address: str, base: str = "") -> str:
    """Word a link from a page to an address of the site, percent-encoded; "" leads nowhere and stays "".

    A ``#part`` at the end is kept, and one alone is a part of the same page. What begins with http://, https://
    or mailto: leads away and is left as it is. With a base, such as ``/coins/``, the link is whole.
    """
    if not address or address.startswith(("http://", "https://", "mailto:")):
        return address
    path, hash_sign, part = address.partition("#")
    ending = hash_sign + quote(part, safe=_SAFE + ":?")
    if not path:
        return ending
    if base:
        return base + quoted(path) + ending
    return _relative(_steps(page), _steps(path)) + ending


def quoted(path: str) -> str:
    """Write a path as it stands in links."""
    return quote(path, safe=_SAFE)


@lru_cache(maxsize=1 << 15)
def _steps(path: str) -> tuple[str, ...]:
    if ".." in path:  # there and back is worded in one way
        path = normpath(path)
    return tuple(quoted(path).split("/"))


def _relative(page: tuple[str, ...], wanted: tuple[str, ...]) -> str:
    """Find the way between two addresses; ``posixpath.relpath`` takes longer, for it asks the disk."""
    shared = 0
    for here, there in zip(page[:-1], wanted[:-1], strict=False):
        if here != there:
            break
        shared += 1
    return "../" * (len(page) - 1 - shared) + "/".join(wanted[shared:]) or "./"
