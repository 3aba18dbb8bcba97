"""The rim of a coin: where the picture changes sharply along rays from a centre, and the circle on which it does.

It starts from a circle that is roughly right; whether the outcome is to be trusted is left to ``disc``.
"""

import math
import statistics
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PIL import Image, ImageChops, ImageFilter

from daterun.photos.silhouette import Circle, Point, least_squares_circle

RAYS = 96
_COLUMNS = 96  # at most, along each ray
_FAINTEST = 5.0  # a change of fewer levels than this is no edge, in any light

_ANGLES = tuple(2 * math.pi * (i + 0.5) / RAYS for i in range(RAYS))
_DIRECTIONS = tuple((math.cos(a), math.sin(a)) for a in _ANGLES)
_BORDERS = tuple(
    (math.cos(math.pi * j / RAYS), math.sin(math.pi * j / RAYS)) for j in range(2 * RAYS + 1)
)  # two rows are read for each ray, side by side, and averaged


@dataclass(frozen=True, slots=True)
class Edges:
    """The sharp changes along every ray from the centre of a circle.

    Each is a distance from the centre as a share of the radius, and a strength in levels, outermost first.
    The reach is how far each ray stays within the frame, as a share of the radius.
    """

    circle: Circle
    along: tuple[tuple[tuple[float, float], ...], ...]
    reach: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Rim:
    """A circle and what speaks for it, as shares of the rays, 0 to 1.

    Support is the share of the rays whose outermost change lies on it or just inside, core that of the rays
    with a change very close to it. Beyond is the largest share that any larger circle about the same centre
    has: where it is not small, it is not certain that this circle is the outermost.
    """

    circle: Circle
    support: float
    core: float
    beyond: float


def unwrap(picture: Image.Image, circle: Circle, inner: float, outer: float, columns: int) -> Image.Image:
    """Lay the rays from the centre of a circle under each other as rows, from inner to outer radius.

    Inner and outer are shares of the radius. What lies outside the frame is black.
    """
    x, y, near, far = circle.x, circle.y, circle.radius * inner, circle.radius * outer
    strips = [
        (
            (0, j, columns, j + 1),
            (
                *(x + near * c0, y + near * s0),
                *(x + near * c1, y + near * s1),
                *(x + far * c1, y + far * s1),
                *(x + far * c0, y + far * s0),
            ),
        )
        for j, ((c0, s0), (c1, s1)) in enumerate(zip(_BORDERS, _BORDERS[1:], strict=False))
    ]
    rows = picture.transform(
        (columns, 2 * RAYS), Image.Transform.MESH, strips, Image.Resampling.BILINEAR
    )
    return rows.reduce((1, 2))


def reach_of_rays(circle: Circle, size: tuple[int, int]) -> tuple[float, ...]:
    """Tell how far each ray stays within a frame, as a share of the radius."""
    width, height = size
    reach = []
    for c, s in _DIRECTIONS:
        across = ((width - circle.x) if c > 0 else -circle.x) / c
        down = ((height - circle.y) if s > 0 else -circle.y) / s
        reach.append(min(across, down) / circle.radius)
    return tuple(reach)


