"""Gaps in a silhouette are closed as filters of three by three pixels would."""

import random

import pytest
from PIL import Image, ImageFilter

from daterun.photos.silhouette import _closed


def by_filters(difference, threshold):
    mask = difference.point([255 if level > threshold else 0 for level in range(256)])
    return mask.filter(ImageFilter.MaxFilter(3)).filter(ImageFilter.MinFilter(3))


@pytest.mark.parametrize("size", [(40, 31), (3, 50), (64, 2), (90, 90)])
@pytest.mark.parametrize("threshold", [0, 6, 128, 250, 254, 255])
def test_a_closed_silhouette_is_that_of_the_filters_to_the_very_border(size, threshold):
    chance = random.Random(5)
    levels = bytes(chance.choice((0, 5, 7, 130, 251, 255)) for _ in range(size[0] * size[1]))
    difference = Image.frombytes("L", size, levels)
    wide, high = size
    bordered = Image.frombytes("L", (wide + 2, high + 2), _closed(difference, threshold))
    assert bordered.crop((1, 1, wide + 1, high + 1)).tobytes() == by_filters(difference, threshold).tobytes()
