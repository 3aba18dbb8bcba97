"""The letters of fonts, held to what another reader of fonts finds in the same files."""

import struct

import pytest

from daterun.bundled import themes_folder
from daterun.press.glyphs import read_letters

FONTS = sorted((themes_folder() / "tray" / "print" / "fonts").glob("*.ttf"))


def test_the_fonts_have_what_western_and_eastern_europe_write():
    letters = read_letters(FONTS)
    for text in ("Grüße, Çedille, Łódź, Œuvre, Þór", "Ἀθήνη", "Россия", "“‘’”–—…½№†"):
        assert [each for each in text if ord(each) not in letters] == []


def test_the_fonts_lack_what_they_lack():
    letters = read_letters(FONTS)
    assert [each for each in "明治مصر" if ord(each) in letters] == []


def test_what_one_font_of_several_lacks_counts_as_lacking():
    regular = next(each for each in FONTS if "regular" in each.name)
    assert read_letters(FONTS) < read_letters([regular])


def test_the_letters_agree_with_pillows_pictures_of_them():
    from PIL import ImageFont

    regular = next(each for each in FONTS if "regular" in each.name)
    font = ImageFont.truetype(str(regular), 20)
    missing = font.getmask("\uffff").getbbox(), bytes(font.getmask("\uffff"))
    letters = read_letters([regular])
    for point in (*range(0x21, 0x7F), *range(0xC0, 0x180), *range(0x391, 0x3AA), *range(0x410, 0x450)):
        if point == 0x3A2:
            continue
        mask = font.getmask(chr(point))
        shown = (mask.getbbox(), bytes(mask)) != missing
        assert shown == (point in letters), hex(point)


@pytest.mark.parametrize("data", [b"", b"not a font at all", struct.pack(">IHHHH", 0x10000, 9, 0, 0, 0)])
def test_a_file_that_is_no_font_is_refused(tmp_path, data):
    (tmp_path / "a.ttf").write_bytes(data)
    with pytest.raises(ValueError, match="not a font"):
        read_letters([tmp_path / "a.ttf"])
