"""Texts as they are compared in a search: as words and numbers alone, whatever stands round and between them.

Tags, entities, percent signs and escapes of data are undone, so that a name is one and the same in a heading, an
attribute, an address and a script.
"""

import html
import re
import struct
import unicodedata
from collections.abc import Iterable
from urllib.parse import unquote

_UNSEEN = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufeff]")
_TOKEN = re.compile(r"[£$€¥¶·]|(?<=\w{3})(?:[.!?](?=\s)|[:;,](?=\s+\d))|[^\W_]+(?:(?<=\d)[.,](?=\d)[^\W_]+)*")
_GROUPED = re.compile(r",(?=\d{3}(?!\d))")
_TAG = re.compile(r"<[^>]*>")
_WITHIN_LINES = r"/?(?:a|abbr|b|cite|code|em|i|mark|q|s|small|span|strong|sub|sup|time|u|wbr)\b"
_INLINE = re.compile(f"<{_WITHIN_LINES}[^>]*>")
_BY_ITSELF = re.compile(f"<(?!{_WITHIN_LINES})[^<>]*>(?:.*<(?!{_WITHIN_LINES})[^<>]*>)?")
_QUOTE = re.compile(r'(?<!\\)"')
_ESCAPE = re.compile(r"\\(?:u([0-9a-fA-F]{4})|([nrtbf])|(.))", re.DOTALL)
_QUOTED = re.compile(r"""(?<=["'])[^<>"']{1,80}(?=["'])""")
_LONGEST_ALONE = 80

BREAK = " ¶ "
"""What stands where one text ends and another begins; no run of words goes over it."""

_FONTS = (".woff2", ".woff", ".ttf", ".otf")
_PICTURES = (".jpg", ".jpeg", ".webp", ".avif", ".png")


def tokens_of(text: str) -> list[str]:
    """Part a text into its words and numbers, in small letters; 1,250.00 and 1250 are one number.

    The end of a sentence counts as a word, so that none is read on into the next, and so does what parts a word
    from a number behind it ("in the cabinet: 2 of 13"); the point of "R. Tarn" does not.
    """
    if not text.isascii():
        text = unicodedata.normalize("NFKC", _UNSEEN.sub("", text)).casefold()
        # Folding can part what was composed: the letters are put together again.
        text = unicodedata.normalize("NFC", text)
    else:
        text = text.lower()
    found: list[str] = _TOKEN.findall(text)
    if "." in text or "," in text:
        return [_number(each) if "." in each or "," in each else each for each in found]
    return found


def _number(token: str) -> str:
    token = _GROUPED.sub("", token)
    if token.count(".") == 1 and token[-1].isdigit():
        token = token.rstrip("0").rstrip(".")
    return token


def is_text(address: str) -> bool:
    """Tell whether a file of an edition is text; pictures and fonts are not."""
    return not address.lower().endswith((*_FONTS, *_PICTURES))


def is_picture(address: str) -> bool:
    return address.lower().endswith(_PICTURES)


def has_tags(address: str) -> bool:
    return address.lower().endswith((".html", ".svg", ".xml"))


def stands_by_itself(line: str) -> bool:
    """Tell whether no run of words goes from a line of a file with tags into the one before or behind it."""
    return _BY_ITSELF.fullmatch(line) is not None


def part_text(address: str, text: str) -> tuple[list[str], list[str]]:
    """Part a text file into the texts between its tags and the tags themselves, as they are written.

    No run of words goes from one piece into another. A file without tags is one piece.
    """
    if not has_tags(address):
        return [text], []
    seen, tags = _INLINE.sub(" ", text), _TAG.findall(text)
    if any("<" in each[1:] for each in tags):  # tags within an attribute part it otherwise
        tags += _TAG.findall(seen)
    return _TAG.split(seen), tags


