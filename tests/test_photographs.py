"""Photographs of every sort that a camera, a scanner or a mischief-maker makes, made by Pillow.

Pillow writes them, so it is both the maker and the reader here; what is looked at is size, mode,
turning and colour by arithmetic. Orientation: EXIF 2.32 (CIPA DC-008), tag 0x0112: 6 means that the
first row of the file is the right side of the picture.
"""

from __future__ import annotations

import io
import struct
import warnings
import zlib

import pytest
from PIL import Image, ImageDraw

from sheetgen.photographs import MOST_PIXELS, PER_INCH, take

FRAME = (101.6, 50.8)
"""4 by 2 inches, so 1200 by 600 pixels."""
PLACE = ("made", "photographs", 0, "file")


@pytest.fixture
def put(tmp_path):
    def save(name, image=None, data=None, **how):
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True)
        if data is not None:
            file.write_bytes(data)
        else:
            image.save(file, **how)
        return take(tmp_path, name, FRAME, PLACE)

    return save


def opened(taken):
    assert taken.photograph is not None, taken.diagnostics
    image = Image.open(io.BytesIO(taken.photograph.data))
    assert image.size == (taken.photograph.width, taken.photograph.height)
    assert image.format in ("JPEG", "PNG")
    assert image.mode in ("RGB", "L"), "no palette, no alpha, no inks"
    assert not image.getexif()
    assert "icc_profile" not in image.info
    return image


def codes(taken):
    return [(d.code, d.severity) for d in taken.diagnostics]


