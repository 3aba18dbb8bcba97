"""The engraver's tools: curves through points, filled shapes, tapered strokes and swellings on one plate.

A plate is a square of heights over a coin of radius 1, x to the right and y downwards, (0, 0) in the middle.
What is engraved is the business of `portraits`, `devices` and `lettering`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from scipy import ndimage

Field = NDArray[np.float32]
Point = tuple[float, float]
OVERSAMPLING = 3  # masks are drawn this much larger, then averaged, for smooth edges


def curve(points: Sequence[Point], closed: bool = False, steps: int = 10) -> NDArray[np.float64]:
    """Lead a smooth curve through points (centripetal Catmull-Rom); a point given twice is a corner."""
    pts = [np.array(p, dtype=float) for p in points]
    if closed and np.allclose(pts[0], pts[-1]) and len(pts) > 2:
        pts.pop()
    runs: list[list[NDArray[np.float64]]] = [[]]
    for index, point in enumerate(pts):
        if index and np.allclose(point, pts[index - 1]):
            runs.append([point])
        else:
            runs[-1].append(point)
    if len(runs) == 1:
        return _through(runs[0], closed, steps)
    if closed:  # the first point of a closed outline with corners is taken as a corner too
        runs[-1].append(pts[0])
    return np.concatenate([_through(run, False, steps) for run in runs if len(run) > 1])


def _through(pts: list[NDArray[np.float64]], closed: bool, steps: int) -> NDArray[np.float64]:
    if len(pts) == 2:
        return np.linspace(pts[0], pts[1], steps)
    before, after = (pts[-1], pts[:2]) if closed else (2 * pts[0] - pts[1], [2 * pts[-1] - pts[-2]])
    pts = [before, *pts, *after]
    pieces = []
    for p0, p1, p2, p3 in zip(pts, pts[1:], pts[2:], pts[3:], strict=False):
        t1 = max(float(np.linalg.norm(p1 - p0)) ** 0.5, 1e-6)
        t2 = t1 + max(float(np.linalg.norm(p2 - p1)) ** 0.5, 1e-6)
        t3 = t2 + max(float(np.linalg.norm(p3 - p2)) ** 0.5, 1e-6)
        t = np.linspace(t1, t2, steps, endpoint=False)[:, None]
        a1 = (t1 - t) / t1 * p0 + t / t1 * p1
        a2 = (t2 - t) / (t2 - t1) * p1 + (t - t1) / (t2 - t1) * p2
        a3 = (t3 - t) / (t3 - t2) * p2 + (t - t2) / (t3 - t2) * p3
        b1 = (t2 - t) / t2 * a1 + t / t2 * a2
        b2 = (t3 - t) / (t3 - t1) * a2 + (t - t1) / (t3 - t1) * a3
        pieces.append((t2 - t) / (t2 - t1) * b1 + (t - t1) / (t2 - t1) * b2)
    if not closed:
        pieces.append(pts[-2][None, :])
    return np.concatenate(pieces)


def blend(first: Sequence[Point], last: Sequence[Point], share: float) -> list[Point]:
    """Lie between two guide lines of as many points."""
    return [
        (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
        for a, b in zip(first, last, strict=True)
    ]


def turned(points: Iterable[Point], degrees: float, scale: float = 1.0, to: Point = (0.0,
    0.0)) -> list[Point]:
    """Turn points clockwise about the origin, then scale and move them."""
    angle = np.deg2rad(degrees)
    cos, sin = np.cos(angle) * scale, np.sin(angle) * scale
    return [(float(x * cos - y * sin + to[0]), float(x * sin + y * cos + to[1])) for x, y in points]


@dataclass(frozen=True, slots=True)
class Plate:
    """Draws on a square of `size` pixels that spans the coin from rim to rim.

    What is drawn can be made smaller or larger and moved: `scale` and `shift` take its points to the coin's.
    """

    size: int
    scale: float = 1.0
    shift: Point = (0.0, 0.0)

    def blank(self) -> Field:
        return np.zeros((self.size, self.size), dtype=np.float32)

    def axes(self) -> tuple[Field, Field]:
        line = ((np.arange(self.size, dtype=np.float32) + 0.5) / self.size) * 2 - 1
        right = (line - np.float32(self.shift[0])) / np.float32(self.scale)
        down = (line - np.float32(self.shift[1])) / np.float32(self.scale)
        return np.broadcast_to(right[None, :], (self.size,) * 2), np.broadcast_to(down[:, None],
            (self.size,) * 2)

    def on_coin(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        return points * self.scale + np.array(self.shift)

    def radius(self) -> Field:
        x, y = self.axes()
        return np.sqrt(x * x + y * y)

    def blur(self, field: Field, sigma: float) -> Field:
        """Soften by a distance in coin radii."""
        return ndimage.gaussian_filter(field, sigma * self.scale * self.size / 2, mode="nearest",
            truncate=3.0)

    def fill(self, points: Sequence[Point], smooth: bool = True,
        holes: Sequence[Sequence[Point]] = ()) -> Field:
        """Fill a closed outline: 1 inside, 0 outside."""
        big = self.size * OVERSAMPLING
        image = Image.new("L", (big, big), 0)
        draw = ImageDraw.Draw(image)
        for outline, tone in [(points, 255), *((hole, 0) for hole in holes)]:
            line = curve(outline, closed=True) if smooth else np.array(outline, dtype=float)
            draw.polygon([tuple(p) for p in ((self.on_coin(line) + 1) / 2 * big).tolist()], fill=tone)
        return np.asarray(image.reduce(OVERSAMPLING), dtype=np.float32) / 255

    def swell(self, mask: Field, *reaches: float) -> Field:
        """Puff a mask up from its edge: 0 outside, nearly 1 where it is wider than every reach."""
        total = self.blank()
        for reach in reaches:
            rise = np.clip((self.blur(mask, reach) - 0.22) / 0.78, 0, 1)
            total += rise * rise * (3 - 2 * rise)
        return (total / len(reaches)) ** 0.7 * mask

    def stroke(
        self,
        points: Sequence[Point] | NDArray[np.float64],
        width: float | Sequence[float],
        shape: str = "round",
        smooth: bool = True,
    ) -> Field:
        """Draw a line whose half-width may change along it: "round", "gauss" or "flat" across, 0 to 1 high."""
        out = self.blank()
        self.stroke_into(out, points, width, shape, smooth)
        return out

    def stroke_into(
        self,
        out: Field,
        points: Sequence[Point] | NDArray[np.float64],
        width: float | Sequence[float],
        shape: str = "round",
        smooth: bool = True,
        height: float = 1.0,
    ) -> None:
        """Draw a stroke into a field, keeping whichever is higher."""
        line = curve(points) if smooth else np.asarray(points, dtype=float)  # type: ignore[arg-type]
        scale = self.size / 2 * self.scale
        line = (self.on_coin(line) + 1) * self.size / 2 - 0.5
        given = np.atleast_1d(np.asarray(width, dtype=float)) * scale
        along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
        along /= max(along[-1], 1e-9)
        widths = np.maximum(np.interp(along, np.linspace(0, 1, len(given)), given), 0.35)
        reach = 2.6 if shape == "gauss" else 1.0
        pad = widths.max() * reach + 2
        lo = np.maximum(np.floor(line.min(axis=0) - pad), 0).astype(int)
        hi = np.minimum(np.ceil(line.max(axis=0) + pad), self.size).astype(int)
        if (hi <= lo).any():
            return
        near = np.full((hi[1] - lo[1], hi[0] - lo[0]), 9.0, dtype=np.float32)
        for (x0, y0), (x1, y1), w0, w1 in zip(line, line[1:], widths, widths[1:], strict=False):
            edge = max(w0, w1) * reach + 1.5
            left, right = int(max(min(x0, x1) - edge, lo[0])), int(min(max(x0, x1) + edge + 1, hi[0]))
            top, bottom = int(max(min(y0, y1) - edge, lo[1])), int(min(max(y0, y1) + edge + 1, hi[1]))
            if right <= left or bottom <= top:
                continue
            px = np.arange(left, right, dtype=np.float32)[None, :] - x0
            py = np.arange(top, bottom, dtype=np.float32)[:, None] - y0
            dx, dy = x1 - x0, y1 - y0
            t = np.clip((px * dx + py * dy) / max(dx * dx + dy * dy, 1e-9), 0, 1)
            far = np.sqrt((px - t * dx) ** 2 + (py - t * dy) ** 2) / (w0 + (w1 - w0) * t)
            part = near[top - lo[1] : bottom - lo[1], left - lo[0] : right - lo[0]]
            np.minimum(part, far, out=part)
        if shape == "gauss":
            height_across = np.exp(-1.1 * near**2)
        elif shape == "flat":
            height_across = np.clip((1 - near) * 4, 0, 1)
        else:
            height_across = np.sqrt(np.clip(1 - near**2, 0, 1))
        window = out[lo[1] : hi[1], lo[0] : hi[0]]
        np.maximum(window, height_across * height, out=window)

    def bump(self, at: Point, wide: float, tall: float | None = None, degrees: float = 0.0) -> Field:
        """Raise a smooth hill, its widths in coin radii along its own axes."""
        x, y = self.axes()
        angle = np.deg2rad(degrees)
        dx, dy = x - np.float32(at[0]), y - np.float32(at[1])
        u = (dx * np.cos(angle) + dy * np.sin(angle)) / wide
        v = (dy * np.cos(angle) - dx * np.sin(angle)) / (tall or wide)
        return np.exp(-0.5 * (u * u + v * v)).astype(np.float32)

    def dome(self, at: Point, wide: float, tall: float | None = None, degrees: float = 0.0) -> Field:
        """Raise half an ellipsoid with a firm edge."""
        x, y = self.axes()
        angle = np.deg2rad(degrees)
        dx, dy = x - np.float32(at[0]), y - np.float32(at[1])
        u = (dx * np.cos(angle) + dy * np.sin(angle)) / wide
        v = (dy * np.cos(angle) - dx * np.sin(angle)) / (tall or wide)
        return np.sqrt(np.clip(1 - u * u - v * v, 0, 1)).astype(np.float32)

    def locks(
        self,
        guides: Sequence[Sequence[Point]],
        count: int,
        width: float | Sequence[float],
        sway: float = 0.0,
        seed: int = 0,
    ) -> Field:
        """Comb strands between guide lines of as many points each; 0 to 1 high, with furrows between."""
        random = np.random.default_rng(seed)
        out = self.blank()
        for index in range(count):
            share = (index + 0.5) / count * (len(guides) - 1)
            first = min(int(share), len(guides) - 2)
            line = blend(guides[first], guides[first + 1], share - first)
            nudge = random.normal(0, sway, (len(line), 2)) if sway else np.zeros((len(line), 2))
            nudge[0] *= 0.3
            high = 1.0 - 0.35 * random.random()
            self.stroke_into(out, [tuple(p) for p in (np.array(line) + nudge)], width, height=high)
        return out


def over(below: Field, part: Field, mask: Field) -> Field:
    """Lay one part over what is below it, with its own soft edge."""
    return below * (1 - mask) + part * mask
