"""Fingerprints: by what a page, picture or other file was made, so that only what is stale is made again.

A mark has three parts, what is shown, the theme and the program, so that a person can be told which changed.
"""

import hashlib
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from pathlib import Path

from daterun import __version__
from daterun.pages.pictures import PictureOrder
from daterun.pages.views import Page

_OF_PICTURES = ("cutting", "colours", "../photos/opened")
"""The modules that bear on the bytes of a picture."""


@dataclass(frozen=True, slots=True)
class Mark:
    """By what a file was made; a part that has no bearing on it is empty."""

    shown: str
    theme: str = ""
    program: str = ""


def mark_page(page: Page, theme: str, base: str) -> Mark:
    """Mark a page by its view, the theme's fingerprint and the program; the base is where the site will lie."""
    return mark_shown(repr(page), theme, base)


def mark_shown(shown: str, theme: str, base: str) -> Mark:
    """Mark a page by the text of its view."""
    digest = hashlib.blake2b(f"{base}\n{shown}".encode(), digest_size=12).hexdigest()
    return Mark(digest, theme, program_of_pages())


def mark_picture(order: PictureOrder) -> Mark:
    """Mark a picture, whose address tells its photo and how it is cut, by the steps to its width as well."""
    steps = "".join(f" {each}" for each in order.steps)
    return Mark(f"{order.address}{steps}", "", program_of_pictures())


def mark_bytes(data: bytes) -> Mark:
    return Mark(hashlib.blake2b(data, digest_size=12).hexdigest())


def reason_for(before: Mark, now: Mark) -> str:
    """Say why a file of the first mark is made again with the second; "" where the two are one."""
    if before == now:
        return ""
    if before.shown != now.shown:
        return "what it shows has changed"
    if before.theme != now.theme:
        return "the theme has changed"
    return "the program has changed"


@cache
def program_of_pages() -> str:
    """Tell what of the program bears on a page beside its view: the press, and the libraries it uses."""
    return _program(
        ("addresses", "bounds", "fragments", "notes", "purity", "templates", "typography"),
        ("jinja2", "markdown", "markupsafe", "nh3"),
    )


@cache
def program_of_pictures() -> str:
    """Tell what of the program bears on a picture beside its order: its making, and the library for it."""
    return _program(_OF_PICTURES, ("pillow",))


@cache
def program_of_plates() -> str:
    """Tell what of the program bears on a plate beside its order, its letters and the pictures on it."""
    return _program(("plates", "faces", "joined", *_OF_PICTURES), ("pillow",))


def _program(modules: tuple[str, ...], libraries: tuple[str, ...]) -> str:
    total = hashlib.blake2b(__version__.encode(), digest_size=6)
    for name in modules:
        total.update((Path(__file__).parent / f"{name}.py").read_bytes())
    for name in libraries:
        total.update(f"{name} {version(name)}\n".encode())
    return total.hexdigest()
