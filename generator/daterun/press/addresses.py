"""Addresses on the site, as links from one page to another that also work from a folder on a stick."""

from posixpath import dirname, relpath
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
        return base + quote(path, safe=_SAFE) + ending
    relative = relpath(path, dirname(page) or ".")
    if path.endswith("/"):
        relative += "/"
    linked = quote(relative, safe=_SAFE)
    return linked + ending
