"""The outline of a coin that is not quite round, as a hammered one is not: the circle that it keeps near."""

import math
import statistics
from dataclasses import dataclass

from daterun.photos.circle import Circle, least_squares_circle
from daterun.photos.rays import DIRECTIONS, RAYS, Edges
from daterun.photos.rim import outermost_within


@dataclass(frozen=True, slots=True)
class Outline:
    """A circle near which the outermost changes lie, and what speaks for it.

    Agreement is the share of the rays with a change within the tolerance, strength the median of the
    strongest such changes, in levels. Lopsided says how far the rays without one lie on one side, from 0 for
    evenly spread to 1.
    """

    circle: Circle
    agreement: float
    strength: float
    lopsided: float


def settle_on_outline(edges: Edges, tolerance: float) -> Outline | None:
    """Fit the mean circle of the outermost strong changes near a given one.

    The tolerance is a share of the radius. None where there are too few changes.
    """
    circle = edges.circle
    rays = edges.strong
    for wider in (1.7, 1.3, 1.0, 1.0):
        points = outermost_within(rays, circle, 1 - wider * tolerance, 1 + wider * tolerance)
        fitted = least_squares_circle(points)
        if fitted is None:
            return None
        circle = fitted
    strongest: list[float] = []
    missing_x = missing_y = 0.0
    for along, (c, s) in zip(rays, DIRECTIONS, strict=True):
        near = [e.strength for e in along if abs(circle.distance(e) / circle.radius - 1) <= tolerance]
        if near:
            strongest.append(max(near))
        else:
            missing_x += c
            missing_y += s
    missing = RAYS - len(strongest)
    return Outline(
        circle,
        len(strongest) / RAYS,
        statistics.median(strongest) if strongest else 0.0,
        math.hypot(missing_x, missing_y) / missing if missing else 0.0,
    )