def join_texts(address: str, texts: Iterable[str]) -> str:
    """Join texts between tags into what a reader sees, with every escape undone."""
    whole = BREAK.join(texts)
    if has_tags(address):
        return _unescape(html.unescape(whole))
    return _unescape(_QUOTE.sub(BREAK, whole))


def join_tags(tags: Iterable[str]) -> str:
    """Join tags into what their attributes say, with every escape undone."""
    whole = html.unescape(BREAK.join(tags).replace('"', BREAK))
    return unquote(whole) if "%" in whole else whole


def read_wholes(texts: Iterable[str], tags: Iterable[str]) -> set[str]:
    """Give the short texts that stand alone: as an element, an attribute, or a text in quotes in data."""
    found = [each for text in texts for each in (text, *(_QUOTED.findall(text) if '"' in text else ()))]
    found += [each for tag in tags for each in _QUOTED.findall(tag)]
    return {" ".join(tokens_of(html.unescape(each))) for each in found if len(each) <= _LONGEST_ALONE}


def _unescape(text: str) -> str:
    """Undo the escapes of data; a stroke before any other sign stays, as in an ordinary text."""
    if "\\" not in text:
        return text

    def plain(found: re.Match[str]) -> str:
        if found[1]:
            return chr(int(found[1], 16))
        return " " if found[2] else found[3]

    return _ESCAPE.sub(plain, text)


def beside_pixels(data: bytes) -> bytes:
    """Give what a picture carries beside its pixels and the frame they need: b"" where it is nothing.

    Comments, EXIF, XMP, profiles and whatever follows its end count. Knows JPEG (ITU-T T.81, annex B), WebP (RFC
    9649), PNG (its third edition, 11) and AVIF, whose items say of what kind they are (ISO/IEC 23008-12).
    """
    try:
        if data[:2] == b"\xff\xd8":
            return _beside_jpeg(data)
        if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
            return _beside_chunks(data, 12, "<", (b"VP8 ", b"VP8L", b"VP8X", b"ALPH"))
        if data[:8] == b"\x89PNG\r\n\x1a\n":
            return _beside_png(data)
    except (struct.error, IndexError):
        return data
    if data[4:8] == b"ftyp":
        frame = data.partition(b"mdat")[0]
        return frame if b"Exif" in frame or b"mime" in frame or b"prof" in frame else b""
    return data


def _beside_jpeg(data: bytes) -> bytes:
    at, found = 2, []
    while data[at] == 0xFF and data[at + 1] != 0xDA:
        marker, length = data[at + 1], struct.unpack_from(">H", data, at + 2)[0]
        is_plain_frame = marker == 0xE0 and length == 16
        is_adobe = marker == 0xEE and length == 14
        if not (is_plain_frame or is_adobe) and (0xE0 <= marker <= 0xEF or marker == 0xFE):
            found.append(data[at + 4 : at + 2 + length])
        at += 2 + length
    end = data.rfind(b"\xff\xd9")
    found.append(data[end + 2 :] if end >= 0 else data)
    return b" ".join(each for each in found if each)


def _beside_chunks(data: bytes, at: int, order: str, plain: tuple[bytes, ...]) -> bytes:
    found = []
    while at + 8 <= len(data):
        length = struct.unpack_from(f"{order}I", data, at + 4)[0]
        if data[at : at + 4] not in plain:
            found.append(data[at : at + 8 + length])
        at += 8 + length + length % 2
    return b" ".join(found)


def _beside_png(data: bytes) -> bytes:
    plain = (b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"sRGB", b"gAMA", b"cHRM", b"sBIT", b"pHYs")
    at, found = 8, []
    while at + 12 <= len(data):
        length, kind = struct.unpack_from(">I4s", data, at)
        if kind not in plain:
            found.append(data[at + 4 : at + 8 + length])
        at += 12 + length
        if kind == b"IEND":
            break
    return b" ".join([*found, data[at:]]) if data[at:] else b" ".join(found)
