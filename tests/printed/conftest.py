"""A small catalogue to print, and ways to read what was printed."""

import io
import os
import re
import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest
from PIL import Image, ImageDraw

from daterun.pages.printchoice import Choice
from daterun.press.labelsheets import read_label_sheet
from daterun.printing import Form, print_sheets
from daterun.readers.reader import Reader

SETTINGS = """title: A small cabinet
keeper: Ida Quennell
as of: 2026-11-01
language: en-GB
currency: VKR
readers: {public: {wants: yes}}
aims:
  - {id: orts, name: Orts by date, series: [ort], one per: [date], at least: VF20, problems: refused}
wants:
  - {slot: ort 1892, at most: 400.00 VKR, remark: ask at the Kaldhamn fair}
"""


def photograph(colour):
    """A round coin of one colour on a light ground, 280 pixels across."""
    image = Image.new("RGB", (400, 400), (240, 240, 236))
    ImageDraw.Draw(image).ellipse((60, 60, 340, 340), fill=colour)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92)
    return out.getvalue()


@pytest.fixture
def folder(catalogue_folder, coin):
    """Four coins of one series, two of one type and date apart, one of them photographed."""
    crop = "photos: {reverse: {crop: {x: 200.5, y: 200.5, diameter: 281}}}"
    owner = "provenance: [{owner: Hallin collection, until: 1988, publish: yes}]"
    value = "value: {amount: 80.29 VKR, on: 2026-01-10, basis: two sales in 2025}"
    files = {
        "content/catalogue.yaml": SETTINGS,
        "content/coins/ort/1891.md": coin(
            "1891",
            "grade: VF30",
            owner,
            value,
            crop,
            notes="Sharp.\n\n- one\n- two\n\n| a | b |\n|---|---|\n| c | d |",
        ),
        "content/coins/ort/1893.md": coin("1893", "grade: F12", "kept: tray 4"),
        "content/coins/ort/1897.md": coin("1897", "grade: F12", notes="See [[ort/1891]]."),
        "content/coins/ort/1900.md": coin("1900", "grade: EF40"),
        "content/photos/ort/1891.obverse.jpg": photograph((60, 60, 66)),
        "content/photos/ort/1891.reverse.jpg": photograph((60, 62, 70)),
        "content/pages/on-orts.md": "---\ntitle: On orts\n---\nThe first is [[ort/1891]].\n",
    }
    return catalogue_folder(files)


@pytest.fixture
def printed():
    """Print a thing: call it with the folder, what, the reader, and what is chosen; it gives the result."""

    def make(folder, what, reader=Reader.KEEPER, form=None, **chosen):
        form = {"labels": read_label_sheet("medium", "a4"), **(form or {})}
        result = print_sheets(folder, what, reader, Choice(**chosen), Form(**form))
        assert not result.has_errors
        return result

    return make


@pytest.fixture
def texts():
    """Read the text of each page, with spaces made one."""

    def read(path):
        return [
            re.sub(r"\s+", " ", page.extract_text().replace("\u200b", ""))
            for page in pypdf.PdfReader(path).pages
        ]

    return read


@pytest.fixture
def rendered(tmp_path: Path):
    """Draw a page in grey at so many pixels to the inch.

    Where poppler-utils is not installed, that is a reason to skip at home and a failure where CI is set.
    """
    if shutil.which("pdftoppm") is None:
        told = "pages are drawn with pdftoppm, of poppler-utils"
        pytest.fail(told) if os.environ.get("CI") else pytest.skip(told)

    def draw(path, page, dpi=600):
        command = ["pdftoppm", "-r", str(dpi), "-f", str(page), "-l", str(page), "-gray", "-singlefile"]
        subprocess.run([*command, path, tmp_path / "page"], check=True, capture_output=True)
        with Image.open(tmp_path / "page.pgm") as image:
            image.load()
            return image

    return draw
