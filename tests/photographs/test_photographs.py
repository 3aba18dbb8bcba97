"""The computed photographs: the same on every run, worn as their grades say, and all there."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageOps

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

import camera  # noqa: E402
from coins import WITHOUT_PHOTOS, Coin, grade_number, read_coins  # noqa: E402
from portraits import PORTRAITS  # noqa: E402
from relief import Plate  # noqa: E402
from strike import struck  # noqa: E402

CONTENT = HERE.parents[1] / "content"
PHOTOS = CONTENT / "photos"
SMALL = 160


@pytest.fixture
def two_coins(monkeypatch: pytest.MonkeyPatch) -> list[Coin]:
    """Two coins of a silver and a bronze series, photographed small."""
    monkeypatch.setattr(camera, "DIE_SIZE", SMALL)
    wanted = ("ort/1899", "half-skilling/1877")
    monkeypatch.setattr(camera, "LARGE", dict.fromkeys(wanted, SMALL))
    coins = {coin.id: coin for coin in read_coins(CONTENT)}
    return [coins[name] for name in wanted]


def test_a_coin_is_photographed_with_the_same_bytes_every_time(two_coins: list[Coin]) -> None:
    first = [camera.photograph(coin, "obverse") for coin in two_coins]
    again = [camera.photograph(coin, "obverse") for coin in two_coins]
    assert first == again
    assert first[0] != first[1]


def test_a_worn_coin_has_less_relief_than_one_in_mint_state(two_coins: list[Coin]) -> None:
    def contrast(grade: float) -> float:
        coin = replace(two_coins[0], grades=(grade, grade))
        heights = struck(coin, "obverse", SMALL).heights
        middle = Plate(SMALL).radius() < 0.65
        return float(heights[middle].std())

    as_struck, fine, good = contrast(65), contrast(12), contrast(4)
    assert good < fine < as_struck
    assert good < as_struck / 2


def test_no_two_portraits_are_alike() -> None:
    heads = {name: draw(Plate(SMALL)) for name, draw in PORTRAITS.items()}
    names = sorted(heads)
    for index, name in enumerate(names):
        for other in names[index + 1 :]:
            apart = float(np.abs(heads[name] - heads[other]).mean())
            assert apart > 0.04, f"{name} and {other} differ by {apart:.3f} only"


def test_the_disc_lies_where_the_script_says(two_coins: list[Coin]) -> None:
    for coin in two_coins:
        x, y, diameter = camera.disc_of(coin, "reverse")
        shot = camera.framing(coin, "reverse")
        pixels = np.asarray(camera.taken(coin, "reverse"), dtype=float)
        paper = np.array(shot.paper) * 255
        far_from_paper = np.abs(pixels - paper).sum(axis=2) > 120
        rows, columns = np.nonzero(far_from_paper)
        assert abs((columns.min() + columns.max() + 1) / 2 - x) < 4
        assert abs((rows.min() + rows.max() + 1) / 2 - y) < 4
        assert abs(columns.max() - columns.min() + 1 - diameter) < 8


def test_the_discs_file_names_exactly_the_photographs_that_are_there() -> None:
    named = set(json.loads((HERE / "discs.json").read_text(encoding="utf-8")))
    there = {path.relative_to(PHOTOS).as_posix().removesuffix(".jpg") for path in PHOTOS.rglob("*.jpg")}
    assert named == there
    assert len(there) >= 300


def test_all_photographs_together_stay_under_14_megabytes() -> None:
    assert 0 < sum(path.stat().st_size for path in PHOTOS.rglob("*.jpg")) < 14_000_000


def test_every_coin_has_both_photographs_or_a_reason_why_not() -> None:
    folder = CONTENT / "coins"
    coins = {path.relative_to(folder).with_suffix("").as_posix() for path in folder.rglob("*.md")}
    photographed = {path.relative_to(PHOTOS).as_posix().rsplit(".", 2)[0] for path in PHOTOS.rglob("*.jpg")}
    assert coins == photographed | set(WITHOUT_PHOTOS)
    assert not photographed & set(WITHOUT_PHOTOS)


def test_some_photographs_carry_what_a_camera_writes() -> None:
    written, turned = 0, 0
    for path in PHOTOS.rglob("*.jpg"):
        with Image.open(path) as image:
            exif = image.getexif()
            written += exif.get(0x010F) == "Lumen" and bool(exif.get_ifd(0x8825))
            turned += exif.get(0x0112, 1) != 1
    assert written >= 20
    assert turned == len(camera.TURNED)


def test_a_photograph_that_lies_on_its_side_is_upright_once_its_tag_is_obeyed() -> None:
    discs = json.loads((HERE / "discs.json").read_text(encoding="utf-8"))
    for name in camera.TURNED:
        with Image.open(PHOTOS / f"{name}.jpg") as image:
            upright = ImageOps.exif_transpose(image)
        x, y, diameter = discs[name]
        assert 0 < x - diameter / 2 < x + diameter / 2 < upright.width
        assert 0 < y - diameter / 2 < y + diameter / 2 < upright.height


@pytest.mark.parametrize(
    ("text", "number"), [("VF30–EF40", 30), ("MS64 RB", 64), ("AU58+", 58), ("PO1", 1), ("EF", 40),
        ("NVF", 18.8)]
)
def test_the_rough_reader_takes_the_low_end_of_a_grade(text: str, number: float) -> None:
    assert grade_number(text) == pytest.approx(number)
