"""The rim of a struck coin: the circle on which the sharp changes along the rays lie.

It starts from a circle that is roughly right; whether the outcome is to be trusted is left to ``disc``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from daterun.photos.circle import Circle, Point, circle_of_most, concentric_circles
from daterun.photos.rays import RAYS, Change, Edges

# Measured on computed photographs: a circle through foot and shoulder had a spread of 0.0026 and more, a true
# one of up to 0.0019.
_ASKEW = 0.0022

_Rays = Sequence[Sequence[Change]]


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


def outermost_circle(edges: Edges) -> Circle | None:
    """Find the circle through the outermost strong changes that most rays agree on; None where none is."""
    points: list[Change] = []
    for found in edges.strong:
        if found:
            enough = 0.5 * max(change.strength for change in found)
            points.append(next(change for change in found if change.strength >= enough))
    if len(points) < RAYS // 3:
        return None
    return circle_of_most(points, 0.025 * edges.circle.radius)


def find_rim(edges: Edges, tolerance: float, wanted: float) -> Rim | None:
    """Find the outermost circle, nearly about the same centre, on which enough rays have a sharp change.

    The tolerance is a share of the radius. Where no circle is wanted by enough rays, the best supported is
    given with the support that it has; None where there are no changes at all.
    """
    rays = [i for i, reach in enumerate(edges.reach) if reach > 1.0]
    strong = edges.strong
    candidates = [strong[i] for i in rays]
    changes = sorted(
        ((change.share, i) for i, along in enumerate(candidates) for change in along), reverse=True
    )
    if not changes:
        return None
    supports = _supports(changes, tolerance, len(rays))
    share = supports[_outermost_peak(supports, wanted, tolerance)][0]
    target = replace(edges.circle, radius=edges.circle.radius * share)
    # A bevelled rim changes twice, at its foot and at its shoulder, and where a highlight melts into the
    # ground only the shoulder is seen. So the circle is that on which most rays agree closely, not their mean.
    close = max(0.006 * target.radius, 0.4)
    points = outermost_within(candidates, target, 1 - 2 * tolerance, 1 + 2 * tolerance)
    fitted = circle_of_most(points, close / 2)
    if fitted is None:
        return None
    core = len(_close_to(candidates, fitted, close / fitted.radius))
    support = len(outermost_within(candidates, fitted, 1 - 2 * tolerance, 1 + tolerance))
    ratio = fitted.radius / edges.circle.radius
    beyond = max((s for away, s in supports if away > ratio * (1 + 2 * tolerance)), default=0.0)
    rim = Rim(fitted, support / len(rays), core / len(rays), beyond)
    return _with_its_foot(rim, candidates, edges, rays) or rim


def outermost_within(rays: _Rays, circle: Circle, inside: float, outside: float) -> list[Change]:
    """Take from each ray its outermost change between two shares of the radius of a circle, if it has one."""
    least, most = inside * circle.radius, outside * circle.radius
    x, y, hypot = circle.x, circle.y, math.hypot
    found = []
    for along in rays:
        for change in along:
            if least <= hypot(change[0] - x, change[1] - y) <= most:
                found.append(change)
                break
    return found


def _close_to(rays: _Rays, circle: Circle, tolerance: float) -> list[Change]:
    return outermost_within(rays, circle, 1 - tolerance, 1 + tolerance)


def _supports(changes: Sequence[tuple[float, int]], tolerance: float, rays: int) -> list[tuple[float, float]]:
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


def _with_its_foot(rim: Rim, strong: _Rays, edges: Edges, rays: Sequence[int]) -> Rim | None:
    """Find the foot of a rim of which the shoulder is seen all round, the foot only in part or faintly.

    On the side away from the light, the bevel of a rim is as dark as a dark ground. The circle through the
    foot on one side and the shoulder on the other is nearly as well supported as the true one, but
    lies askew; the shoulder tells where the centre is. None where this is not what is seen.
    """
    circle = rim.circle
    count = len(strong)
    close = [circle.distance(p) / circle.radius - 1 for p in _close_to(strong, circle, 0.008)]
    spread = math.sqrt(sum(away * away for away in close) / max(1, len(close)))
    outside = outermost_within(strong, circle, 1.005, 1.03)
    brightest = _brightest_circle(circle, strong)
    tries: list[tuple[Circle | None, _Rays, float, float]] = []
    if spread >= _ASKEW or len(outside) >= 0.16 * count:
        tries.append((brightest, strong, 1.010, 0.2))
    ratio = circle.radius / edges.circle.radius
    every = edges.faint(0.93 * ratio, 1.14 * ratio)
    faint = [every[i] for i in rays]
    tries += [(brightest, faint, 1.015, 0.42), (circle, faint, 1.015, 0.42)]
    for shoulder, looked, nearest, wanted in tries:
        foot = _find_foot(shoulder, strong, looked, nearest, wanted) if shoulder else None
        if foot is not None and foot.radius >= 1.004 * circle.radius:
            return replace(rim, circle=foot, core=max(rim.core, 0.8))
    return None


def _brightest_circle(rim: Circle, strong: _Rays) -> Circle | None:
    """Find the circle through the strongest change near the rim on every ray, most often its shoulder."""
    x, y, radius, hypot = rim.x, rim.y, rim.radius, math.hypot
    strongest: list[Change] = []
    for along in strong:
        best, most = None, -1.0
        for change in along:
            if change[3] > most and abs(hypot(change[0] - x, change[1] - y) / radius - 1) < 0.05:
                best, most = change, change[3]
        if best is not None:
            strongest.append(best)
    found = circle_of_most(strongest, max(0.008 * rim.radius, 0.4))
    return found if found and abs(found.radius / rim.radius - 1) <= 0.05 else None


def _find_foot(
    shoulder: Circle, strong: _Rays, looked: _Rays, nearest: float, wanted: float
) -> Circle | None:
    """Fit shoulder and foot about one centre; None unless the foot is seen by as many rays as wanted."""
    close = 0.008 * shoulder.radius
    least = wanted * len(strong)
    outer = outermost_within(looked, shoulder, nearest, 1.045)
    if len(outer) < least:
        return None
    foot_radius = _commonest([shoulder.distance(point) for point in outer], close)
    for _ in range(4):
        feet: list[Point] = [p for p in outer if abs(shoulder.distance(p) - foot_radius) < close]
        shoulders = outermost_within(strong, shoulder, 0.988, 1.012)
        if len(feet) < max(least, 0.6 * len(outer)) or len(shoulders) < 0.8 * len(strong):
            return None
        fitted = concentric_circles(shoulder, shoulders, feet)
        if fitted is None:
            return None
        shoulder, foot_radius = fitted
    return replace(shoulder, radius=foot_radius)


def _commonest(distances: Sequence[float], close: float) -> float:
    """Find the middle of the closest group of distances that holds the most."""
    ordered = sorted(distances)
    most, best = 0, ordered[0]
    behind = 0
    for i, distance in enumerate(ordered):
        while distance - ordered[behind] > 2 * close:
            behind += 1
        if i - behind >= most:
            most, best = i - behind, (distance + ordered[behind]) / 2
    return best
