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


@dataclass(frozen=True, slots=True)
class Fan:
    """The rays laid out in strips of several at once, each strip between two borders.

    Calling Pillow for a strip takes four times its work. But the rays of a strip end on a chord, and so
    are shortened: a ray reaches so far, as a share of the radius. Of a strip of one that is left out, for it is a
    ten-thousandth. A wider strip blurs a rim by a third of a pixel, which does for all but measuring it.
    """

    borders: tuple[tuple[float, float], ...]
    rays: tuple[tuple[float, float, float], ...]

    @classmethod
    def of(cls, wide: int) -> "Fan":
        """Lay so many rays in each strip. A ray is its cosine, its sine, and how far it reaches."""
        turns = [2 * math.pi * i / RAYS for i in range(0, RAYS + 1, wide)]
        borders = tuple((math.cos(each), math.sin(each)) for each in turns)
        if wide == 1:
            return cls(borders, tuple((c, s, 1.0) for c, s in DIRECTIONS))
        rays = []
        for (c0, s0), (c1, s1) in itertools.pairwise(borders):
            for part in ((k + 0.5) / wide for k in range(wide)):
                c, s = c0 + (c1 - c0) * part, s0 + (s1 - s0) * part
                rays.append((c / math.hypot(c, s), s / math.hypot(c, s), math.hypot(c, s)))
        return cls(borders, tuple(rays))


FINE, COARSE = Fan.of(1), Fan.of(3)

_PEAK = 255
_WHERE_ANY = b"\0" + bytes([_PEAK]) * 255
_WHERE_NONE = bytes([_PEAK]) + bytes(255)


class Change(NamedTuple):
    """A sharp change on a ray: its place, its distance as a share of the radius, its strength in levels."""

    x: float
    y: float
    share: float
    strength: float


@dataclass(frozen=True, slots=True)
class Rays:
    """How sharply a picture changes along every ray from the centre of a circle, in levels, as rows of columns.

    The columns run from the inner share of the radius in equal steps; on each row those from first to its end
    were measured. The faintest is the least change that is an edge in this light.
    """

    circle: Circle
    fan: Fan
    sharp: Image.Image
    inner: float
    step: float
    first: int
    ends: tuple[int, ...]
    faintest: float

    def changes(
        self, least: float, nearest: float = 0.0, farthest: float = math.inf
    ) -> tuple[tuple[Change, ...], ...]:
        """Find the sharp changes of so many levels at least on every ray, outermost first.

        Only those are wanted that lie between the nearest and the farthest share of the radius, or little beyond.
        """
        columns = self.sharp.width
        levels, peaks = self.sharp.tobytes(), _peaks(self.sharp, least)
        x, y, radius = self.circle.x, self.circle.y, self.circle.radius
        inner, step, find, new = self.inner, self.step, peaks.rfind, tuple.__new__
        begin = max(self.first, int((nearest - inner) / step) - 1)
        until = int(min(columns, (farthest - inner) / step + 2))
        along = []
        row = 0
        for end, (c, s, short) in zip(self.ends, self.fan.rays, strict=True):
            found = []
            nearest_at = row + begin
            at = find(_PEAK, nearest_at, row + (end + 1 if end < until else until))
            while at >= 0:
                here, before, after = levels[at], levels[at - 1], levels[at + 1]
                # A peak is no less sharp than the one before and sharper than the one after.
                shift = 0.5 * (after - before) / (2 * here - before - after)
                share = (inner + step * (at - row + 0.5 + shift)) * short
                away = share * radius
                found.append(new(Change, (x + away * c, y + away * s, share, float(here))))
                at = find(_PEAK, nearest_at, at)
            along.append(tuple(found))
            row += columns
        return tuple(along)


@dataclass(frozen=True, slots=True)
class Edges:
    """The sharp changes that count along every ray from the centre of a circle, outermost first.

    The reach is how far each ray stays within the frame, as a share of the radius.
    """

    circle: Circle
    strong: tuple[tuple[Change, ...], ...]
    reach: tuple[float, ...]
    rays: Rays

    def faint(self, nearest: float, farthest: float) -> tuple[tuple[Change, ...], ...]:
        """Find those that do not count as well, between two shares of the radius: a faint line may do."""
        return self.rays.changes(self.rays.faintest, nearest, farthest)


