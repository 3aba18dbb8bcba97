"""Writes the sample pages to a folder, for looking at: `python tests/themes/look.py FOLDER [PHOTOS]`.

The coins are plain shaded discs, unless a folder of square photos named as in `samples.PICTURES` is given.
"""

import shutil
import sys
from pathlib import Path

import rendering
import samples
from PIL import Image, ImageDraw, ImageFilter

TONES = {"silver": (172, 171, 168), "toned": (158, 152, 134), "copper": (150, 88, 52)}


def shaded_disc(stem: str) -> Image.Image:
    """Draw a coin that looks like one from afar: a rim, a head or a tree, and light from the upper left."""
    px = 640
    relief = Image.new("L", (px, px), 96)
    pen = ImageDraw.Draw(relief)
    pen.ellipse((8, 8, px - 8, px - 8), fill=160)
    pen.ellipse((34, 34, px - 34, px - 34), fill=110)
    if stem.endswith("obverse"):
        pen.ellipse((200, 140, 430, 400), fill=170)
        pen.polygon(((270, 380), (390, 380), (440, 500), (220, 500)), fill=165)
    else:
        for step in range(4):
            pen.polygon(
                (
                    (320, 120 + 70 * step),
                    (230 - 22 * step, 230 + 75 * step),
                    (410 + 22 * step, 230 + 75 * step),
                ),
                fill=172,
            )
    height = relief.filter(ImageFilter.GaussianBlur(5))
    light = height.filter(ImageFilter.Kernel((3, 3), (2, 1, 0, 1, 0, -1, 0, -1, -2), scale=0.5, offset=128))
    tone = TONES[stem.split("-")[0]]
    channels = [light.point([min(255, value * part // 128) for value in range(256)]) for part in tone]
    return Image.merge("RGB", channels)


def write_pictures(folder: Path, photos: Path | None) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for stem in samples.PICTURES:
        source = Image.open(photos / f"{stem}.jpg").convert("RGB") if photos else shaded_disc(stem)
        for px in (160, 640, 1600):
            source.resize((px, px), Image.Resampling.LANCZOS).save(folder / f"{stem}-{px}.jpg", quality=82)


def main(folder: Path, photos: Path | None) -> None:
    write_pictures(folder / "pictures", photos)
    shutil.copytree(rendering.THEME / "assets", folder / "assets", dirs_exist_ok=True)
    environment = rendering.theme_environment()
    for page in samples.all_pages():
        path = folder / page.address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(rendering.render(environment, page), encoding="utf-8")
        print(path)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]) if len(sys.argv) > 2 else None)
