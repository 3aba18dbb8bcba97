"""The keeper's table and camera: paper, shadow, where the coin lies in the frame, and what the file carries."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from coins import Coin
from light import Lamp
from numpy.typing import NDArray
from PIL import Image
from relief import Field
from scipy import ndimage
from strike import departure, metal_of, struck
from surface import coloured

DIE_SIZE = 704  # pixels from rim to rim when a side is struck and lit
LENS = 0.45  # softness of the lens in pixels; it also spares a tenth of the bytes
COARSENESS = 0.60  # of the JPEG tables; at 0.60 a photograph takes some 30 KB
LARGE = {"daler/1894": 1400, "half-daler/1883": 1380, "ort/1897": 1420}
# the camera lay on its side for these; the numbers are those of the orientation tag
TURNED = {"ort/1899.obverse": 6, "daler/1898.reverse": 8, "skilling/1908.obverse": 3,
    "12-skilling/1895.reverse": 6}
PAPERS = [
    (0.40, (0.953, 0.949, 0.937)), (0.24, (0.885, 0.888, 0.893)), (0.12, (0.93, 0.915, 0.885)), (0.10,
        (0.62, 0.625, 0.63)),
    (0.08, (0.225, 0.235, 0.25)), (0.06, (0.085, 0.087, 0.092)),
]


ON_LIGHT_PAPER = {"4-skilling/1905", "ort/1903-k"}
"""Worn coins whose rim was lost to the eye on slate."""


@dataclass(frozen=True, slots=True)
class Framing:
    """How one photograph is taken; places and sizes in pixels, upright."""

    width: int
    height: int
    x: float
    y: float
    diameter: float
    lean: float  # degrees
    paper: tuple[float, float, float]
    lamp: Lamp


def framing(coin: Coin, side: str) -> Framing:
    """Choose frame, place, paper and lamp; both sides of a coin are taken in one sitting."""
    sitting = coin.random("sitting")
    shot = coin.random(side, "shot")
    width = LARGE.get(coin.id) or int(sitting.integers(640, 691))
    height = width if sitting.random() < 0.7 else int(width * sitting.uniform(0.93, 1.0))
    chance, paper = sitting.random(), PAPERS[0][1]
    for share, colour in PAPERS:
        if chance < share:
            paper = colour
            break
        chance -= share
    if coin.id in ON_LIGHT_PAPER:
        paper = PAPERS[0][1]
    if metal_of(coin) == "bronze" and sum(paper) < 1:  # brown on black shows nothing
        paper = (0.62, 0.625, 0.63)
    diameter = min(width, height) * (sitting.uniform(0.815, 0.885) + shot.normal(0, 0.004))
    room = (min(width, height) - diameter) / 2
    lamp = Lamp(sitting.normal(128, 9), sitting.normal(48, 2), float(sitting.uniform(0.35, 0.65)))
    return Framing(
        width, height,
        width / 2 + shot.normal(0, 0.16) * room, height / 2 + shot.normal(0, 0.16) * room,
        float(diameter), float(shot.normal(0, 1.1)), paper, lamp,
    )


def disc_of(coin: Coin, side: str) -> tuple[float, float, float]:
    """Tell where the blank lies in an upright photograph: the middle's x and y, and the diameter, in pixels."""
    shot = framing(coin, side)
    return (round(shot.x, 2), round(shot.y, 2), round(shot.diameter, 2))


def table(shot: Framing, random: np.random.Generator) -> NDArray[np.float32]:
    """Spread the paper, lit a little unevenly."""
    across = np.linspace(-1, 1, shot.width, dtype=np.float32)[None, :]
    down = np.linspace(-1, 1, shot.height, dtype=np.float32)[:, None]
    a = np.deg2rad(shot.lamp.bearing)
    fall = 1 + 0.045 * (across * np.cos(a) - down * np.sin(a)) - 0.025 * (across**2 + down**2)
    grid = ndimage.zoom(random.standard_normal((6, 6)), (shot.height / 6, shot.width / 6), order=3)
    fall = fall + 0.006 * grid[: shot.height, : shot.width]
    return (np.array(shot.paper, dtype=np.float32) * fall[..., None]).astype(np.float32)