def unwrap(
    picture: Image.Image, circle: Circle, inner: float, outer: float, columns: int, fan: Fan
) -> Image.Image:
    """Lay the rays from the centre of a circle under each other as rows, from inner to outer radius.

    Inner and outer are shares of the radius, each ray being shortened a little. What lies outside the frame is
    black.
    """
    x, y, near, far = circle.x, circle.y, circle.radius * inner, circle.radius * outer
    # Two rows a ray, later averaged.
    high = 2 * RAYS // (len(fan.borders) - 1)
    strips = [
        (
            (0, high * i, columns, high * (i + 1)),
            (
                *(x + near * c0, y + near * s0),
                *(x + near * c1, y + near * s1),
                *(x + far * c1, y + far * s1),
                *(x + far * c0, y + far * s0),
            ),
        )
        for i, ((c0, s0), (c1, s1)) in enumerate(itertools.pairwise(fan.borders))
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


def lay_out(picture: Image.Image, circle: Circle, inner: float, outer: float, fan: Fan = FINE) -> Image.Image:
    """Lay the rays out as finely as edges are looked for along them."""
    # Half a pixel a column at the finest: finer ones would make every edge look soft.
    columns = max(20, min(_COLUMNS, int((outer - inner) * circle.radius / 0.5)))
    return unwrap(picture, circle, inner, outer, columns, fan)


def find_edges(
    picture: Image.Image,
    circle: Circle,
    inner: float,
    outer: float,
    lag: int,
    fan: Fan = FINE,
    rows: Image.Image | None = None,
) -> Edges:
    """Find the sharp changes of brightness or colour along the rays from the centre of a circle.

    The lag is half the distance over which a change is measured, in columns of half a pixel or more: 1 for
    sharp photos, 2 for blurred ones. Rays that are laid out already may be given as rows.
    """
    rows = rows if rows is not None else lay_out(picture, circle, inner, outer, fan)
    columns, sharp = rows.width, _sharpness(rows, lag)
    levels = sharp.tobytes()
    step = (outer - inner) / columns
    reach = reach_of_rays(circle, picture.size)
    first = lag + 2  # the columns at either end were compared with those at the other
    ends = [
        min(columns - 1 - first, int((r / short - inner) / step) - 1 - first)
        for r, (_, _, short) in zip(reach, fan.rays, strict=True)
    ]
    insides = [
        levels[i * columns + first : i * columns + end + 1] for i, end in enumerate(ends) if end > first
    ]
    outsides = [part[-columns // 6 :] for part in insides if len(part) > columns // 2]
    noise = 1.3 * _median_strongest(outsides)
    least = max(_WEAKEST, 0.25 * _median_strongest(insides), noise)
    rays = Rays(circle, fan, sharp, inner, step, first, tuple(ends), max(_FAINTEST, noise))
    return Edges(circle, rays.changes(max(least, rays.faintest)), reach, rays)


def _peaks(sharp: Image.Image, faintest: float) -> bytes:
    """Mark the places no less sharp than the one before, sharper than the one after, and not too faint."""
    # As numbers of many bytes, for Pillow's own point() rounds its table anew each time: 0.05 ms in place of 0.1.
    enough = min(math.ceil(faintest), 256)
    loud = sharp.tobytes().translate(bytes(enough) + bytes([_PEAK]) * (256 - enough))
    rises = ImageChops.subtract(ImageChops.offset(sharp, 1, 0), sharp).tobytes().translate(_WHERE_NONE)
    falls = ImageChops.subtract(sharp, ImageChops.offset(sharp, -1, 0)).tobytes().translate(_WHERE_ANY)
    both = int.from_bytes(loud) & int.from_bytes(rises) & int.from_bytes(falls)
    return both.to_bytes(len(loud))


def _sharpness(rows: Image.Image, lag: int) -> Image.Image:
    """Measure how sharply each column differs from its neighbours, in levels of the colour that does most."""
    change = ImageChops.difference(ImageChops.offset(rows, lag, 0), ImageChops.offset(rows, -lag, 0))
    red, green, blue = change.split()
    change = ImageChops.lighter(ImageChops.lighter(red, green), blue)
    # A soft shadow changes as much as a rim does, but over a longer way: what changes all along is taken off.
    return ImageChops.subtract(change, change.filter(ImageFilter.BoxBlur((4 + lag, 0))))


def _median_strongest(parts: Sequence[bytes]) -> float:
    return statistics.median(max(part) for part in parts) if parts else 0.0
