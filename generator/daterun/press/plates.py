"""Coins shown in a note: plates, and links in running text with a small picture."""

from collections.abc import Callable
from html import escape

from daterun.pages.views import NoteLink, Picture, SideView
from daterun.press.drawings import draw_coin

_PLATE_SIZES = "(max-width: 40rem) 46vw, 18rem"


def show_plate(link: NoteLink, to: Callable[[str], str], mark: str) -> str:
    """Show a plate as a figure: its sides, leading to the coin's page, and its caption.

    The mark keeps the ids within apart from all others on the page.
    """
    sides = "".join(
        _show_side(side, to, f"{mark}-{number}", _PLATE_SIZES) for number, side in enumerate(link.sides)
    )
    shown = f'<a href="{escape(to(link.address))}">{sides}</a>' if link.address else sides
    caption = f"<figcaption>{escape(link.caption or link.text)}</figcaption>"
    return f'<figure class="plate"><div class="plate-sides">{shown}</div>{caption}</figure>'


def show_inline(link: NoteLink, to: Callable[[str], str]) -> str:
    """Show a link in running text: the words, after a small picture where there is one."""
    words = escape(link.text)
    if not link.address:
        return words
    small = _show_small(link.sides[0], to) if link.sides and not link.is_plate else ""
    return f'<a class="coin-link" href="{escape(to(link.address))}">{small}{words}</a>'


def _show_side(side: SideView, to: Callable[[str], str], mark: str, sizes: str) -> str:
    if side.picture is not None:
        return _image(side.picture, to, sizes)
    return draw_coin(side.drawing, mark) if side.drawing is not None else ""


def _image(picture: Picture, to: Callable[[str], str], sizes: str) -> str:
    middle = picture.sizes[min(1, len(picture.sizes) - 1)]
    srcset = ", ".join(f"{to(size.address)} {size.width_px}w" for size in picture.sizes)
    kind = "picture round" if picture.is_round else "picture"
    return (
        f'<img class="{kind}" src="{escape(to(middle.address))}" srcset="{escape(srcset)}" sizes="{sizes}"'
        f' width="{middle.width_px}" height="{middle.height_px}" alt="{escape(picture.text)}"'
        ' loading="lazy" decoding="async">'
    )


def _show_small(side: SideView, to: Callable[[str], str]) -> str:
    """Show a side small beside its own words, which say all there is to say: the picture itself is mute."""
    if side.picture is None:
        return ""
    size = side.picture.smallest
    kind = "small round" if side.picture.is_round else "small"
    return (
        f'<img class="{kind}" src="{escape(to(size.address))}" width="{size.width_px}"'
        f' height="{size.height_px}" alt="" loading="lazy" decoding="async">'
    )