def taken(coin: Coin, side: str) -> Image.Image:
    """Take the photograph, upright."""
    shot = framing(coin, side)
    size = DIE_SIZE if shot.diameter < 900 else int(shot.diameter * 1.1)
    made = struck(coin, side, size)
    # the lamp stands still while the coin leans
    turned = shot.lean + (departure(coin).turned if side == "reverse" else 0.0)
    lamp = Lamp(shot.lamp.bearing + turned, shot.lamp.elevation, shot.lamp.hardness)
    colours = coloured(coin, side, made, lamp)
    sheet = np.concatenate([colours, made.there[..., None]], axis=-1)
    scale = size / shot.diameter
    cos, sin = np.cos(np.deg2rad(turned)) * scale, np.sin(np.deg2rad(turned)) * scale
    matrix = (cos, sin, size / 2 - cos * shot.x - sin * shot.y, -sin, cos,
        size / 2 + sin * shot.x - cos * shot.y)
    layers = [
        np.asarray(
            Image.fromarray(np.ascontiguousarray(sheet[..., layer])).transform(
                (shot.width, shot.height), Image.Transform.AFFINE, matrix, resample=Image.Resampling.BICUBIC
            )
        )
        for layer in range(4)
    ]
    px = np.arange(shot.width, dtype=np.float32)[None, :] + 0.5 - shot.x
    py = np.arange(shot.height, dtype=np.float32)[:, None] + 0.5 - shot.y
    far = np.sqrt(px * px + py * py)
    disc = np.clip(shot.diameter / 2 - far + 0.5, 0, 1)
    solid = disc * np.clip(layers[3], 0, 1)
    paper = table(shot, coin.random("paper"))
    paper = paper * (1 - shadow(solid, shot))[..., None]
    image = paper * (1 - solid[..., None]) + np.clip(np.stack(layers[:3], axis=-1), 0, 1) * solid[..., None]
    image = ndimage.gaussian_filter(image, (LENS, LENS, 0))
    noise = coin.random(side, "noise").standard_normal((shot.height, shot.width,
        1)).astype(np.float32) * 0.0035
    return Image.fromarray((np.clip(image + noise, 0, 1) * 255 + 0.5).astype(np.uint8))


def shadow(solid: Field, shot: Framing) -> Field:
    """Cast the coin's soft shadow away from the lamp, darkest at its foot."""
    a = np.deg2rad(shot.lamp.bearing)
    unit = shot.diameter / 100
    total = np.zeros_like(solid)
    for far, soft, dark in ((0.9, 0.7, 0.30), (2.4, 2.2, 0.24)):
        moved = ndimage.shift(solid, (np.sin(a) * far * unit, -np.cos(a) * far * unit),
            order=1, mode="nearest")
        total += dark * ndimage.gaussian_filter(moved, soft * unit)
    return np.clip(total, 0, 0.6)


def exif_of(coin: Coin, name: str) -> Image.Exif | None:
    """Write what an invented camera would have written, into some of the photographs."""
    exif = Image.Exif()
    if coin.random("exif").random() < 0.12:
        exif[0x010F] = "Lumen"
        exif[0x0110] = "Lumen 3"
        exif[0x013B] = "Ida Quennell"
        exif[0x010E] = f"Cabinet, {coin.id}"
        exif[0x8825] = {1: "N", 2: (0.0, 0.0, 36.0), 3: "E", 4: (0.0, 0.0, 12.0), 29: "2019:04:10"}
    if name in TURNED:
        exif[0x0112] = TURNED[name]
    return exif if len(exif) else None


def tables(coarseness: float) -> list[list[int]]:
    """Make the JPEG tables, for light and for colour: the finer the detail, the coarser its steps."""
    light, colour = [], []
    for down in range(8):
        for across in range(8):
            fine = across * across + down * down
            step = 16 + 1.2 * fine + 0.028 * fine * fine
            light.append(max(1, min(255, round(step * coarseness))))
            colour.append(max(1, min(255, round(step * coarseness * 1.6))))
    return [light, colour]


def photograph(coin: Coin, side: str) -> bytes:
    """Take the photograph and write the file."""
    name = f"{coin.id}.{side}"
    image = taken(coin, side)
    lying = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}
    if name in TURNED:
        image = image.transpose(lying[TURNED[name]])
    exif = exif_of(coin, name)
    out = io.BytesIO()
    extra = {"exif": exif.tobytes()} if exif else {}
    image.save(out, "JPEG", qtables=tables(COARSENESS), subsampling="4:2:0", optimize=True,
        progressive=True, **extra)
    return out.getvalue()
