"""Photographs: takes the name of a picture's file, gives it ready for paper, or why it is not.

Only JPEG, PNG and TIFF are opened, whatever a file is called. What comes out is turned upright by
the camera's own note (EXIF), is no larger than the frame at :data:`PER_INCH`, has 8 bits a channel,
RGB or grey, and nothing see-through: as PDF/A-3 (ISO 19005-3) lets it be printed.
"""

from __future__ import annotations

import io
import os
import warnings
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from sheetgen.diagnostics import Diagnostic, Severity
from sheetgen.diagnostics import Path as Place

FORMATS = ("JPEG", "PNG", "TIFF")
MOST_PIXELS = 100_000_000
"""100 megapixels; a larger one is a scan for print or a trap, and would fill the memory."""
Image.MAX_IMAGE_PIXELS = MOST_PIXELS
MOST_BYTES = 500_000_000
PER_INCH = 300
"""Pixels an inch at the size of the frame: what a home printer shows (common practice)."""
_QUALITY = 90
_WHITE = (255, 255, 255)
_WIDE_MODES = ("I", "F", "I;16", "I;16B", "I;16L", "I;16N")
"""More than 8 bits a pixel in one channel of grey."""
_SEE_THROUGH = ("RGBA", "LA", "PA", "RGBa", "La")


@dataclass(frozen=True, slots=True)
class Photograph:
    """A picture ready for paper: the bytes of a JPEG or PNG, ``width`` by ``height`` pixels."""

    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of one file: ``photograph`` is None whenever one of the diagnostics is an error."""

    photograph: Photograph | None
    diagnostics: tuple[Diagnostic, ...]


def take(folder: Path, name: str, most: tuple[float, float], place: Place) -> Taken:
    """The picture ``name`` below ``folder``, to fit ``most`` (width and height, mm).

    What is wrong is told of ``place`` in the description. Links that lead out of the folder are
    not followed.
    """
    told = _Told(place, name)
    try:
        file = Path(os.path.realpath(folder / name, strict=True))
        if not file.is_relative_to(os.path.realpath(folder)):
            return told.wrong(
                "photograph-outside",
                "this leads out of the folder of the description by a link",
                "put a copy beside the description",
            )
        if not file.is_file():
            return told.wrong("no-such-photograph", "this is not a file", "name one picture")
        if file.stat().st_size > MOST_BYTES:
            return told.wrong("photograph-too-large", "the file has over 500 MB", _SMALLER)
        data = file.read_bytes()
    except FileNotFoundError:
        return told.wrong(
            "no-such-photograph",
            "there is no such file",
            "put the picture beside the description, or take it out of “photographs”",
        )
    except (OSError, ValueError):
        return told.wrong(
            "no-such-photograph", "it cannot be opened", "look at its name and its rights"
        )
    return _opened(data, most, told)


_SMALLER = "save it smaller: 3600 pixels along its longer side print as well"
_ANEW = "open it in a program for pictures and save it as JPEG or PNG"


class _Told:
    """What is said of one file."""

    def __init__(self, place: Place, name: str) -> None:
        self.place, self.name = place, name
        self.diagnostics: list[Diagnostic] = []

    def say(self, severity: Severity, code: str, message: str, hint: str) -> None:
        self.diagnostics.append(
            Diagnostic(
                code,
                severity,
                message,
                self.place,
                given=self.name,
                allowed="JPEG, PNG or TIFF, up to 100 megapixels" if severity == "error" else None,
                hint=hint,
            )
        )

    def wrong(self, code: str, message: str, hint: str) -> Taken:
        """An error, and so no picture."""
        self.say("error", code, message, hint)
        return Taken(None, tuple(self.diagnostics))


def _opened(data: bytes, most: tuple[float, float], told: _Told) -> Taken:
    """Decode the bytes; whatever a broken file makes Pillow raise is told, not raised."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data), formats=FORMATS)
            if image.width * image.height > MOST_PIXELS:
                return _huge(image.width * image.height, told)
            frames = getattr(image, "n_frames", 1)
            if frames > 1:
                told.say(
                    "warning",
                    "several-pictures",
                    f"{frames} pictures in one file: the first is printed",
                    "save the one that you mean as a file of its own",
                )
            return Taken(_ready(image, most, told), tuple(told.diagnostics))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return _huge(None, told)
    except UnidentifiedImageError:
        return _unknown(data, told)
    except MemoryError:
        return told.wrong("photograph-too-large", "there is not enough memory for it", _SMALLER)
    except Exception:  # Pillow raises nearly anything for a broken file
        return told.wrong("broken-photograph", "the picture is broken and cannot be read", _ANEW)


def _huge(pixels: int | None, told: _Told) -> Taken:
    many = "far over 100" if pixels is None else f"{pixels / 1e6:.0f}"
    return told.wrong("photograph-too-large", f"a picture of {many} megapixels", _SMALLER)


