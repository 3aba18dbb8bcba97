"""Hostile files through whole builds: links in circles, devices, odd bytes, odd pictures, paths that lead out."""

import io
import os
import struct
import sys
import zlib

import pytest
from PIL import Image, ImageCms, ImageDraw

from daterun.problems import CannotContinue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.site import build, check

POSIX = pytest.mark.skipif(
    sys.platform == "win32", reason="Windows asks for rights to link, and has no devices"
)


def errors(folder):
    return [each for each in check(folder).problems if each.is_error]


def tree(folder):
    """All that lies in a folder but for what Daterun makes: each file with its bytes, each link with its aim."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if not name.startswith(("catalogue/output", "catalogue/.daterun")):
            found[name] = str(path.readlink()) if path.is_symlink() else path.is_file() and path.read_bytes()
    return found


@POSIX
@pytest.mark.parametrize(
    "name", ["coins/a.md", "series/vessmark/a.yaml", "pages/a.md", "photos/a.obverse.jpg"]
)
def test_a_link_to_a_pipe_is_not_waited_for(catalogue_folder, coin, name):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    os.mkfifo(folder / "pipe")
    path = folder / "content" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    path.symlink_to(folder / "pipe")
    assert errors(folder)
    assert build(folder, Reader.PUBLIC).has_errors


@POSIX
@pytest.mark.parametrize("name", ["coins/b.md", "lots/a.yaml", "photos/a.obverse.jpg", "catalogue.yaml"])
@pytest.mark.parametrize("device", ["zero", "null", "random"])
def test_a_link_to_a_device_is_not_read(catalogue_folder, coin, name, device):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    path = folder / "content" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    path.symlink_to(f"/dev/{device}")
    if name == "catalogue.yaml":
        with pytest.raises(CannotContinue):
            check(folder)
    elif name.startswith("photos"):
        assert build(folder, Reader.PUBLIC).pictures_made == 0
    else:
        assert any("leads out of the catalogue folder" in each.sentence for each in errors(folder))


@POSIX
@pytest.mark.parametrize("name", ["coins/b.md", "lots/a.yaml", "photos/a.obverse.jpg"])
def test_a_device_in_the_folder_itself_is_not_read(catalogue_folder, coin, name):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    path = folder / "content" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.mknod(path, 0o666 | 0o020000, os.makedev(1, 5))
    except OSError as error:
        pytest.skip(f"this machine lets no device be made: {error}")
    assert build(folder, Reader.PUBLIC).pictures_made == 0
    assert name.startswith("photos") or any("not a file" in each.sentence for each in errors(folder))


@POSIX
@pytest.mark.parametrize("under", ["coins", "photos", "series", "pages"])
def test_links_in_a_circle_come_to_an_end(catalogue_folder, coin, under):
    folder = catalogue_folder({"content/coins/a.md": coin("1891")})
    here = folder / "content" / under
    here.mkdir(exist_ok=True)
    (here / "itself").symlink_to(here / "itself")
    (here / "above").symlink_to(here.parent)
    (here / "one.md").symlink_to(here / "other.md")
    (here / "other.md").symlink_to(here / "one.md")
    check(folder)
    build(folder, Reader.PUBLIC)


SORTS = {
    "content/catalogue.yaml": "title: A cabinet of é\ncurrency: VKR\n",
    "content/issuers/a.yaml": "name: The realm of é\n",
    "content/series/a/b.yaml": "name: Bé\nissuer: a\nissues: {source: é, struck: {1891: 5}}\n",
    "content/coins/c.md": "---\nseries: b\ndate: 1891\ndesign: é\n---\nSharp é.\n\nWeak.\n",
    "content/lots/d.yaml": "name: A tin of é\nprice: 4 VKR\n",
    "content/pages/e.md": "---\ntitle: On é\n---\nFirst é.\n\nSecond.\n",
}


@pytest.mark.parametrize("name", SORTS)
@pytest.mark.parametrize("ends", [b"\r\n", b"\r", b"\xef\xbb\xbf"], ids=["CRLF", "CR", "BOM"])
def test_other_ends_of_lines_and_a_mark_change_nothing(catalogue_folder, tmp_path, name, ends):
    data = SORTS[name].encode()
    folder = catalogue_folder(SORTS, base={})
    before, plain = read_catalogue(folder)
    (folder / name).write_bytes(ends + data if ends[:1] == b"\xef" else data.replace(b"\n", ends))
    assert read_catalogue(folder) == (before, plain)


@pytest.mark.parametrize("name", SORTS)
@pytest.mark.parametrize(
    "spoilt",
    [
        lambda data: data[:9] + b"\0" + data[9:],
        lambda data: data.decode().encode("latin-1"),
        lambda data: data.decode().encode("utf-16"),
        lambda data: data.decode().encode("utf-32"),
        lambda data: data + b"\xff\xfe",
        lambda data: b"\x80" * 1000,
        lambda data: os.urandom(1) * 0 + bytes(range(256)) * 20,
        lambda data: zlib.compress(data),
    ],
    ids=["NUL", "Latin-1", "UTF-16", "UTF-32", "a stray end", "stray", "every byte", "packed"],
)
def test_a_file_that_is_not_text_is_a_problem_with_its_place(catalogue_folder, name, spoilt):
    files = SORTS | {name: spoilt(SORTS[name].encode())}
    folder = catalogue_folder(files, base={})
    assert any(each.place.path == name for each in errors(folder))
    assert build(folder, Reader.PUBLIC).has_errors


def disc(mode="RGB", size=400):
    image = Image.new("RGB", (size, size), "white")
    ImageDraw.Draw(image).ellipse((50, 50, size - 50, size - 50), fill=(120, 110, 90))
    return image if mode == "RGB" else image.convert(mode)


def saved(image, picture_format, **kept):
    out = io.BytesIO()
    image.save(out, picture_format, **kept)
    return out.getvalue()


def bomb():
    """A PNG that says it has four thousand million pixels."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 65_535, 65_535, 8, 2, 0, 0, 0)
    packed = zlib.compress(b"\0" * 100_000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


SRGB = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
GOOD = {
    "CMYK": ("jpg", saved(disc("CMYK"), "JPEG")),
    "16 bits": ("png", saved(disc("L").convert("I;16"), "PNG")),
    "a palette": ("png", saved(disc("P"), "PNG")),
    "clear ground": ("png", saved(disc("RGBA"), "PNG")),
    "one bit": ("png", saved(disc("1"), "PNG")),
    "a PNG named JPEG": ("jpg", saved(disc(), "PNG")),
    "a JPEG named PNG": ("png", saved(disc(), "JPEG")),
    "a WebP named TIFF": ("tif", saved(disc(), "WEBP")),
    "a profile": ("jpg", saved(disc(), "JPEG", icc_profile=SRGB)),
    "a broken profile": ("jpg", saved(disc(), "JPEG", icc_profile=b"none" * 40)),
    "odd metadata": ("jpg", saved(disc(), "JPEG", exif=b"Exif\0\0" + b"\xff" * 200)),
    "a tail": ("jpg", saved(disc(), "JPEG") + b"<script>alert(1)</script>" * 100),
}
BAD = {
    "empty": ("jpg", b""),
    "a text": ("jpg", b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"),
    "a page": ("png", b"<!doctype html><script>alert(1)</script>"),
    "PostScript": ("jpg", b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 100 100\n(x) run\n"),
    "broken off": ("jpg", saved(disc(), "JPEG")[:900]),
    "a head alone": ("png", saved(disc(), "PNG")[:40]),
    "a bomb": ("png", bomb()),
    "moving": ("webp", saved(disc(), "WEBP", save_all=True, append_images=[disc("L").convert("RGB")])),
    "noise": ("jpg", bytes(range(256)) * 50),
    "a JPEG of noise": ("jpg", saved(disc(), "JPEG")[:200] + bytes(range(256)) * 50),
}


@pytest.mark.parametrize("name", GOOD)
def test_an_odd_picture_is_shown_with_nothing_but_its_pixels(catalogue_folder, coin, name):
    suffix, data = GOOD[name]
    files = {"content/coins/a.md": coin("1891"), f"content/photos/a.obverse.{suffix}": data}
    result = build(catalogue_folder(files), Reader.PUBLIC)
    assert [each.sentence for each in result.problems if each.is_error] == []
    pictures = [each for each in result.output.rglob("pictures/**/*") if each.is_file()]
    assert pictures
    for each in pictures:
        assert b"alert" not in each.read_bytes()
        with Image.open(each) as image:
            assert (image.mode, image.getexif(), image.info.get("icc_profile")) == ("RGB", {}, None)


@pytest.mark.parametrize("name", BAD)
def test_a_bad_picture_is_a_problem_with_its_place(catalogue_folder, coin, name):
    suffix, data = BAD[name]
    files = {"content/coins/a.md": coin("1891"), f"content/photos/a.obverse.{suffix}": data}
    folder = catalogue_folder(files)
    (error,) = errors(folder)
    assert (error.rule, error.place.path) == ("broken photo", f"content/photos/a.obverse.{suffix}")
    assert not build(folder, Reader.PUBLIC).output.exists()


OUT = ("../../../outside", "/tmp/outside", "..\\..\\outside")
SERIES = """\
name: {name}
issuer: {issuer}
denomination: {denomination}
types:
  - {{id: {type}, name: {type_name}, dates: 1891–1899, monarch: {monarch}, obverse: {{legend: L, design: D}}}}
varieties:
  - {{id: {variety}, dates: 1891–1899, side: reverse, reading: R}}
issues: {{source: S, struck: {{1891: {{by mint: {{{mint}: 5}}}}}}}}
"""
ISSUER = """\
name: Vessmark
mints: {{none: Vessborg, {mint}: Kaldhamn}}
monarchs: {{{monarch}: {{name: {monarch_name}, reign: {{from: 1869-05-02}}}}}}
"""
COIN = """\
---
series: {series}
date: {date}
set: {set}
lot: {lot}
kept: x
photos: {{obverse: {{file: {photo}}}}}
---
[[{link}]] [[{link} both]] ![a]({link}) [b]({link})
"""
SETTINGS = """\
title: A
theme: {theme}
language: {language}
web: {web}
pictures: {{format: {format}, widths: [300, 100]}}
aims: [{{id: {aim}, name: A, series: [{series}], leave out: {{ort: {{{left}: x}}}}}}]
wants: [{{slot: {want}}}]
"""
ESSAY = "---\ntitle: {title}\npart of: {part}\n---\n[[{link}]]\n"
PLAIN = {
    **{
        "name": "Ort",
        "issuer": "vessmark",
        "denomination": "ort",
        "type": "t",
        "type_name": "T",
        "variety": "v",
    },
    **{
        "mint": "K",
        "monarch": "m",
        "monarch_name": "M",
        "series": "ort",
        "date": "1891",
        "set": "s",
        "lot": "l",
    },
    **{"photo": "a.jpg", "link": "a", "theme": "tray", "language": "en-GB", "web": "https://example.org/"},
    **{"format": "jpeg", "aim": "all", "left": "1891", "want": "ort 1891", "title": "T", "part": "p"},
}


@pytest.mark.parametrize("out", OUT)
@pytest.mark.parametrize("field", PLAIN)
def test_no_field_leads_out_of_the_folder(catalogue_folder, tmp_path, field, out):
    words = PLAIN | {field: "'" + out + "'"}
    files = {
        "content/catalogue.yaml": SETTINGS,
        "content/issuers/vessmark.yaml": ISSUER,
        "content/series/vessmark/ort.yaml": SERIES,
        "content/coins/a.md": COIN,
        "content/coins/b.md": "---\nseries: ort\ndate: 1891\nset: s\nlot: l\n---\n",
        "content/lots/l.yaml": "name: L\n",
        "content/pages/e.md": ESSAY,
    }
    folder = catalogue_folder(
        {name: text.format_map(words) if "{" in text else text for name, text in files.items()}
    )
    (folder / "content/photos").mkdir()
    (folder / "content/photos/a.jpg").write_bytes(saved(disc(), "JPEG"))
    (tmp_path / "outside").write_bytes(saved(disc(), "JPEG"))
    before = tree(tmp_path)
    result = build(folder, Reader.KEEPER)
    assert tree(tmp_path) == before
    assert result.output == (folder / "output/keeper").resolve()
    written = [each for each in (folder / "output").rglob("*") if each.is_file()]
    assert all(each.resolve().is_relative_to(result.output) for each in written)
    assert result.has_errors or written
