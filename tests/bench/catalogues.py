"""Makes catalogues of any number of coins for the benches: invented series, plain coins, distinct photos."""

import io
import random
from functools import cache
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw

DATES_A_SERIES = 100
FIRST_YEAR = 1800
GRADES = ("F12", "VF20", "VF30", "EF40", "AU50", "MS63")
WORDS = ("even", "tone", "over", "both", "sides", "with", "little", "wear", "on", "the", "high", "points")


def make_catalogue(
    folder: Path, coins: int, photos: int = 0, width_px: int = 1600, height_px: int = 1600
) -> Path:
    """Write a catalogue of so many coins, the first of which have so many photos in all, two a coin."""
    content = folder / "content"
    series = max(1, -(-coins // (DATES_A_SERIES * 4)))
    _write(content / "catalogue.yaml", "title: A bench\nkeeper: Ida Quennell\ncurrency: VKR\n")
    _write(
        content / "issuers/vessmark.yaml",
        "name: Kingdom of Vessmark\nmoney: {daler: 4 ort, ort: 24 skilling}\n"
        "monarchs:\n  ingrith: {name: Ingrith, reign: {from: 1790-01-01, to: 1910-01-01}}\n",
    )
    for nth in range(series):
        _write(content / f"series/vessmark/s{nth}.yaml", _series(nth))
    chance = random.Random(7)
    for nth in range(coins):
        _write(content / f"coins/{coin_id(nth, series)}.md", _coin(nth, series, chance))
    for nth in range(photos // 2):
        for side in ("obverse", "reverse"):
            path = content / f"photos/{coin_id(nth, series)}.{side}.jpg"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(photo(nth * 2 + (side == "reverse"), width_px, height_px))
    return folder


def coin_id(nth: int, series: int) -> str:
    """Name the nth coin."""
    return f"s{nth % series}/c{nth:06}"


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def _series(nth: int) -> str:
    last = FIRST_YEAR + DATES_A_SERIES - 1
    struck = "".join(
        f"    {year}: {10_000 + (nth * 37 + year * 101) % 900_000}\n" for year in range(FIRST_YEAR, last + 1)
    )
    return (
        f"name: Series {nth}\nissuer: vessmark\nface: {nth + 1} skilling\nstandards:\n"
        f"  - {{dates: {FIRST_YEAR}–{last}, metal: silver, fineness: .750, weight: 9.000 g, remedy: 0.500 g,"
        " diameter: 26.5 mm, edge: milled, axis: 12h, source: Coinage Law}\n"
        f"types:\n  - {{id: ingrith, dates: {FIRST_YEAR}–{last}, monarch: ingrith,"
        " obverse: {legend: INGRITH QUEEN, design: Head to the left},"
        " reverse: {legend: KINGDOM OF VESSMARK, design: A spruce}}\n"
        f"issues:\n  source: Mint reports\n  struck:\n{struck}"
    )


def _coin(nth: int, series: int, chance: random.Random) -> str:
    year = FIRST_YEAR + nth // series % DATES_A_SERIES
    note = " ".join(chance.choices(WORDS, k=30))
    told = "" if nth % 2 else ' The *edge* isn’t worn, but "soft" on one side.'
    return (
        f"---\nseries: s{nth % series}\ndate: {year}\ngrade: {chance.choice(GRADES)}\nweight: 8.9{nth % 10} g\n"
        f"added: 2020-0{nth % 9 + 1}-11\n"
        f"acquired: {{on: 2019-04-03, from: R. Tarn, price: {nth % 90 + 5}.00 VKR}}\n"
        f"kept: cabinet {nth % 9}\n---\n{note[:1].upper()}{note[1:]}.{told}\n"
    )


def photo(nth: int, width_px: int, height_px: int) -> bytes:
    """Draw a photo unlike any other: a disc with rays on a light ground, with the grain of a camera."""
    image = (
        Image.effect_noise((width_px // 8, height_px // 8), 24).resize((width_px, height_px)).convert("RGB")
    )
    image = Image.blend(image, Image.new("RGB", image.size, (236, 234, 230)), 0.85)
    draw = ImageDraw.Draw(image)
    radius = min(width_px, height_px) * 0.42
    x, y = width_px / 2 + nth % 7, height_px / 2 - nth % 5
    draw.ellipse(
        (x - radius, y - radius, x + radius, y + radius), fill=(120, 118 + nth % 9, 112), outline=(60, 58, 55)
    )
    chance = random.Random(nth)
    for _ in range(160):
        reach, at = radius * chance.uniform(0.05, 0.5), (
            x + radius * chance.uniform(-0.6, 0.6), y + radius * chance.uniform(-0.6, 0.6)
        )  # fmt: skip
        shade = chance.randrange(70, 190)
        draw.arc(
            (at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach), 0, 300, (shade, shade, shade - 8), 4
        )
    grain = _grain()
    for top in range(-chance.randrange(_TILE), height_px, _TILE):
        for left in range(-chance.randrange(_TILE), width_px, _TILE):
            box = (max(0, left), max(0, top), min(left + _TILE, width_px), min(top + _TILE, height_px))
            tile = grain.crop((box[0] - left, box[1] - top, box[2] - left, box[3] - top))
            image.paste(ImageChops.add(image.crop(box), tile, 1, -128), box)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90)
    return out.getvalue()


_TILE = 1024


@cache
def _grain() -> Image.Image:
    """Make the grain of a sensor once; photos lay it out from different corners."""
    return Image.merge("RGB", [Image.effect_noise((_TILE, _TILE), 9) for _ in range(3)])
