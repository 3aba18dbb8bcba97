"""The floor of pictures: photos through Pillow's shortest road, with nothing asked, checked or remembered.

    python tests/bench/floor.py WORK.json FOLDER threads|processes program|lanczos

The work says of each coin its photos and the squares to cut, found beforehand. What is written is what a build
writes: the same sizes by the same encoder, each from the next wider, and a plate of both sides, drawn while they
are at hand. The filters are the program's own, or LANCZOS throughout, as is usual. It knows nothing of
orientation, profiles or other forms than JPEG.
"""

import io
import json
import os
import sys
import threading
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

FACE = 820
LETTERS = Path(__file__).parents[2] / "themes/tray/assets/eb-garamond-regular.woff2"
OWN = threading.local()


def letters(size: int) -> ImageFont.FreeTypeFont:
    kept = OWN.__dict__.setdefault("kept", {})
    if size not in kept:
        kept[size] = ImageFont.truetype(io.BytesIO(LETTERS.read_bytes()), size)
    return kept[size]


def disc() -> Image.Image:
    if "disc" not in OWN.__dict__:
        mask = Image.new("L", (FACE, FACE), 0)
        ImageDraw.Draw(mask).ellipse((1, 1, FACE - 2, FACE - 2), fill=255)
        OWN.disc = mask
    return OWN.disc


def make_coin(nth: int, sides: list[dict], folder: str, filters: tuple[int, int]) -> None:
    """Make the pictures of both sides of a coin, and its plate."""
    faces = []
    for side in sides:
        left, top, across = side["square"]
        with Image.open(side["photo"]) as photo:
            scale = next((each for each in (8, 4, 2) if side["widths"][0] * each <= across), 1)
            photo.draft(None, (photo.width // scale, photo.height // scale))
            box = (left / scale, top / scale, (left + across) / scale, (top + across) / scale)
            size = (side["widths"][0],) * 2
            picture = photo.resize(size, filters[0], box=box, reducing_gap=1.25)
        face = picture.resize((FACE, FACE), filters[1], reducing_gap=1.25)
        faces.append(face)
        for width in side["widths"]:
            if width < FACE < picture.width:
                picture = face
            if picture.width != width:
                picture = picture.resize((width, width), filters[0], reducing_gap=1.25)
            picture.save(f"{folder}/{side['name']}-{width}.jpg", quality=82, optimize=width <= 320)
    plate = Image.new("RGB", (1920, 1080), (250, 248, 242))
    for face, x in zip(faces, (70, 1030), strict=False):
        plate.paste(face, (x, 52), disc())
    pen = ImageDraw.Draw(plate)
    for text, size, y in ((f"Series 1, {nth}", 60, 950), ("VF30", 36, 1003), ("A bench", 26, 1052)):
        pen.text((960, y), text, fill=(30, 27, 21), font=letters(size), anchor="ms")
    plate.save(f"{folder}/plate-{nth}.jpg", quality=73)


FILTERS = {
    "program": (Image.Resampling.BICUBIC, Image.Resampling.HAMMING),
    "lanczos": (Image.Resampling.LANCZOS, Image.Resampling.LANCZOS),
}


def main(work: str, folder: str, by: str, filters: str) -> None:
    """Make all of it on all cores."""
    coins = json.loads(Path(work).read_text(encoding="utf-8"))
    pool: Executor = {"threads": ThreadPoolExecutor, "processes": ProcessPoolExecutor}[by](os.cpu_count())
    many = len(coins)
    with pool:
        list(pool.map(make_coin, range(many), coins, [folder] * many, [FILTERS[filters]] * many))


if __name__ == "__main__":
    main(*sys.argv[1:])
