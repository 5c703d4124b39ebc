"""Flowables around others: a frame with a title, a picture with text to its right."""

from __future__ import annotations

from typing import Any

from sheetgen.draw.boxes import Drawn, PictureBox
from sheetgen.draw.scale import POINTS, millimetres
from sheetgen.draw.stack import FUZZ, Stack

PAD = 3.0
"""Between a frame and what is in it, mm."""
_LIGHT = millimetres(0.6)
_HEAVY = millimetres(1.5)
"""Line widths of frames, mm (0.6 and 1.5 points)."""


class FramedBox(Drawn):
    """Flowables in a frame; parted only if higher than a page, each part with its frame."""

    def __init__(self, inside: Stack, heavy: bool, page: float) -> None:
        """``page`` is the height of an empty page in points."""
        super().__init__()
        self._inside = inside
        self._heavy = heavy
        self.page = page
        self.spaceBefore = self.spaceAfter = 3.0 * POINTS

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """The inside and the frame around it."""
        _, high = self._inside.wrapOn(self.canv, width - 2 * PAD * POINTS, room)
        self.width, self.height = width, high + 2 * PAD * POINTS
        return self.width, self.height

    def draw(self) -> None:
        """Draw the frame and what is in it."""
        line = _HEAVY if self._heavy else _LIGHT
        width, height = millimetres(self.width), millimetres(self.height)
        # The line lies inside the box, so that a frame as wide as the page keeps its margin.
        self.pen.rects([(line / 2, line / 2, width - line, height - line)], line)
        self._inside.drawOn(self.canv, PAD * POINTS, PAD * POINTS)

    def split(self, width: float, room: float) -> list[Any]:
        """Part only what is higher than a page."""
        if self.height <= self.page + FUZZ:
            return []
        rim = 2 * PAD * POINTS
        self._inside.page = self.page - rim
        parts = self._inside.splitOn(self.canv, width - rim, room - rim)
        return [FramedBox(part, self._heavy, self.page) for part in _two(parts, self._inside)]


def _two(parts: list[Any], whole: Stack) -> list[Stack]:
    """The first part and all others as one; nothing if the whole was not parted.

    The first part alone where the rest was only empty room, which falls away at a page's end.
    """
    if not parts or parts[0] is whole:
        return []
    rest = [Stack(parts[1:], whole.page)] if len(parts) > 1 else []
    return [parts[0], *rest]


class BesideBox(Drawn):
    """A picture with flowables to the right of it, tops level; parted only if above a page."""

    def __init__(
        self, picture: PictureBox | None, inside: Stack, indent: float, page: float
    ) -> None:
        """``indent`` (mm) is where the flowables start; the rest of a parted one has no picture."""
        super().__init__()
        self._picture, self._inside, self._indent = picture, inside, indent
        self.page = page
        self.spaceBefore, self.spaceAfter = 2.0 * POINTS, 3.0 * POINTS

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """As high as the higher of the two."""
        _, high = self._inside.wrapOn(self.canv, width - self._indent * POINTS, room)
        self.width, self.height = width, max(high, self._tall)
        return self.width, self.height

    def draw(self) -> None:
        """Draw the picture and what is beside it."""
        if self._picture is not None:
            self._picture.drawOn(self.canv, 0.0, self.height - self._tall)
        self._inside.drawOn(self.canv, self._indent * POINTS, self.height - self._inside.height)

    def split(self, width: float, room: float) -> list[Any]:
        """Part only what is higher than a page; the picture stays on the first part."""
        if self.height <= self.page + FUZZ or self._tall > room:
            return []
        self._inside.page = self.page
        parts = self._inside.splitOn(self.canv, width - self._indent * POINTS, room)
        pictures = (self._picture, None)
        return [
            BesideBox(picture, part, self._indent, self.page)
            for picture, part in zip(pictures, _two(parts, self._inside), strict=False)
        ]

    @property
    def _tall(self) -> float:
        return float(self._picture.height) if self._picture is not None else 0.0
