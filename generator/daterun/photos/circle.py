"""Circles through points: by least squares, by the agreement of the most, and two about one centre."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

Point = Sequence[float]
"""Its first two numbers are x and y, in pixels; a point may carry more."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle in the pixels of whatever picture it was measured on."""

    x: float
    y: float
    radius: float

    def scaled(self, factor: float) -> "Circle":
        """Give the same circle in a picture ``factor`` times as large."""
        return Circle(self.x * factor, self.y * factor, self.radius * factor)

    def distance(self, point: Point) -> float:
        """Tell how far a point lies from the centre, in pixels."""
        return math.hypot(point[0] - self.x, point[1] - self.y)


def least_squares_circle(points: Sequence[Point]) -> Circle | None:
    """Fit a circle to all of the points, in closed form (Kåsa's method).

    None for fewer than three points, or where they lie on a line.
    """
    count = len(points)
    if count < 3:
        return None
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    mean_x, mean_y = sum(xs) / count, sum(ys) / count
    us, vs = [x - mean_x for x in xs], [y - mean_y for y in ys]
    zs = [u * u + v * v for u, v in zip(us, vs, strict=True)]
    xx, xy, yy = sum(map(mul, us, us)), sum(map(mul, us, vs)), sum(map(mul, vs, vs))
    xz, yz, z_sum = sum(map(mul, us, zs)), sum(map(mul, vs, zs)), sum(zs)
    determinant = 2 * (xx * yy - xy * xy)
    if determinant <= 1e-9 * z_sum * z_sum:
        return None
    u0 = (xz * yy - yz * xy) / determinant
    v0 = (yz * xx - xz * xy) / determinant
    return Circle(mean_x + u0, mean_y + v0, math.sqrt(z_sum / count + u0 * u0 + v0 * v0))


_THIRDS = ((1 / 3, 2 / 3), (1 / 4, 1 / 2), (1 / 5, 3 / 5))
"""How far round the second and the third point of a circle lie from the first."""


def circle_of_most(points: Sequence[Point], close: float) -> Circle | None:
    """Find the circle to which most of the points are close, in pixels; None where there is none.

    The points are in order round the centre. Circles through three of them each are tried, always the same
    ones, and the best is fitted to the points close to it.
    """
    count = len(points)
    if count < 12:
        return None
    tested = [(p[0], p[1]) for p in points[:: max(1, count // 32)]]
    countdown = range(len(tested) - 1, -1, -1)
    hypot = math.hypot
    best: Circle | None = None
    most = 0.0
    for k in range(42):
        second, third = _THIRDS[k % 3]
        i = k * count // 42
        found = _through(
            points[i], points[int(i + second * count) % count], points[int(i + third * count) % count]
        )
        if found is None:
            continue
        x, y, radius = found
        inside, outside = max(radius - close, 0.0), radius + close
        nearest, farthest = inside * inside, outside * outside
        agreement = 0.0
        for left, (px, py) in zip(countdown, tested, strict=True):
            u, v = px - x, py - y
            if nearest < u * u + v * v < farthest:
                away = (hypot(u, v) - radius) / close
                agreement += 1 - away * away
            elif agreement + left <= most:
                break
        if agreement > most:
            best, most = Circle(x, y, radius), agreement
            if most > 0.95 * len(tested):
                break
    before: list[Point] = []
    for _ in range(3):
        if best is None:
            return None
        x, y, radius = best.x, best.y, best.radius
        near = [p for p in points if abs(hypot(p[0] - x, p[1] - y) - radius) <= close]
        if near == before:
            break
        best, before = least_squares_circle(near), near
    return best


def concentric_circles(
    near: Circle, inner: Sequence[Point], outer: Sequence[Point]
) -> tuple[Circle, float] | None:
    """Fit two circles about one centre: the inner one and the radius of the outer.

    The centre is looked for near that of a given circle, by a single step, which is exact enough within a
    few hundredths of the radius. None where the points do not tell.
    """
    cc = cs = ss = ca = sa = 0.0
    means: list[tuple[float, float, float]] = []
    for points in (inner, outer):
        if not points:
            return None
        seen = [(*((p[0] - near.x), (p[1] - near.y)), near.distance(p) or 1.0) for p in points]
        rows = [(x / away, y / away, away) for x, y, away in seen]
        count = len(rows)
        mean_c = sum(row[0] for row in rows) / count
        mean_s = sum(row[1] for row in rows) / count
        mean_a = sum(row[2] for row in rows) / count
        means.append((mean_c, mean_s, mean_a))
        for c, s, a in rows:
            cc += (c - mean_c) ** 2
            cs += (c - mean_c) * (s - mean_s)
            ss += (s - mean_s) ** 2
            ca += (c - mean_c) * (a - mean_a)
            sa += (s - mean_s) * (a - mean_a)
    determinant = cc * ss - cs * cs
    if determinant <= 1e-9:
        return None
    dx, dy = (ca * ss - sa * cs) / determinant, (sa * cc - ca * cs) / determinant
    radii = [a - dx * c - dy * s for c, s, a in means]
    return Circle(near.x + dx, near.y + dy, radii[0]), radii[1]


def _through(a: Point, b: Point, c: Point) -> tuple[float, float, float] | None:
    """Give centre and radius of the circle through three points; None where they lie on a line."""
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    cross = 2 * (bx * cy - by * cx)
    if abs(cross) < 1e-9:
        return None
    bb, cc = bx * bx + by * by, cx * cx + cy * cy
    x, y = (cy * bb - by * cc) / cross, (bx * cc - cx * bb) / cross
    return a[0] + x, a[1] + y, math.hypot(x, y)
