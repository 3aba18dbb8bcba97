"""A JPEG joined of coded parts is that which would be coded of the whole."""

import io
import itertools

import pytest
from PIL import Image

from daterun.press.joined import code_part, join_parts

WIDE, HIGH = 1920, 1080


@pytest.fixture(scope="module")
def whole():
    return Image.merge("RGB", [Image.effect_noise((WIDE, HIGH), spread) for spread in (20, 50, 90)])


def part(whole, left, top, right, bottom):
    return code_part(whole.crop((left, top, right, bottom)), 76)


@pytest.mark.parametrize(
    "across", [(0, WIDE), (0, 960, WIDE), (0, 480, 1440, WIDE), (0, 480, 960, 1440, WIDE)]
)
@pytest.mark.parametrize("down", [(0, HIGH), (0, 880, HIGH), (0, 16, 64, 880, HIGH)])
def test_parts_joined_have_the_bytes_of_the_whole(whole, across, down):
    bands = [
        [part(whole, left, top, right, bottom) for left, right in itertools.pairwise(across)]
        for top, bottom in itertools.pairwise(down)
    ]
    assert join_parts(bands) == code_part(whole, 76)


def test_what_is_joined_looks_as_what_is_coded_at_once(whole):
    joined = join_parts(
        [[part(whole, 0, 0, 960, 880), part(whole, 960, 0, WIDE, 880)], [part(whole, 0, 880, WIDE, HIGH)]]
    )
    out = io.BytesIO()
    whole.save(out, "JPEG", quality=76, subsampling="4:2:0")
    with Image.open(io.BytesIO(joined)) as one, Image.open(out) as other:
        assert one.size == (WIDE, HIGH)
        assert one.tobytes() == other.tobytes()


def test_parts_of_unequal_height_are_not_joined(whole):
    with pytest.raises(ValueError, match="shorter"):
        join_parts([[part(whole, 0, 0, 960, 880), part(whole, 960, 0, WIDE, 864)]])
