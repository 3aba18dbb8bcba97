"""Which device goes on the reverse of which series."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from beasts import bee, crossed_fish, heron, stag
from harbour import anchor, lighthouse
from plants import oak_sprig, sheaf, spruce, wreath
from relief import Field, Plate
from ship import ship


def fish_in_wreath(plate: Plate) -> Field:
    """The crossed fish made smaller, within a wreath."""
    return np.maximum(crossed_fish(plate, at=(0.0, -0.12), scale=0.56), wreath(plate))


DEVICES: dict[str, Callable[[Plate], Field]] = {
    "daler": ship,
    "half-daler": stag,
    "ort": spruce,
    "12-skilling": anchor,
    "8-skilling": heron,
    "4-skilling": crossed_fish,
    "4-skilling-nickel": fish_in_wreath,
    "2-skilling": lighthouse,
    "skilling": sheaf,
    "half-skilling": bee,
    "quarter-skilling": oak_sprig,
}
