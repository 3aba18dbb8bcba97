"""The plain background that a coin was photographed on, and how far each pixel departs from it.

It is read from the rim of the frame, so it knows nothing of coins; what stands out is left to ``silhouette``.
"""

import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from PIL import Image, ImageChops

_RING = 24  # long side of the reduction whose outermost pixels are the samples
_GRID = 8  # the fitted background is drawn this coarse, then enlarged

Sample = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Background:
    """A background, and the difference of a picture from it.

    The difference is the largest over the three colours, 0 to 255. The noise is the usual departure of the
    background's own samples, in the same units. The share is that of the samples along the frame
    that belong to the background, 0 to 1.
    """

    difference: Image.Image
    noise: float
    share: float


def read_background(picture: Image.Image) -> Background:
    """Fit a slowly changing background to the rim of an RGB picture.

    Light that falls off to one side or to the corners is followed; what crosses the frame, such as a
    shadow or the coin itself, is left out of the fit.
    """
    width, height = picture.size
    longest = max(width, height)
    columns, rows = max(4, _RING * width // longest), max(4, _RING * height // longest)
    ring = picture.resize((columns, rows), Image.Resampling.BOX)
    places = [(x, y) for x in range(columns) for y in (0, rows - 1)]
    places += [(x, y) for y in range(1, rows - 1) for x in (0, columns - 1)]
    data = ring.tobytes()
    starts = [3 * (y * columns + x) for x, y in places]
    samples: list[Sample] = [(data[i], data[i + 1], data[i + 2]) for i in starts]
    terms = [_terms((2 * x + 1) / columns - 1, (2 * y + 1) / rows - 1) for x, y in places]

    middle = [statistics.median(each) for each in zip(*samples, strict=True)]
    weights: list[Sample] = [(value, 0.0, 0.0, 0.0) for value in middle]
    departures = _departures(weights, terms, samples)
    for _ in range(3):
        limit = max(4.0, 3 * statistics.median(departures))
        kept = [i for i, departure in enumerate(departures) if departure <= limit]
        weights = _solve([terms[i] for i in kept], [samples[i] for i in kept])
        departures = _departures(weights, terms, samples)
    noise = statistics.median(departures)
    limit = max(8.0, 4 * noise)
    share = sum(departure <= limit for departure in departures) / len(departures)

    difference = ImageChops.difference(picture, _draw(weights, picture.size))
    red, green, blue = difference.split()
    return Background(ImageChops.lighter(ImageChops.lighter(red, green), blue), noise, share)


def _terms(u: float, v: float) -> Sample:
    return (1.0, u, v, u * u + v * v)


_STEPS = [(2 * i + 1) / _GRID - 1 for i in range(-1, _GRID + 1)]
_CELLS = [_terms(u, v) for v in _STEPS for u in _STEPS]


def _departures(weights: Sequence[Sample], terms: Sequence[Sample], samples: Sequence[Sample]) -> list[float]:
    """Tell how far each sample lies from the background, in the colour in which it is farthest."""
    (r0, r1, r2, r3), (g0, g1, g2, g3), (b0, b1, b2, b3) = weights
    return [
        max(
            abs(red - r0 - r1 * u - r2 * v - r3 * w),
            abs(green - g0 - g1 * u - g2 * v - g3 * w),
            abs(blue - b0 - b1 * u - b2 * v - b3 * w),
        )
        for (_, u, v, w), (red, green, blue) in zip(terms, samples, strict=True)
    ]


def _solve(terms: Sequence[Sample], samples: Sequence[Sample]) -> list[Sample]:
    """Solve the least squares of three colours at once, by elimination on the normal equations."""
    columns = list(zip(*terms, strict=True))
    colours = list(zip(*samples, strict=True))
    matrix = [
        [sum(map(mul, a, b)) + (1e-6 if a is b else 0.0) for b in columns]
        + [sum(map(mul, a, colour)) for colour in colours]
        for a in columns
    ]
    size = len(matrix)
    for i in range(size):
        pivot = matrix[i][i]
        matrix[i] = [value / pivot for value in matrix[i]]
        for j in range(size):
            if j != i:
                factor = matrix[j][i]
                matrix[j] = [a - factor * b for a, b in zip(matrix[j], matrix[i], strict=True)]
    return [tuple(row[size + c] for row in matrix) for c in range(len(colours))]


def _draw(weights: Sequence[Sample], size: tuple[int, int]) -> Image.Image:
    """Draw the background coarsely, one cell beyond the frame all round, and enlarge the part inside."""
    values = bytearray(3 * len(_CELLS))
    for colour, (w0, w1, w2, w3) in enumerate(weights):
        levels = [round(w0 + w1 * u + w2 * v + w3 * w) for _, u, v, w in _CELLS]
        if min(levels) < 0 or max(levels) > 255:
            levels = [min(255, max(0, level)) for level in levels]
        values[colour::3] = bytes(levels)
    coarse = Image.frombytes("RGB", (_GRID + 2, _GRID + 2), bytes(values))
    return coarse.resize(size, Image.Resampling.BILINEAR, box=(1, 1, _GRID + 1, _GRID + 1))
