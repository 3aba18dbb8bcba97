"""What lies round a circle that was taken for a coin: a reason not to believe it, or nothing.

A holder, a frame and the window in a card are as round or as sharp as a coin; only what is about them tells.
"""

import statistics

from daterun.photos.background import Background
from daterun.photos.circle import Circle, circle_of_most
from daterun.photos.closeup import Lens
from daterun.photos.rays import COARSE, RAYS, Edges, find_edges, reach_of_rays, unwrap

HELD = "something lies round the coin, as a holder does"
CUT = "the coin reaches the edge of the photo"
SMALL = "the coin is too small in the photo"

SMALLEST = 0.25
"""Share of the short side that the diameter of a coin takes up at least."""

_LARGEST = 0.975  # likewise at most: past that too little lies round the coin to tell where it ends
_COLUMNS = 50  # from the centre to twice the radius
_MOST = 0.7  # share of the rays on which something may be seen outside the coin


def why_not_there(lens: Lens, background: Background, circle: Circle) -> str:
    """Say why a circle cannot be the whole of a coin that lies free on its background; "" where it can."""
    width, height = lens.image.size
    room = min(circle.x, circle.y, width - circle.x, height - circle.y)
    if room < circle.radius or 2 * circle.radius > _LARGEST * min(width, height):
        return CUT
    if 2 * circle.radius < SMALLEST * min(width, height):
        return SMALL
    if _is_surrounded(width, background, circle) or _is_framed(lens, circle):
        return HELD
    return ""


def _is_surrounded(width: int, background: Background, circle: Circle) -> bool:
    """Tell whether what lies next to the circle differs from the background nearly all round.

    A shadow differs on one side only.
    """
    scale = background.difference.width / width
    seen = circle.scaled(scale)
    rows = unwrap(background.difference, seen, 0.0, 2.0, _COLUMNS, COARSE).tobytes()
    inside = b"".join(rows[i + 12 : i + 23] for i in range(0, RAYS * _COLUMNS, _COLUMNS))
    least = max(8.0, 4 * background.noise, 0.3 * statistics.median(inside))
    looked = different = 0
    for i, reach in enumerate(reach_of_rays(seen, background.difference.size)):
        last = min(31, int(reach / 2 * _COLUMNS) - 1)  # up to a quarter of the radius away
        if last >= 28:
            looked += 1
            different += min(rows[i * _COLUMNS + 27 : i * _COLUMNS + last + 1]) > least
    return looked >= RAYS // 4 and different > _MOST * looked


def _is_framed(lens: Lens, circle: Circle) -> bool:
    """Tell whether sharp lines lie all round the circle, or a second circle free within it."""
    closer = lens.look(circle)
    if closer is None:
        return False
    seen = closer.seen(circle)
    edges = find_edges(closer.picture, seen, 0.5, 2.0, 1, COARSE)
    if _has_ring_within(edges, seen):
        return True
    rays = edges.strong
    rim = [max((e.strength for e in along if 0.95 < e.share < 1.05), default=0.0) for along in rays]
    least = 0.4 * statistics.median(rim)
    looked = crossed = 0
    for along, reach in zip(rays, edges.reach, strict=True):
        if reach > 1.2:
            looked += 1
            crossed += any(e.share > 1.06 and e.strength >= least for e in along)
    return looked >= RAYS // 4 and crossed > _MOST * looked


def _has_ring_within(edges: Edges, rim: Circle) -> bool:
    """Tell whether a second circle lies well within the rim, with nothing at all between on most rays.

    A coin in the window of a holder makes one, the window being the rim. The broadest rims of coins are
    narrower.
    """
    firsts = (next((e for e in along if e.share < 0.96), None) for along in edges.strong)
    found = [change for change in firsts if change is not None]
    circle = circle_of_most(found, 0.012 * rim.radius)
    if circle is None or not 0.5 * rim.radius < circle.radius < 0.88 * rim.radius:
        return False
    agreeing = sum(abs(circle.distance(p) - circle.radius) < 0.02 * rim.radius for p in found)
    return agreeing >= 0.75 * RAYS