def halves(mode, left, right, size=(200, 100)):
    image = Image.new(mode, size, left)
    ImageDraw.Draw(image).rectangle((size[0] // 2, 0, *size), fill=right)
    return image


def near(pixel, wanted, off=6):
    pixel = pixel if isinstance(pixel, tuple) else (pixel,)
    return all(abs(a - b) <= off for a, b in zip(pixel, wanted, strict=True))


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.tif", "below/deep/a.jpeg", "misnamed.gif"])
def test_the_three_formats_whatever_they_are_called(put, name):
    kind = {"png": "PNG", "tif": "TIFF"}.get(name[-3:], "JPEG")
    image = opened(put(name, halves("RGB", (200, 30, 40), (20, 90, 200)), format=kind))
    assert near(image.getpixel((10, 50)), (200, 30, 40))
    assert near(image.getpixel((190, 50)), (20, 90, 200))


def test_scaled_down_to_the_frame_at_300_an_inch_never_up(put):
    assert PER_INCH == 300
    assert opened(put("wide.png", Image.new("RGB", (4000, 1000)))).size == (1200, 300)
    assert opened(put("high.jpg", Image.new("RGB", (1000, 4000)))).size == (150, 600)
    assert opened(put("small.jpg", Image.new("RGB", (90, 30)))).size == (90, 30)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_turned_by_the_note_of_the_camera(put, orientation):
    # EXIF table: 1 top-left, 2 top-right, 3 bottom-right, 4 bottom-left (0th row, 0th column);
    # 5 left-top, 6 right-top, 7 right-bottom, 8 left-bottom.
    image = Image.new("RGB", (120, 80), "white")
    ImageDraw.Draw(image).rectangle((0, 0, 40, 40), fill="black")  # at 0th row, 0th column
    exif = Image.Exif()
    exif[0x0112] = orientation
    found = opened(put("turned.jpg", image, quality=95, exif=exif))
    assert found.size == ((120, 80) if orientation < 5 else (80, 120))
    top = orientation in (1, 2, 5, 6)
    left = orientation in (1, 4, 5, 8)
    x = 10 if left else found.width - 10
    y = 10 if top else found.height - 10
    assert near(found.getpixel((x, y)), (0, 0, 0), 20)
    assert near(found.getpixel((found.width - x, found.height - y)), (255, 255, 255), 20)


def test_see_through_parts_print_white_and_are_told(put):
    for mode, fill, black in (("RGBA", (0, 0, 0, 0), (0, 0, 0, 255)), ("LA", (0, 0), (0, 255))):
        taken = put(f"{mode}.png", halves(mode, fill, black))
        image = opened(taken)
        assert near(image.getpixel((10, 50)), (255, 255, 255))
        assert near(image.getpixel((190, 50)), (0, 0, 0))
        assert codes(taken) == [("see-through-photograph", "warning")]


def test_a_palette_with_a_see_through_colour(put):
    image = halves("P", 0, 1)
    image.putpalette([255, 0, 0, 0, 0, 255] + [0] * 762)
    taken = put("palette.png", image, transparency=0)
    assert near(opened(taken).getpixel((10, 50)), (255, 255, 255))
    assert codes(taken) == [("see-through-photograph", "warning")]


def test_sixteen_bits_become_eight(put):
    # 0, a half and all of 65535 are black, mid grey and white (arithmetic)
    image = Image.new("I;16", (3, 1))
    for x, value in enumerate((0, 32768, 65535)):
        image.putpixel((x, 0), value)
    for name in ("deep.png", "deep.tif"):
        found = opened(put(name, image))
        assert near(found.getpixel((0, 0)), (0,))
        assert near(found.getpixel((1, 0)), (128,))
        assert near(found.getpixel((2, 0)), (255,))


def test_inks_become_rgb_and_are_told(put):
    taken = put("inks.jpg", halves("CMYK", (0, 0, 0, 0), (0, 0, 0, 255)), quality=95)
    image = opened(taken)
    assert image.mode == "RGB"
    assert near(image.getpixel((10, 50)), (255, 255, 255), 8)
    assert near(image.getpixel((190, 50)), (0, 0, 0), 45), "black ink alone"
    assert codes(taken) == [("cmyk-photograph", "warning")]


def test_grey_and_black_and_white_stay_grey(put):
    assert opened(put("grey.jpg", halves("L", 20, 230))).mode == "L"
    assert opened(put("fax.tif", halves("1", 0, 1))).mode == "L"


def test_of_several_pictures_the_first_is_printed(put):
    first, second = Image.new("RGB", (30, 20), "red"), Image.new("RGB", (30, 20), "blue")
    for name in ("pages.tif", "moving.png"):
        taken = put(name, first, save_all=True, append_images=[second])
        assert near(opened(taken).getpixel((5, 5)), (255, 0, 0))
        assert codes(taken) == [("several-pictures", "warning")]


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(width, height):
    """A PNG that says it is so large, after the PNG specification, 11.2.2: no pixel follows."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", b"") + chunk(b"IEND", b"")


@pytest.mark.parametrize("size", [(10_001, 10_000), (60_000, 60_000), (2_000_000_000, 2)])
def test_over_a_hundred_megapixels_is_refused_without_being_opened(put, size):
    assert MOST_PIXELS == 100_000_000
    assert codes(put("huge.png", data=png(*size))) == [("photograph-too-large", "error")]


@pytest.mark.parametrize(
    ("name", "data", "code"),
    [
        ("empty.jpg", b"", "broken-photograph"),
        ("cut.png", png(20, 20)[:40], "broken-photograph"),
        ("hollow.png", png(20, 20), "broken-photograph"),
        ("cut.jpg", b"\xff\xd8\xff\xe0\x00\x10JFIF\x00", "broken-photograph"),
        ("text.jpg", b"piece: no picture", "foreign-photograph"),
        ("line.svg", b"<?xml version='1.0'?><svg xmlns='x'/>", "foreign-photograph"),
        ("phone.heic", b"\0\0\0\x18ftypheic\0\0\0\0", "foreign-photograph"),
        ("web.webp", b"RIFF\x10\0\0\0WEBPVP8 ", "foreign-photograph"),
        ("sheet.pdf", b"%PDF-1.7\n", "foreign-photograph"),
    ],
)
def test_broken_and_foreign_files_are_told_apart(put, name, data, code):
    taken = put(name, data=data)
    assert codes(taken) == [(code, "error")]
    assert taken.photograph is None
    told = taken.diagnostics[0]
    assert told.path == PLACE
    assert told.given == name
    assert told.hint


def test_a_gif_is_named_even_as_a_jpg(put, tmp_path):
    Image.new("P", (4, 4)).save(tmp_path / "a.gif")
    taken = put("a.jpg", data=(tmp_path / "a.gif").read_bytes())
    assert codes(taken) == [("foreign-photograph", "error")]
    assert "GIF" in taken.diagnostics[0].message


def test_a_picture_that_ends_too_early(put, tmp_path):
    Image.effect_noise((400, 300), 80).save(tmp_path / "whole.jpg")
    data = (tmp_path / "whole.jpg").read_bytes()
    assert codes(put("half.jpg", data=data[: len(data) // 2])) == [("broken-photograph", "error")]


def test_missing_folders_and_links_that_lead_out(put, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    Image.new("RGB", (4, 4)).save(tmp_path / "secret.png")
    (home / "link.png").symlink_to(tmp_path / "secret.png")
    (home / "out").symlink_to(tmp_path)
    (home / "folder.png").mkdir()
    for name, code in (
        ("none.png", "no-such-photograph"),
        ("folder.png", "no-such-photograph"),
        ("x\0y.png", "no-such-photograph"),
        ("n" * 300 + ".png", "no-such-photograph"),
        ("link.png", "photograph-outside"),
        ("out/secret.png", "photograph-outside"),
        ("../secret.png", "photograph-outside"),
        (str(tmp_path / "secret.png"), "photograph-outside"),
    ):
        assert codes(take(home, name, FRAME, PLACE)) == [(code, "error")], name


def test_the_same_file_gives_the_same_bytes_and_no_warning_is_left_over(put):
    image = Image.effect_noise((500, 300), 60).convert("RGB")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        one, two = put("a.png", image), put("a.png", image)
    assert one == two