def find_edges(picture: Image.Image, circle: Circle, inner: float, outer: float, lag: int) -> Edges:
    """Find the sharp changes of brightness or colour along the rays from the centre of a circle.

    The lag is half the distance over which a change is measured, in columns of half a pixel or more: 1 for
    sharp photos, 2 for blurred ones.
    """
    # Half a pixel a column: finer ones would make every edge look soft.
    columns = max(20, min(_COLUMNS, int((outer - inner) * circle.radius / 0.5)))
    rows = unwrap(picture, circle, inner, outer, columns)
    change = ImageChops.difference(ImageChops.offset(rows, lag, 0), ImageChops.offset(rows, -lag, 0))
    red, green, blue = change.split()
    change = ImageChops.lighter(ImageChops.lighter(red, green), blue)
    # A soft shadow changes as much as a rim does, but over a longer way: what changes all along is taken off.
    sharp = ImageChops.subtract(change, change.filter(ImageFilter.BoxBlur((4 + lag, 0)))).tobytes()
    step = (outer - inner) / columns
    reach = reach_of_rays(circle, picture.size)
    first = lag + 2  # the columns at either end are compared with those at the other
    ends = [min(columns - 1 - first, int((r - inner) / step) - 1 - first) for r in reach]
    insides = [sharp[i * columns + first : i * columns + end + 1] for i, end in enumerate(ends) if end > first]
    outsides = [part[-columns // 6 :] for part in insides if len(part) > columns // 2]
    least = max(_FAINTEST, 0.25 * _median_strongest(insides), 1.3 * _median_strongest(outsides))
    along = []
    for i, end in enumerate(ends):
        row = sharp[i * columns : (i + 1) * columns]
        found = []
        for k in range(end, first - 1, -1):
            here = row[k]
            if here >= least and here >= row[k - 1] and here > row[k + 1]:
                before, after = row[k - 1], row[k + 1]
                shift = 0.5 * (after - before) / max(1, 2 * here - before - after)
                found.append((inner + step * (k + 0.5 + shift), float(here)))
        along.append(tuple(found))
    return Edges(circle, tuple(along), reach)


def _median_strongest(parts: Sequence[bytes]) -> float:
    return statistics.median(max(part) for part in parts) if parts else 0.0


def outermost_circle(edges: Edges) -> Circle | None:
    """Find the circle through the outermost strong changes that most rays agree on; None where none is."""
    points: list[Point] = []
    for (c, s), found in zip(_DIRECTIONS, edges.along, strict=True):
        if found:
            enough = 0.5 * max(strength for _, strength in found)
            share = next(share for share, strength in found if strength >= enough)
            points.append(_point(edges.circle, c, s, share))
    if len(points) < RAYS // 3:
        return None
    return _consensus(points, 0.025 * edges.circle.radius)


def find_rim(edges: Edges, tolerance: float, wanted: float) -> Rim | None:
    """Find the outermost circle, nearly about the same centre, on which enough rays have a sharp change.

    The tolerance is a share of the radius. Where no circle is wanted by enough rays, the best supported is
    given with the support that it has; None where there are no changes at all.
    """
    rays = [i for i, reach in enumerate(edges.reach) if reach > 1.0]
    changes = sorted(((share, i) for i in rays for share, _ in edges.along[i]), reverse=True)
    if not changes:
        return None
    supports = _supports(changes, tolerance, len(rays))
    chosen = _outermost_peak(supports, wanted, tolerance)
    circle = edges.circle
    share = supports[chosen][0]
    target = Circle(circle.x, circle.y, circle.radius * share)
    candidates = _candidates(edges, rays)
    # A bevelled rim changes twice, at its foot and at its shoulder, and where a highlight melts into the
    # ground only the shoulder is seen. So the circle is that on which most rays agree closely, not their mean.
    close = max(0.006 * target.radius, 0.4)
    fitted = _consensus(_points_on(target, candidates, 2 * tolerance, 2 * tolerance), close / 2)
    if fitted is None:
        return None
    core = sum(any(abs(_distance(fitted, p) - fitted.radius) <= close for p in along) for along in candidates)
    support = len(_points_on(fitted, candidates, 2 * tolerance, tolerance))
    ratio = fitted.radius / circle.radius
    beyond = max((s for away, s in supports if away > ratio * (1 + 2 * tolerance)), default=0.0)
    return Rim(fitted, support / len(rays), core / len(rays), beyond)


def settle_on_outline(edges: Edges, tolerance: float) -> tuple[Circle, float] | None:
    """Fit a circle to the outline of a coin that is not quite round, as a hammered one is not.

    The circle is the mean of the outermost changes near the given one. With it comes the share of the rays
    with a change within the tolerance of it, a share of the radius; None where there are too few.
    """
    target = edges.circle
    candidates = _candidates(edges, range(RAYS))
    for wider in (1.7, 1.3, 1.0, 1.0):
        fitted = least_squares_circle(_points_on(target, candidates, wider * tolerance, wider * tolerance))
        if fitted is None:
            return None
        target = fitted
    return target, len(_points_on(target, candidates, tolerance, tolerance)) / RAYS


def ring_within(edges: Edges, rim: Circle) -> Circle | None:
    """Find a second circle, well within the rim, with nothing at all between the two on most rays.

    A coin in the window of a holder makes one, the window being the rim; the broadest rims of coins are
    narrower. None where there is no such circle.
    """
    candidates = _candidates(edges, range(RAYS))
    points = [
        next((p for p in along if _distance(rim, p) < 0.96 * rim.radius), None) for along in candidates
    ]
    found = [point for point in points if point is not None]
    circle = _consensus(found, 0.012 * rim.radius)
    if circle is None or not 0.5 * rim.radius < circle.radius < 0.88 * rim.radius:
        return None
    agreeing = sum(abs(_distance(circle, p) - circle.radius) < 0.02 * rim.radius for p in found)
    return circle if agreeing >= 0.75 * RAYS else None


def _candidates(edges: Edges, rays: Iterable[int]) -> list[list[Point]]:
    return [[_point(edges.circle, *_DIRECTIONS[i], away) for away, _ in edges.along[i]] for i in rays]


def _consensus(points: Sequence[Point], close: float) -> Circle | None:
    """Find the circle to which most points are close, in pixels; None where there is none.

    Circles through three points each are tried, always the same ones, and the best is fitted to its points.
    """
    count = len(points)
    if count < 12:
        return None
    tested = points[:: max(1, count // 32)]
    best: Circle | None = None
    most = -1.0
    for k in range(42):
        second, third = ((1 / 3, 2 / 3), (1 / 4, 1 / 2), (1 / 5, 3 / 5))[k % 3]
        i = k * count // 42
        three = (points[i], points[int(i + second * count) % count], points[int(i + third * count) % count])
        circle = least_squares_circle(three)
        if circle is None:
            continue
        agreement = 0.0
        for point in tested:
            away = abs(_distance(circle, point) - circle.radius) / close
            if away < 1:
                agreement += 1 - away * away
        if agreement > most:
            best, most = circle, agreement
    for _ in range(3):
        if best is None:
            return None
        best = least_squares_circle([p for p in points if abs(_distance(best, p) - best.radius) <= close])
    return best


def _points_on(
    target: Circle, candidates: Sequence[Sequence[Point]], inward: float, outward: float
) -> list[Point]:
    """Take from each ray its outermost point within so large a share of the radius from a circle."""
    inside, outside = target.radius * (1 - inward), target.radius * (1 + outward)
    points = []
    for along in candidates:
        for point in along:
            if inside <= _distance(target, point) <= outside:
                points.append(point)
                break
    return points


def _supports(
    changes: Sequence[tuple[float, int]], tolerance: float, rays: int
) -> list[tuple[float, float]]:
    """Tell for circles of falling size what share of the rays has a change within the tolerance."""
    supports = []
    counts: dict[int, int] = {}
    behind = 0
    for share, ray in changes:
        counts[ray] = counts.get(ray, 0) + 1
        while changes[behind][0] > share + 2 * tolerance:
            gone = changes[behind][1]
            counts[gone] -= 1
            if not counts[gone]:
                del counts[gone]
            behind += 1
        supports.append(((share + changes[behind][0]) / 2, len(counts) / rays))
    return supports


def _outermost_peak(supports: Sequence[tuple[float, float]], wanted: float, tolerance: float) -> int:
    """Find the outermost circle with the support that is wanted, else the one with the most."""
    first = next((i for i, (_, support) in enumerate(supports) if support >= wanted), None)
    if first is None:
        return max(range(len(supports)), key=lambda i: supports[i][1])
    near = [i for i in range(first, len(supports)) if supports[i][0] > supports[first][0] - tolerance]
    return max(near, key=lambda i: supports[i][1])


def _point(circle: Circle, c: float, s: float, share: float) -> Point:
    return (circle.x + circle.radius * share * c, circle.y + circle.radius * share * s)


def _distance(circle: Circle, point: Point) -> float:
    return math.hypot(point[0] - circle.x, point[1] - circle.y)
