"""The two bundled faces: what a text measures, and which characters they cannot print.

DejaVu Sans Condensed covers Latin with macrons, Greek and Cyrillic, and is embedded in every file;
the fourteen fonts that a PDF reader brings along are never used, as they cannot be embedded.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from pathlib import Path
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from sheetgen.draw.scale import millimetres

REGULAR = "SheetSans"
BOLD = "SheetSans-Bold"
_FOLDER = Path(__file__).resolve().parent / "fonts"
_FILES = {REGULAR: "DejaVuSansCondensed.ttf", BOLD: "DejaVuSansCondensed-Bold.ttf"}

CAP_HEIGHT = 0.729
"""Height of a capital as a share of the text size (OS/2 table of the bundled faces: 1493/2048)."""
DESCENT = 0.236
"""Depth below the base line as a share of the text size (hhea table: 483/2048)."""


def font_name(bold: bool) -> str:
    """The name under which a canvas and a paragraph know the face; registers it on first use."""
    name = BOLD if bold else REGULAR
    _face(name)
    return name


def register_family() -> None:
    """Have ``<b>`` in a paragraph find the bold face; without this it is silently regular."""
    regular, bold = font_name(bold=False), font_name(bold=True)
    pdfmetrics.registerFontFamily(regular, regular, bold, regular, bold)


def text_width(text: str, size_pt: float, bold: bool = False) -> float:
    """Width in mm of one line of ``text`` set in ``size_pt`` points; needs no document.

    Measures what is printed, that is ``printable(text)``.
    """
    face = _face(BOLD if bold else REGULAR)
    return millimetres(float(face.stringWidth(printable(text), size_pt)))


def missing_characters(text: str) -> tuple[str, ...]:
    """The characters of ``text`` for which the faces have no shape, each once, sorted."""
    return tuple(sorted({c for c in one_line(text) if not _has_shape(c)}))


@lru_cache(maxsize=4096)
def printable(text: str) -> str:
    r"""``text`` as it goes to paper: :func:`one_line`, and what has no shape as its number.

    A number in brackets can be looked up; the empty box of the faces says nothing.

    >>> printable("a\tb\u7d79")
    'a b[U+7D79]'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(c if _has_shape(c) else f"[U+{ord(c):04X}]" for c in one_line(text))


def one_line(text: str) -> str:
    r"""``text`` composed and on one line.

    Accents are composed (NFC), as the faces place a loose mark less well over its letter; line
    ends, tabs and control characters become spaces; soft hyphens, joiners and direction marks go;
    half a surrogate pair becomes the replacement character.

    >>> one_line("a\tb\x00c")
    'a b c'
    >>> one_line("e\u0301") == "\xe9"
    True
    """
    return "".join(_in_line(c) for c in unicodedata.normalize("NFC", text))


def _has_shape(character: str) -> bool:
    """Both faces are asked, as the same name stands in bold in the header."""
    return character == " " or all(
        ord(character) in _face(name).face.charToGlyph for name in (REGULAR, BOLD)
    )


def _in_line(character: str) -> str:
    if character in "\ufffe\uffff":  # may not stand in XML, nor so in what a file says of itself
        return "\ufffd"
    match unicodedata.category(character):
        case "Cc" | "Zl" | "Zp":
            return " "
        case "Cf":
            return ""
        case "Cs":
            return "�"
    return character


class _Face(TTFont):
    """Remembers how wide a word is, as the same words come again and again."""

    @lru_cache(maxsize=20_000)  # noqa: B019  # there are two faces, and they stay
    def _thousandths(self, text: str) -> float:
        return float(super().stringWidth(text, 1000))

    def stringWidth(self, text: Any, size: float, encoding: str = "utf8") -> float:  # noqa: N802
        """Width in points, ``size`` points high."""
        if isinstance(text, bytes):
            text = text.decode(encoding)
        return 0.001 * size * self._thousandths(text)


@lru_cache(maxsize=2)
def _face(name: str) -> Any:
    # Parsing a face takes 10 ms, so only the faces that are asked for are read, and once.
    face = _Face(name, str(_FOLDER / _FILES[name]), asciiReadable=0)
    pdfmetrics.registerFont(face)
    return face
