"""The one large thing that stands out from a background, and the circle that its outline comes nearest to.

It gives a first guess, good to a few hundredths of the diameter; ``rim`` makes it exact.
"""

import re
from collections.abc import Sequence

from PIL import Image, ImageFilter

from daterun.photos.circle import Circle, Point, least_squares_circle

_RUN = re.compile(rb"\xff+")


def usual_threshold(difference: Image.Image) -> int:
    """Find the level that best divides the levels of a picture into two groups (Otsu's criterion)."""
    histogram = difference.histogram()
    total = sum(histogram)
    mass = sum(level * count for level, count in enumerate(histogram))
    below = below_mass = 0
    best, best_level = -1.0, 0
    for level, count in enumerate(histogram):
        below += count
        below_mass += level * count
        above = total - below
        if below and above:
            apart = below_mass / below - (mass - below_mass) / above
            if (between := below * above * apart * apart) > best:
                best, best_level = between, level
    return best_level


def find_silhouette(difference: Image.Image, threshold: int) -> tuple[Point, ...]:
    """Find the outline of the largest connected thing above the threshold; () where there is none.

    Gaps of two pixels are closed. Large means broad both ways: a strip along the frame is not.
    """
    mask = difference.point([255 if level > threshold else 0 for level in range(256)])
    mask = mask.filter(ImageFilter.MaxFilter(3)).filter(ImageFilter.MinFilter(3))
    width, height = mask.size
    data = mask.tobytes()
    runs: list[tuple[int, int, int]] = []  # row, first column, column after the last
    parents: list[int] = []

    def root(i: int) -> int:
        while parents[i] != i:
            parents[i] = parents[parents[i]]
            i = parents[i]
        return i

    above: range = range(0)
    for row in range(height):
        start = len(runs)
        for match in _RUN.finditer(data[row * width : (row + 1) * width]):
            first, last = match.span()
            own = len(runs)
            runs.append((row, first, last))
            parents.append(own)
            for i in above:
                if runs[i][1] <= last and first <= runs[i][2]:
                    parents[root(i)] = root(own)
        above = range(start, len(runs))
    things: dict[int, list[tuple[int, int, int]]] = {}
    for i, run in enumerate(runs):
        things.setdefault(root(i), []).append(run)
    if not things:
        return ()
    return _outline(max(things.values(), key=_breadth))


def _breadth(thing: Sequence[tuple[int, int, int]]) -> int:
    rows = thing[-1][0] - thing[0][0] + 1
    columns = max(run[2] for run in thing) - min(run[1] for run in thing)
    return min(rows, columns)


def _outline(thing: Sequence[tuple[int, int, int]]) -> tuple[Point, ...]:
    """Give the ends of every row and of every column that the thing covers."""
    rows: dict[int, tuple[int, int]] = {}
    tops: dict[int, int] = {}
    bottoms: dict[int, int] = {}
    for row, first, last in thing:
        left, right = rows.get(row, (first, last))
        rows[row] = (min(left, first), max(right, last))
    for row, (left, right) in rows.items():
        for column in range(left, right):
            tops.setdefault(column, row)
            bottoms[column] = row + 1
    points: list[Point] = []
    for row, (left, right) in rows.items():
        points += [(left, row + 0.5), (right, row + 0.5)]
    points += [(column + 0.5, top) for column, top in tops.items()]
    points += [(column + 0.5, bottom) for column, bottom in bottoms.items()]
    return tuple(points)


def fit_circle(points: Sequence[Point]) -> Circle | None:
    """Fit a circle to points by least squares, leaving out those that lie far from it (three rounds).

    None where the points do not lie round anything.
    """
    kept = points
    circle = None
    for _ in range(4):
        circle = least_squares_circle(kept)
        if circle is None:
            return None
        away = [abs(circle.distance(point) - circle.radius) for point in points]
        limit = max(0.02 * circle.radius, 2 * sorted(away)[len(away) // 2])
        kept = [point for point, distance in zip(points, away, strict=True) if distance <= limit]
    return circle
