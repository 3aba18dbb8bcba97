"""Legends, words and figures as heights: each letter turned along the circle, or words set straight.

The font is EB Garamond, semi-bold, under the Open Font License beside it; its figures are the lining ones.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
from PIL import Image, ImageChops, ImageDraw, ImageFont
from relief import OVERSAMPLING, Field, Plate

FONT = Path(__file__).parent / "fonts" / "EBGaramond-SemiBold-capitals.ttf"
CAP_SHARE = 0.65  # height of a capital over the size of the font


@cache
def _font(pixels: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(FONT), pixels, layout_engine=ImageFont.Layout.BASIC)


def _advance(text: str, pixels: int) -> list[float]:
    """Measure each letter's room; the middle dot stands free, and a word space is a little narrower."""
    font = _font(pixels)
    return [font.getlength(letter) * (1.0 if letter != " " else 0.9) for letter in text]


def _letter(letter: str, pixels: int, bold: float) -> Image.Image:
    """Draw one letter, its capital's middle in the middle of the tile."""
    side = int(pixels * 2.2)
    tile = Image.new("L", (side, side), 0)
    ImageDraw.Draw(tile).text(
        (side / 2, side / 2 + pixels * CAP_SHARE / 2),
        letter,
        font=_font(pixels),
        fill=255,
        anchor="ms",
        stroke_width=bold,
        stroke_fill=255,
    )
    return tile


def _paste(sheet: Image.Image, tile: Image.Image, x: float, y: float, degrees: float) -> None:
    left, top = int(np.floor(x - tile.width / 2)), int(np.floor(y - tile.height / 2))
    shift = (x - tile.width / 2 - left, y - tile.height / 2 - top)
    tile = tile.rotate(degrees, resample=Image.Resampling.BICUBIC, translate=shift)
    box = (left, top, left + tile.width, top + tile.height)
    sheet.paste(ImageChops.lighter(sheet.crop(box), tile), box)


def ring(
    plate: Plate, text: str, radius: float, height: float, tracking: float = 0.12, below: bool = False,
        bold: float = 0.0
) -> Field:
    """Set a legend on a circle, centred at the top (or, read left to right, at the bottom); 0 to 1.

    `radius` is that of the middle of the capitals, `height` theirs, `tracking` extra room in heights.
    """
    big = plate.size * OVERSAMPLING
    pixels = round(height / CAP_SHARE * big / 2)
    room = [advance + tracking * height * big / 2 for advance in _advance(text, pixels)]
    sheet = Image.new("L", (big, big), 0)
    along = -sum(room) / 2
    for letter, advance in zip(text, room, strict=True):
        angle = (along + advance / 2) / (radius * big / 2)
        along += advance
        if letter == " ":
            continue
        turn = -angle if below else angle
        x = np.sin(angle) * radius
        y = (np.cos(angle) if below else -np.cos(angle)) * radius
        tile = _letter(letter, pixels, bold * pixels)
        _paste(sheet, tile, (x + 1) * big / 2, (y + 1) * big / 2, -np.rad2deg(turn))
    return np.asarray(sheet.reduce(OVERSAMPLING), dtype=np.float32) / 255


def ring_span(text: str, radius: float, height: float, tracking: float = 0.12) -> float:
    """Tell the degrees of the circle that a legend takes."""
    room = sum(_advance(text, 200)) / 200 * height / CAP_SHARE + tracking * height * len(text)
    return float(np.rad2deg(room / radius))


def line(
    plate: Plate, text: str, at: tuple[float, float], height: float, tracking: float = 0.1, bold: float = 0.0
) -> Field:
    """Set words straight, centred on a point in the middle of the capitals; 0 to 1."""
    big = plate.size * OVERSAMPLING
    pixels = round(height / CAP_SHARE * big / 2)
    room = [advance + tracking * height * big / 2 for advance in _advance(text, pixels)]
    sheet = Image.new("L", (big, big), 0)
    along = (at[0] + 1) * big / 2 - sum(room) / 2
    for letter, advance in zip(text, room, strict=True):
        if letter != " ":
            _paste(sheet, _letter(letter, pixels, bold * pixels), along + advance / 2,
                (at[1] + 1) * big / 2, 0.0)
        along += advance
    return np.asarray(sheet.reduce(OVERSAMPLING), dtype=np.float32) / 255


def legend(text: str) -> str:
    """Part the words by middle dots, as the dies do."""
    return " · ".join(text.split())
