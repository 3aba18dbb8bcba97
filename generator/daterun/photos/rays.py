"""Rays from the centre of a circle, and the places along each where the picture changes sharply.

Which of the changes are the rim of a coin is left to ``rim`` and ``outline``.
"""

import itertools
import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from PIL import Image, ImageChops, ImageFilter

from daterun.photos.circle import Circle

RAYS = 96
_COLUMNS = 96  # at most, along each ray
_FAINTEST = 3.0  # levels; a smaller change is no edge, in any light
_WEAKEST = 5.0  # levels; a smaller one does not count where edges are first looked for

_MIDDLES = tuple(2 * math.pi * (i + 0.5) / RAYS for i in range(RAYS))
DIRECTIONS = tuple((math.cos(angle), math.sin(angle)) for angle in _MIDDLES)
"""The cosine and sine of each ray."""

_BORDERS = tuple(
    (math.cos(2 * math.pi * i / RAYS), math.sin(2 * math.pi * i / RAYS)) for i in range(RAYS + 1)
)


class Change(NamedTuple):
    """A sharp change on a ray: its place, its distance as a share of the radius, its strength in levels."""

    x: float
    y: float
    share: float
    strength: float


@dataclass(frozen=True, slots=True)
class Edges:
    """The sharp changes along every ray from the centre of a circle, outermost first.

    The strong ones count from ``least`` levels on; the others are there for who looks for a faint line. The
    reach is how far each ray stays within the frame, as a share of the radius.
    """

    circle: Circle
    along: tuple[tuple[Change, ...], ...]
    least: float
    reach: tuple[float, ...]

    def strong(self) -> list[list[Change]]:
        """Give the strong changes on every ray, outermost first."""
        return [[change for change in along if change.strength >= self.least] for along in self.along]


def unwrap(picture: Image.Image, circle: Circle, inner: float, outer: float, columns: int) -> Image.Image:
    """Lay the rays from the centre of a circle under each other as rows, from inner to outer radius.

    Inner and outer are shares of the radius. What lies outside the frame is black.
    """
    x, y, near, far = circle.x, circle.y, circle.radius * inner, circle.radius * outer
    # Two rows a ray, later averaged. Within the strip of one ray the two lie on a chord, which is off the
    # circle by a ten-thousandth of the radius at most.
    strips = [
        (
            (0, 2 * i, columns, 2 * i + 2),
            (
                *(x + near * c0, y + near * s0),
                *(x + near * c1, y + near * s1),
                *(x + far * c1, y + far * s1),
                *(x + far * c0, y + far * s0),
            ),
        )
        for i, ((c0, s0), (c1, s1)) in enumerate(itertools.pairwise(_BORDERS))
    ]
    rows = picture.transform((columns, 2 * RAYS), Image.Transform.MESH, strips, Image.Resampling.BILINEAR)
    return rows.reduce((1, 2))


def reach_of_rays(circle: Circle, size: tuple[int, int]) -> tuple[float, ...]:
    """Tell how far each ray stays within a frame, as a share of the radius."""
    width, height = size
    reach = []
    for c, s in DIRECTIONS:
        across = ((width - circle.x) if c > 0 else -circle.x) / c
        down = ((height - circle.y) if s > 0 else -circle.y) / s
        reach.append(min(across, down) / circle.radius)
    return tuple(reach)


def find_edges(picture: Image.Image, circle: Circle, inner: float, outer: float, lag: int) -> Edges:
    """Find the sharp changes of brightness or colour along the rays from the centre of a circle.

    The lag is half the distance over which a change is measured, in columns of half a pixel or more: 1 for
    sharp photos, 2 for blurred ones.
    """
    # Half a pixel a column at the finest: finer ones would make every edge look soft.
    columns = max(20, min(_COLUMNS, int((outer - inner) * circle.radius / 0.5)))
    sharp = _sharpness(unwrap(picture, circle, inner, outer, columns), lag)
    step = (outer - inner) / columns
    reach = reach_of_rays(circle, picture.size)
    first = lag + 2  # the columns at either end were compared with those at the other
    ends = [min(columns - 1 - first, int((r - inner) / step) - 1 - first) for r in reach]
    insides = [
        sharp[i * columns + first : i * columns + end + 1] for i, end in enumerate(ends) if end > first
    ]
    outsides = [part[-columns // 6 :] for part in insides if len(part) > columns // 2]
    noise = 1.3 * _median_strongest(outsides)
    faintest = max(_FAINTEST, noise)
    along = []
    for i, ((c, s), end) in enumerate(zip(DIRECTIONS, ends, strict=True)):
        row = sharp[i * columns : (i + 1) * columns]
        found = []
        for k in range(end, first - 1, -1):
            here = row[k]
            if here >= faintest and here >= row[k - 1] and here > row[k + 1]:
                before, after = row[k - 1], row[k + 1]
                shift = 0.5 * (after - before) / max(1, 2 * here - before - after)
                share = inner + step * (k + 0.5 + shift)
                away = share * circle.radius
                found.append(Change(circle.x + away * c, circle.y + away * s, share, float(here)))
        along.append(tuple(found))
    least = max(_WEAKEST, 0.25 * _median_strongest(insides), noise)
    return Edges(circle, tuple(along), least, reach)


def _sharpness(rows: Image.Image, lag: int) -> bytes:
    """Measure how sharply each column differs from its neighbours, in levels of the colour that does most."""
    change = ImageChops.difference(ImageChops.offset(rows, lag, 0), ImageChops.offset(rows, -lag, 0))
    red, green, blue = change.split()
    change = ImageChops.lighter(ImageChops.lighter(red, green), blue)
    # A soft shadow changes as much as a rim does, but over a longer way: what changes all along is taken off.
    return ImageChops.subtract(change, change.filter(ImageFilter.BoxBlur((4 + lag, 0)))).tobytes()


def _median_strongest(parts: Sequence[bytes]) -> float:
    return statistics.median(max(part) for part in parts) if parts else 0.0
