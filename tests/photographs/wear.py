"""What time does to a coin: wear that grows as the grade falls, soft strikes, bag marks, scratches and holes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw, ImageFilter
from relief import Field, Plate
from scipy import ndimage


def wear_of(grade: float) -> float:
    """Turn a grade of the 70-point scale into wear from 0 (as struck) to 1 (a smooth disc)."""
    steps = [(1, 1.0), (3, 0.93), (4, 0.86), (8, 0.74), (12, 0.62), (15, 0.55), (20, 0.45), (30, 0.33),
        (40, 0.21), (50, 0.11), (58, 0.045), (60, 0.0), (70, 0.0)]
    return float(np.interp(grade, [s[0] for s in steps], [s[1] for s in steps]))


def worn(heights: Field, grade: float, random: np.random.Generator) -> Field:
    """Wear a relief down: the high points go flat first, then detail and letters melt into the field."""
    wear = wear_of(grade)
    if wear <= 0:
        return heights
    size = heights.shape[0]
    plate = Plate(size)
    r = plate.radius()
    field = 0.012 * r * r
    relief = heights - field
    top = 0.080
    # pockets wear one side a little more than the other
    lean = random.normal(0, 0.10, 2)
    x, y = plate.axes()
    uneven = 1 + wear * (lean[0] * x + lean[1] * y)
    level = (top * (1 - wear) ** 1.65 + 0.010 * (1 - wear) + 0.0035) * np.clip(uneven, 0.6, 1.5)
    soft = level * 0.22
    # a soft ceiling: below it nothing changes, above it almost nothing is left
    over = relief - level
    flat = relief - soft * np.logaddexp(0, over / soft) * 0.93
    # detail is rubbed away, most of all near the ceiling
    reach = 0.0008 + 0.0105 * wear**1.5
    smooth = plate.blur(flat, reach)
    touched = np.clip((plate.blur(relief, 0.01) / level - 0.35) / 0.65, 0, 1)
    share = np.clip(0.15 + 1.3 * max(0.0, wear - 0.35) + 0.85 * touched, 0, 1) * min(1.0, 0.35 + 1.4 * wear)
    flat = flat * (1 - share) + smooth * share
    rim = np.clip((r - 0.93) / 0.02, 0, 1)
    flat = flat * (1 - rim) + plate.blur(flat, 0.0025 + 0.008 * wear) * rim
    return (field * (1 - 0.5 * wear) + flat).astype(np.float32)


def softly_struck(heights: Field, at: tuple[float, float], reach: float, depth: float) -> Field:
    """Leave one place weak, as a tired press does."""
    plate = Plate(heights.shape[0])
    weak = np.clip(plate.bump(at, reach) * 1.6, 0, 1) * depth
    return heights * (1 - weak) + plate.blur(heights, 0.03) * weak * (1 - 0.75 * depth)


def scratches(size: int, count: int, random: np.random.Generator, length: float, depth: float,
    angle: float | None = None, spread: float = 3.2) -> Field:
    """Draw fine straight and curved lines cut into the surface; depth in coin radii."""
    sheet = Image.new("L", (size, size), 0)
    draw = ImageDraw.Draw(sheet)
    for _ in range(count):
        x, y = random.uniform(0, size, 2)
        way = random.uniform(0, np.pi) if angle is None else angle + random.normal(0, 0.02) * spread
        far = size * length * random.gamma(1.6, 0.5)
        bend = random.normal(0, 0.06)
        points = [(x + np.cos(way + bend * t) * far * t,
            y + np.sin(way + bend * t) * far * t) for t in np.linspace(0, 1, 5)]
        draw.line(points, fill=int(random.uniform(60, 255)), width=1)
    return np.asarray(sheet.filter(ImageFilter.GaussianBlur(size / 1500)), dtype=np.float32) / 255 * depth


def marks(size: int, count: int, random: np.random.Generator, depth: float) -> Field:
    """Strike small dents with a raised lip, as coins do to each other in a bag."""
    out = np.zeros((size, size), dtype=np.float32)
    for _ in range(count):
        long = size * random.gamma(1.6, 0.0032) + 1.5
        wide = long * random.uniform(0.18, 0.5) + 0.7
        span = int(long * 3) + 3
        cx, cy = random.integers(span, size - span, 2)
        way = random.uniform(0, np.pi)
        gx = np.arange(-span, span + 1, dtype=np.float32)[None, :]
        gy = np.arange(-span, span + 1, dtype=np.float32)[:, None]
        u = (gx * np.cos(way) + gy * np.sin(way)) / long
        v = (gy * np.cos(way) - gx * np.sin(way)) / wide
        dent = -np.exp(-0.5 * (u**2 + v**2)) + 0.45 * np.exp(-0.5 * (u**2 + (v - 1.6) ** 2))
        out[cy - span : cy + span + 1, cx - span : cx + span + 1] += dent * depth * random.uniform(0.3, 1)
    return out


@dataclass(frozen=True, slots=True)
class Damage:
    """A relief after a mishap, and how much of each place is still there (0 in a hole)."""

    heights: Field
    there: Field


def holed(heights: Field, at: tuple[float, float], radius: float) -> Damage:
    """Pierce the coin, with a burr round the hole."""
    plate = Plate(heights.shape[0])
    x, y = plate.axes()
    far = np.sqrt((x - at[0]) ** 2 + (y - at[1]) ** 2)
    burr = np.exp(-0.5 * ((far - radius * 1.18) / (radius * 0.16)) ** 2) * 0.022
    sink = -0.05 * np.clip((radius * 1.12 - far) / (radius * 0.2), 0, 1)
    there = np.clip((far - radius) * heights.shape[0] / 2 + 0.5, 0, 1)
    return Damage((heights + burr + sink).astype(np.float32), there.astype(np.float32))


def cut(heights: Field, points: list[tuple[float, float]], width: float, depth: float) -> Field:
    """Draw one scratch with a pin: a furrow and a thin lip."""
    plate = Plate(heights.shape[0])
    lip = plate.stroke([(x + width * 1.2, y - width * 1.2) for x, y in points], width, "gauss")
    return heights - depth * plate.stroke(points, (width * 0.5, width, width, width * 0.4),
        "gauss") + depth * 0.3 * lip


def dented_rim(heights: Field, bearing: float, wide: float, deep: float) -> Damage:
    """Bruise the rim at a bearing (degrees clockwise from the top): metal pushed in and a dent behind it."""
    plate = Plate(heights.shape[0])
    x, y = plate.axes()
    r = plate.radius()
    angle = np.deg2rad(bearing)
    cos, sin = np.sin(angle), -np.cos(angle)
    inward = x * cos + y * sin
    aside = np.abs(-x * sin + y * cos)
    near = np.exp(-0.5 * (aside / wide) ** 2)
    limit = 1 - deep * near
    there = np.clip((limit - r) * heights.shape[0] / 2 + 0.5, 0, 1) if deep else np.ones_like(r)
    pushed = np.exp(-0.5 * ((inward - (1 - deep - 0.045)) / 0.022) ** 2) * near * 0.045
    hollow = -np.exp(-0.5 * ((inward - (1 - deep)) / 0.020) ** 2) * near * 0.055
    return Damage((heights + pushed + hollow).astype(np.float32), there.astype(np.float32))


def clipped(heights: Field, bearing: float, depth: float) -> Damage:
    """Cut a curved clip out of the rim, and let the rim fade on the other side."""
    plate = Plate(heights.shape[0])
    x, y = plate.axes()
    angle = np.deg2rad(bearing)
    cos, sin = np.sin(angle), -np.cos(angle)
    far = np.sqrt((x - cos * (2 - depth)) ** 2 + (y - sin * (2 - depth)) ** 2)
    there = np.clip((far - 1) * heights.shape[0] / 2 + 0.5, 0, 1)
    near_edge = np.clip((1.05 - far) / 0.05, 0, 1)
    r = plate.radius()
    opposite = np.clip((-(x * cos + y * sin) - 0.72) / 0.25, 0, 1) * np.clip((r - 0.85) / 0.05, 0, 1)
    soft = plate.blur(heights, 0.02) * 0.75
    out = heights * (1 - opposite * 0.85) + soft * opposite * 0.85 - 0.03 * near_edge**2
    return Damage(out.astype(np.float32), there.astype(np.float32))


def off_centre(heights: Field, shift: tuple[float, float]) -> Field:
    """Move the strike on its blank; what the die did not reach stays plain and bulges."""
    size = heights.shape[0]
    moved = ndimage.shift(heights, (shift[1] * size / 2, shift[0] * size / 2),
        order=1, mode="constant", cval=0.0)
    plate = Plate(size)
    x, y = plate.axes()
    far = np.sqrt((x - shift[0]) ** 2 + (y - shift[1]) ** 2)
    outside = np.clip((far - 0.985) / 0.02, 0, 1)
    r = plate.radius()
    blank = 0.022 + 0.02 * np.clip((far - 1) / 0.3, 0, 1) - 0.05 * np.clip((r - 0.95) / 0.05, 0, 1) ** 2
    return (moved * (1 - outside) + blank * outside).astype(np.float32)


def pitted(heights: Field, random: np.random.Generator, depth: float, share: float) -> Field:
    """Eat the surface with corrosion in patches."""
    size = heights.shape[0]
    fine = ndimage.gaussian_filter(random.standard_normal((size, size)).astype(np.float32), size / 260)
    fine /= fine.std()
    broad = ndimage.zoom(random.standard_normal((9, 9)), size / 9, order=3)[:size, :size]
    where = np.clip((broad / broad.std() - np.quantile(broad / broad.std(), 1 - share)) * 1.6, 0, 1)
    return (heights - depth * np.clip(fine - 0.35, 0, 2.2) * where).astype(np.float32)
