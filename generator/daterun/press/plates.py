"""Plates: the faces of both sides on a plain ground, and under them words in the theme's own letters."""

import hashlib
import io
import os
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache

from PIL import Image, ImageDraw, ImageFont

from daterun.pages.plates import HEIGHT_PX, WIDTH_PX, PlateOrder
from daterun.press.faces import FACES_PX, GROUND, HALF_PX, QUALITY, Faces
from daterun.press.fingerprints import Mark, program_of_plates
from daterun.press.joined import code_part, join_parts
from daterun.press.theme import Theme

LETTERS = "eb-garamond-regular.woff2"
"""The asset of the theme in which captions are set; FreeType reads it as it is."""

_INK, _QUIET = (30, 27, 21), (102, 95, 77)
_MOST_TEXT_PX = 1800
_SIZES_PX = (60, 36, 26)
_MOST_KEPT = 16  # sizes of letters; long captions have their own
_own = threading.local()

_MOST_THREADS = 4
"""A plate takes some 2 MB while it is drawn."""


class PlatePress:
    """Draws plates in the letters of one theme."""

    def __init__(self, theme: Theme) -> None:
        self._letters = theme.assets[LETTERS].path.read_bytes()
        self._digest = hashlib.blake2b(self._letters, digest_size=8).hexdigest()

    def mark(self, order: PlateOrder) -> Mark:
        """Mark a plate, whose address says already what it shows, by the letters and the program."""
        return Mark(order.address, self._digest, program_of_plates())

    def warm(self) -> None:
        """Make ready in this thread what every plate needs."""
        for size_px in _SIZES_PX:
            self._at_size(size_px)

    def draw(self, order: PlateOrder, faces: Faces) -> bytes:
        """Draw a plate, as a JPEG, of which only the words are coded anew."""
        faces_shown = tuple(faces.face_of(each.address, each.is_round) for each in order.sides)
        if len(faces_shown) == 1:
            faces_shown = (_margin(), *faces_shown, _margin())
        words = Image.new("RGB", (WIDTH_PX, HEIGHT_PX - FACES_PX), GROUND)
        pen = ImageDraw.Draw(words)
        caption_px, line_px, credit_px = _SIZES_PX
        self._write(pen, order.caption, caption_px, 950, _INK)
        self._write(pen, order.line, line_px, 1003, _QUIET)
        self._write(pen, order.credit, credit_px, 1052, _QUIET)
        return join_parts((faces_shown, (code_part(words, QUALITY),)))

    def _write(
        self, pen: ImageDraw.ImageDraw, text: str, size_px: int, baseline: int, colour: tuple[int, int, int]
    ) -> None:
        """Write a line in the middle, smaller where it would not fit; the baseline is that on the plate."""
        letters = self._at_size(size_px)
        length = letters.getlength(text)
        if length > _MOST_TEXT_PX:
            size_px = max(int(size_px * _MOST_TEXT_PX / length), 8)
            letters = self._at_size(size_px)
        pen.text((WIDTH_PX / 2, baseline - FACES_PX), text, fill=colour, font=letters, anchor="ms")

    def _at_size(self, size_px: int) -> ImageFont.FreeTypeFont:
        """Give the letters at a size, which each thread keeps for itself: unpacking them takes 4 ms."""
        kept: dict[tuple[str, int], ImageFont.FreeTypeFont] = _own.__dict__.setdefault("kept", {})
        key = (self._digest, size_px)
        if key not in kept:
            if len(kept) >= _MOST_KEPT:
                kept.clear()
            kept[key] = ImageFont.truetype(io.BytesIO(self._letters), size_px)
        return kept[key]


def draw_plates(
    orders: Sequence[PlateOrder],
    press: PlatePress,
    faces: Faces,
    write: Callable[[str, bytes], object],
    progress: Callable[[int, int], None] = lambda done, total: None,
) -> None:
    """Draw plates on several threads and hand each to ``write``, which they call at once."""
    if not orders:
        return

    def make(order: PlateOrder) -> None:
        write(order.address, press.draw(order, faces))

    if len(orders) == 1:  # in the preview's own thread, which has the letters still from the last time
        make(orders[0])
        progress(1, 1)
        return
    with ThreadPoolExecutor(min(os.cpu_count() or 1, _MOST_THREADS), thread_name_prefix="plates") as pool:
        for done, _ in enumerate(pool.map(make, orders), start=1):
            progress(done, len(orders))


@cache
def _margin() -> bytes:
    """Code the ground beside a side that stands alone."""
    return code_part(Image.new("RGB", ((WIDTH_PX - HALF_PX) // 2, FACES_PX), GROUND), QUALITY)
