"""Which device goes on which reverse, how large it is and where it stands."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np
from beasts import bee, heron, stag
from fish import crossed_fish
from harbour import anchor, lighthouse
from plants import oak_sprig, sheaf, spruce, wheel, wreath
from relief import Field, Plate
from ship import ship


def fish_in_wreath(plate: Plate) -> Field:
    """The crossed fish made smaller, within a wreath."""
    return np.maximum(crossed_fish(plate, at=(0.0, -0.17), scale=0.66), wreath(plate, 0.60))


DEVICES: dict[str, Callable[[Plate], Field]] = {
    "daler": ship,
    "half-daler": stag,
    "ort": spruce,
    "ort, bare ground": partial(spruce, waves=False),
    "12-skilling": anchor,
    "12-skilling, cable behind": partial(anchor, before=False),
    "8-skilling": heron,
    "4-skilling": partial(crossed_fish, scale=0.92),
    "4-skilling-nickel": fish_in_wreath,
    "2-skilling": lighthouse,
    "2-skilling, short beams": partial(lighthouse, beams=0.37),
    "skilling": sheaf,
    "skilling, seven ears": partial(sheaf, ears=7),
    "skilling, wheel": wheel,
    "half-skilling": bee,
    "quarter-skilling": oak_sprig,
}
# scale, and how far the middle moves down
PLACES: dict[str, tuple[float, float]] = {
    "daler": (0.98, 0.03),
    "half-daler": (1.03, 0.0),
    "ort": (1.03, 0.0),
    "12-skilling": (0.98, -0.01),
    "8-skilling": (1.02, 0.0),
    "4-skilling": (1.0, -0.04),
    "4-skilling-nickel": (1.0, 0.0),
    "2-skilling": (1.0, 0.0),
    "skilling": (1.03, 0.0),
    "half-skilling": (1.02, -0.02),
    "quarter-skilling": (1.06, 0.0),
}