_OTHERS = (
    (b"GIF8", 0, "GIF"),
    (b"ftyphei", 4, "HEIC"),
    (b"ftypmif1", 4, "HEIC"),
    (b"ftypavif", 4, "AVIF"),
    (b"WEBP", 8, "WebP"),
    (b"BM", 0, "BMP"),
    (b"%PDF", 0, "PDF"),
)
"""Bytes by which a file of another format is known, where they stand, and its name."""


def _unknown(data: bytes, told: _Told) -> Taken:
    """A file that is none of the three: named if it can be, else broken if it should be one."""
    if not data:
        return told.wrong("broken-photograph", "the file is empty", _ANEW)
    name = next((n for mark, at, n in _OTHERS if data[at : at + len(mark)] == mark), "")
    name = name or ("SVG" if b"<svg" in data[:1000] else "")
    if name:
        return told.wrong("foreign-photograph", f"this is {name}, which is not printed", _ANEW)
    if data.startswith((b"\xff\xd8", b"\x89PNG", b"II*\0", b"MM\0*")):
        return told.wrong("broken-photograph", "the picture is broken and cannot be read", _ANEW)
    return told.wrong("foreign-photograph", "this is no picture that can be printed", _ANEW)


def _ready(image: Image.Image, most: tuple[float, float], told: _Told) -> Photograph:
    """Upright, scaled down, flat, 8 bits, RGB or grey; encoded."""
    lossless = image.format == "PNG"
    profile = image.info.get("icc_profile")
    if image.format == "JPEG":  # decodes at an eighth, a quarter or a half where that is enough
        largest = max(_pixels(most))
        image.draft(None, (2 * largest, 2 * largest))
    image.load()
    image = ImageOps.exif_transpose(image)
    image = _plain(image, profile, told)
    wide, high = _pixels(most)
    scale = min(wide / image.width, high / image.height, 1.0)
    if scale < 1:
        size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
        image = image.resize(size, Image.Resampling.LANCZOS)
    return Photograph(image.width, image.height, _encoded(image, lossless))


def _pixels(most: tuple[float, float]) -> tuple[int, int]:
    """Pixels that ``most`` (mm) has at :data:`PER_INCH`; an inch is 25.4 mm exactly.

    >>> _pixels((25.4, 50.8))
    (300, 600)
    """
    wide, high = (max(1, round(mm / 25.4 * PER_INCH)) for mm in most)
    return wide, high


def _plain(image: Image.Image, profile: bytes | None, told: _Told) -> Image.Image:
    """The picture in RGB or grey of 8 bits, nothing see-through."""
    if image.mode in _WIDE_MODES:
        return _eight_bits(image)
    if image.mode in _SEE_THROUGH or "transparency" in image.info:
        told.say(
            "warning",
            "see-through-photograph",
            "see-through parts of the picture print white",
            "paper shows nothing through: save it without them if that is not meant",
        )
        layer = image.convert("RGBA")
        image = Image.new("RGB", layer.size, _WHITE)
        image.paste(layer, mask=layer.getchannel("A"))
        return image
    if image.mode == "CMYK" and profile is None:
        told.say(
            "warning",
            "cmyk-photograph",
            "the picture is in inks (CMYK) without a profile: its colours are only near",
            "save it as RGB in a program for pictures",
        )
    if profile and image.mode in ("RGB", "CMYK"):
        image = _to_srgb(image, profile)
    if image.mode in ("L", "1"):
        return image.convert("L")
    return image.convert("RGB")


def _eight_bits(image: Image.Image) -> Image.Image:
    """Grey of more than 8 bits as 8 bits: 0 stays black, white is 65535 or the lightest there is.

    A lighter one than 65535 can only be in a picture of 32 bits, whose white is not known.
    """
    _, lightest = image.convert("F").getextrema()
    white = 65535.0 if image.mode != "F" else 1.0
    assert isinstance(lightest, float), "one channel has one lightest"
    step = 255.0 / max(white, lightest)
    return image.convert("F").point(lambda value: value * step + 0.0).convert("L")


def _to_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    """Colours by the picture's own profile; as they are if that cannot be read."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        target = ImageCms.createProfile("sRGB")
        found = ImageCms.profileToProfile(image, source, target, outputMode="RGB")
        return image if found is None else found
    except (ImageCms.PyCMSError, OSError, ValueError):
        return image


def _encoded(image: Image.Image, lossless: bool) -> bytes:
    """As PNG where it was one and that is no larger than as JPEG; else as JPEG.

    No note of the camera goes along: neither place nor maker.
    """
    jpeg = io.BytesIO()
    bare = Image.new(image.mode, image.size)
    bare.paste(image)
    bare.save(jpeg, "JPEG", quality=_QUALITY, subsampling=0)
    if lossless:
        png = io.BytesIO()
        bare.save(png, "PNG", optimize=False)
        if png.tell() <= jpeg.tell():
            return png.getvalue()
    return jpeg.getvalue()
