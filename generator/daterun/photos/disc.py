"""The disc of a coin in its photo: found where it can be trusted, refused with the reason where not."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from PIL import Image

from daterun.photos.background import read_background
from daterun.photos.circle import Circle, Point, circle_of_most
from daterun.photos.closeup import CloseUp, Lens
from daterun.photos.outline import Outline, settle_on_outline
from daterun.photos.photo import Disc
from daterun.photos.rays import find_edges, lay_out
from daterun.photos.rim import Rim, find_rim, outermost_circle
from daterun.photos.silhouette import find_silhouette, fit_circle, usual_threshold
from daterun.photos.surroundings import CUT, SMALL, SMALLEST, why_not_there

NOTHING = "nothing stands out from the background"
UNEVEN = "the background is not plain enough to tell the coin from it"
SLANTED = "the light falls too slantingly to tell the coin from its background"
UNCLEAR = "the edge of the coin cannot be told from the background all the way round"
NOT_ROUND = "what stands out from the background is not round"
SEVERAL = "more than one thing stands out from the background"
TINY = "the photo has too few pixels"

_FINE = 512  # least long side of the reduction on which the rim is measured, if the photo has it
_COARSE = 256  # long side of the reduction on which the coin is first looked for


@dataclass(frozen=True, slots=True)
class NoDisc:
    """The reason why no disc was found, a part of a sentence in the keeper's words."""

    reason: str


@dataclass(frozen=True, slots=True)
class _Guess:
    circle: Circle
    threshold: int
    outline: tuple[Point, ...]
    rivals: tuple[Point, ...]


def find_disc(image: Image.Image) -> Disc | NoDisc:
    """Find the disc of the one coin that lies on a plain background, in an upright RGB picture.

    What stands out from the background gives a first guess. The rim near it is then measured along rays, and
    believed where at least four rays in five see it, half of them to within 0.6 % of the radius, and no
    larger circle competes with it. A coin that is not so round is believed where both the rays and the
    outline of what stands out keep near one circle.
    """
    # Measured, medians of a hundred photos, two cores in use, CPython 3.11 and Pillow 13: 6.5 ms for a picture of
    # 533 px, the reduction of one of 1600 px. Of these, 3 go into laying out the rays and finding the changes
    # on them, 1 each into the background, the outline and fitting circles, and looking round the coin. Where
    # lines cross the rim, so that several guesses are tried, it takes up to three times as long.
    if min(image.size) < 32:
        return NoDisc(TINY)
    factor = max(image.size) // _FINE
    if factor > 1:
        found = _find(image.reduce(factor))
        if isinstance(found, Disc):
            return Disc(found.x * factor, found.y * factor, found.diameter * factor)
        return found
    return _find(image)


