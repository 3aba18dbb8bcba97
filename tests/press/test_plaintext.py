"""Texts as the search compares them."""

import io

import pytest
from PIL import Image, PngImagePlugin

from daterun.press.plaintext import (
    beside_pixels,
    join_tags,
    join_texts,
    part_text,
    read_wholes,
    stands_by_itself,
    tokens_of,
)


def read_plain(address, data):
    texts, tags = part_text(address, data.decode())
    return join_texts(address, texts), join_tags(tags)


def wholes(data, address="a.html"):
    return read_wholes(*part_text(address, data.decode()))


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("R. Tarn", ["r", "tarn"]),
        ("R.\u00a0T\u00adarn’s", ["r", "tarn", "s"]),
        ("1,250.00 VKR", ["1250", "vkr"]),
        ("1250 VKR", ["1250", "vkr"]),
        ("12.50", ["12.5"]),
        ("45,00", ["45,00"]),
        ("4417-0092", ["4417", "0092"]),
        ("tray_4", ["tray", "4"]),
        ("the cabinet: 2 of 13. Tray 4, 5", ["the", "cabinet", ":", "2", "of", "13", "tray", "4", "5"]),
        ("a small cabinet. 2 coins", ["a", "small", "cabinet", ".", "2", "coins"]),
        ("cabinet 2, tray 4", ["cabinet", "2", "tray", "4"]),
        ("£45", ["£", "45"]),
        ("Größe STRASSE", ["grösse", "strasse"]),
        ("ﬁne Ⅳ", ["fine", "iv"]),
        ("e\u0301tude", ["étude"]),
    ],
)
def test_a_text_is_its_words_and_numbers(text, tokens):
    assert tokens_of(text) == tokens


@pytest.mark.parametrize(
    ("address", "data"),
    [
        ("index.html", b'<p title="x">paid <b>45.00</b>\n VKR to R.&nbsp;<i>Tarn</i>, twice</p>'),
        ("index.html", b'<a href="of/45.00%20VKR-to-r%2E%20tarn">x</a>'),
        ("index.html", b'<img alt="45 VKR to R. &#84;arn">'),
        ("find.js", b'x=["45 VKR\\nto \\u0052. Tarn"]'),
        ("feed.xml", b"<summary>45.00 VKR to &amp;R. Tarn</summary>"),
        ("robots.txt", b"45.00 VKR to R. TARN"),
    ],
)
def test_a_name_is_the_same_in_text_tags_and_data(address, data):
    plain, tags = read_plain(address, data)
    assert "45 vkr to r tarn" in " ".join([*tokens_of(plain), "/", *tokens_of(tags)])


def test_no_run_of_words_goes_from_one_text_into_another():
    for page in ("<h1>A small cabinet</h1><p>2 coins</p>", '<img alt="cabinet" width="2">'):
        assert all(
            "cabinet 2" not in " ".join(tokens_of(each)) for each in read_plain("a.html", page.encode())
        )
    assert "cabinet 2" not in " ".join(tokens_of(read_plain("a.js", b'["cabinet",2]')[0]))
    assert "cabinet 2" in " ".join(tokens_of(read_plain("a.html", b"<p>cabinet <b>2</b>")[0]))
    assert "cabinet 2" in " ".join(tokens_of(read_plain("a.js", rb'["the \"cabinet\" 2"]')[0]))


def test_what_stands_alone_is_the_whole_of_an_element_an_attribute_or_a_text_in_data():
    assert wholes(b"<dd>Bank</dd><a title='A 3'>of no bank</a>") >= {"bank", "a 3", "of no bank"}
    assert "bank" in wholes(b'x=["bank",1]', "x.js")
    assert "bank" not in wholes(b"<p>the bank of it</p>")


def picture(kind, **options):
    out = io.BytesIO()
    Image.new("RGB", (32, 32), "grey").save(out, kind, **options)
    return out.getvalue()


def exif():
    found = Image.Exif()
    found[0x010F] = "Secret"
    return found.tobytes()


@pytest.mark.parametrize("kind", ["JPEG", "WEBP", "AVIF", "PNG"])
def test_a_plain_picture_carries_nothing(kind):
    assert beside_pixels(picture(kind)) == b""


@pytest.mark.parametrize("kind", ["JPEG", "WEBP", "PNG"])
def test_exif_is_something_carried(kind):
    assert b"Secret" in beside_pixels(picture(kind, exif=exif()))


def test_an_items_kind_in_avif_tells_of_exif():
    assert beside_pixels(picture("AVIF", exif=exif()))


def test_comments_texts_profiles_and_what_follows_the_end_are_carried():
    assert b"tray 4" in beside_pixels(picture("JPEG", comment=b"cabinet 2, tray 4"))
    assert beside_pixels(picture("JPEG", icc_profile=b"tray 4" * 30))
    assert beside_pixels(picture("JPEG") + b"tray 4") == b"tray 4"
    text = PngImagePlugin.PngInfo()
    text.add_text("place", "tray 4")
    assert b"tray 4" in beside_pixels(picture("PNG", pnginfo=text))
    assert b"tray 4" in beside_pixels(picture("PNG") + b"tray 4")
    assert b"tray 4" in beside_pixels(picture("WEBP", xmp=b"tray 4"))


@pytest.mark.parametrize("data", [b"", b"\xff\xd8", b"\xff\xd8\xff\xe1\x00", b"GIF89a secret", b"RIFF"])
def test_what_is_no_picture_is_carried_whole(data):
    assert beside_pixels(data) == data or data in (b"\xff\xd8",)


@pytest.mark.parametrize(
    "line",
    ["<p>sold to R. Tarn</p>", "<hr>", "<li><b>R.</b> Tarn</li>", '<td title="R.">', "</ul><p>Tarn<br>"],
)
def test_a_line_between_tags_that_part_words_stands_by_itself(line):
    assert stands_by_itself(line)


@pytest.mark.parametrize(
    "line",
    [
        "",
        "Tarn</p>",
        "<p>sold to R.",
        "<b>Tarn</b></p>",
        "<p>sold to <b>R.</b>",
        "</span><p>R.</p>",
        '<p title="R.',
    ],
)
def test_a_line_into_which_words_may_run_does_not(line):
    assert not stands_by_itself(line)