def _find(image: Image.Image) -> Disc | NoDisc:
    factor = max(1, -(-max(image.size) // _COARSE))
    background = read_background(image.reduce(factor) if factor > 1 else image)
    difference = background.difference
    if max(difference.size) > _COARSE // 2:
        difference = difference.reduce(2)
    scale = image.width / difference.width
    lens = Lens(image)
    guesses: list[_Guess] = []
    found: Circle | None = None
    for guess in _guesses(difference, background.noise):
        guesses.append(guess)
        if found := _measure_rim(lens, guess.circle.scaled(scale)):
            break
    settled = [] if found else [_settle(lens, guess, scale) for guess in guesses]
    for guess, outline in zip(guesses, settled, strict=False):
        if outline is not None and _is_believed(guess, outline, scale):
            found = outline.circle
            break
    if found is not None:
        reason = why_not_there(lens, background, found)
        if any(found.distance((x * scale, y * scale)) > found.radius for x, y in guesses[0].rivals):
            reason = SEVERAL
        return NoDisc(reason) if reason else Disc(found.x, found.y, 2 * found.radius)
    if background.share < 0.5:
        return NoDisc(UNEVEN)
    return NoDisc(_why_not(guesses[0], settled[0], difference.size) if guesses else NOTHING)


def _guesses(difference: Image.Image, noise: float) -> Iterator[_Guess]:
    """Give the circles near which a coin may lie, the likeliest first."""
    usual = usual_threshold(difference)
    lowest = int(max(6.0, 4 * noise))
    given: list[Circle] = []
    for threshold in (max(usual, lowest), lowest, max((usual + lowest) // 2, lowest)):
        silhouette = find_silhouette(difference, threshold)
        circle = fit_circle(silhouette.outline) if silhouette else None
        if silhouette is None or circle is None or circle.radius < 4:
            continue
        apart = (math.dist((circle.x, circle.y, circle.radius), (o.x, o.y, o.radius)) for o in given)
        if all(distance > 0.04 * circle.radius for distance in apart):
            given.append(circle)
            yield _Guess(circle, threshold, silhouette.outline, silhouette.rivals)


def _measure_rim(lens: Lens, guess: Circle) -> Circle | None:
    """Measure the rim near a guess, as for a sharp photo and, failing that, as for a blurred one."""
    closer = lens.look(guess)
    if closer is None:
        return None
    rows = lay_out(closer.picture, closer.seen(guess), 0.6, 1.4)
    for lag in (1, 2):
        rim = _approach_rim(closer, closer.seen(guess), rows, lag)
        if rim is not None and rim.support >= 0.8 and rim.core >= 0.5 and rim.beyond < 0.3:
            return rim.circle
    return None


def _approach_rim(closer: CloseUp, guess: Circle, rows: Image.Image, lag: int) -> Rim | None:
    """Come closer to the rim in two or three steps, the first along rays that are laid out already."""
    circle = outermost_circle(find_edges(closer.picture, guess, 0.6, 1.4, lag, rows=rows))
    rim = None
    for _ in range(2):
        if circle is None:
            return None
        rim = find_rim(
            find_edges(closer.picture, circle, 0.8, 1.25, lag), max(0.015, 0.8 / circle.radius), 0.5
        )
        if rim is None:
            return None
        before, circle = circle, rim.circle
        if abs(circle.radius / before.radius - 1) < 0.03:
            break
    return replace(rim, circle=closer.placed(rim.circle)) if rim else None


def _settle(lens: Lens, guess: _Guess, scale: float) -> Outline | None:
    """Fit a circle to a coin that is not quite round."""
    circle = guess.circle.scaled(scale)
    closer = lens.look(circle)
    if closer is None:
        return None
    seen = closer.seen(circle)
    tolerance = min(0.06, max(0.04, 1.5 / seen.radius))
    outline = settle_on_outline(find_edges(closer.picture, seen, 0.75, 1.3, 1), tolerance)
    return replace(outline, circle=closer.placed(outline.circle)) if outline else None


def _is_believed(guess: _Guess, outline: Outline, scale: float) -> bool:
    """Tell whether rays and silhouette both keep near a circle, and the edge is as sharp as it is strong.

    In a blurred photo of a shadow the edge is less than a quarter as strong, within a pixel or two, as the
    threshold; on cut-outs of hammered coins it was never less than 0.46 of it.
    """
    circle = outline.circle.scaled(1 / scale)
    return (
        outline.agreement >= 0.72
        and outline.strength >= 0.35 * guess.threshold
        and _roundness(guess.outline, circle, 0.08) >= 0.78
    )


def _roundness(outline: tuple[Point, ...], circle: Circle, tolerance: float) -> float:
    """Tell what share of an outline lies within the tolerance of a circle, a share of its radius."""
    away = (abs(circle.distance(point) / circle.radius - 1) for point in outline)
    return sum(distance <= tolerance for distance in away) / len(outline)


def _why_not(guess: _Guess, settled: Outline | None, size: tuple[int, int]) -> str:
    """Say why the likeliest guess was not believed."""
    width, height = size
    at_frame = sum(min(x, y, width - x, height - y) < 2 for x, y in guess.outline)
    if at_frame > 0.05 * len(guess.outline):
        return CUT
    if 2 * guess.circle.radius < SMALLEST * min(size):
        return SMALL
    across, down = (max(p[k] for p in guess.outline) - min(p[k] for p in guess.outline) for k in range(2))
    if _roundness(guess.outline, guess.circle, 0.08) < 0.7 or not 0.75 < across / down < 1.33:
        return SLANTED if _is_crescent(guess.outline) else NOT_ROUND
    if settled is not None and settled.agreement < 0.85 and settled.lopsided > 0.5:
        return SLANTED
    return UNCLEAR


def _is_crescent(outline: tuple[Point, ...]) -> bool:
    """Tell whether one side of an outline is an arc of a circle that the rest stays well within."""
    x, y = (sum(point[k] for point in outline) / len(outline) for k in range(2))
    around = sorted(outline, key=lambda point: math.atan2(point[1] - y, point[0] - x))
    circle = circle_of_most(around, 0.01 * max(abs(point[1] - y) for point in outline))
    if circle is None:
        return False
    away = [circle.distance(point) / circle.radius - 1 for point in around]
    on_it = sum(abs(each) < 0.02 for each in away)
    outside = sum(each > 0.05 for each in away)
    return on_it > 0.45 * len(away) and outside < 0.05 * len(away)
