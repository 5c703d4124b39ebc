"""Boxes around and beside other boxes: a frame with a title, a picture with text to its right."""

from __future__ import annotations

from sheetgen.draw.boxes import EPS, Box
from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import millimetres
from sheetgen.draw.shapes import draw_picture
from sheetgen.draw.stack import Stack
from sheetgen.layout.shapes import Picture

PAD = 3.0
"""Between a frame and what is in it, mm."""
LIGHT = millimetres(0.6)
HEAVY = millimetres(1.5)
"""Line widths of frames, mm (0.6 and 1.5 points)."""


class FramedBox(Box):
    """Boxes in a frame; parted only if they are higher than a page, each part with its frame."""

    above = 3.0
    below = 3.0

    def __init__(self, inside: Stack, width: float, heavy: bool) -> None:
        """``width`` is the outer width; ``inside`` is made for ``width - 2 * PAD``."""
        self._inside = inside
        self._width = width
        self._heavy = heavy
        self.true_scale = inside.true_scale
        self.height = inside.height + 2 * PAD

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        line = HEAVY if self._heavy else LIGHT
        # The line lies inside the box, so that a frame as wide as the page keeps its margin.
        pen.rects([(x + line / 2, y + line / 2, self._width - line, self.height - line)], line)
        self._inside.draw(pen, x + PAD, y + PAD)

    def least(self, page: float) -> float:
        """All of it, if it fits on a page."""
        if self.height <= page + EPS:
            return self.height
        return self._inside.least(page - 2 * PAD) + 2 * PAD

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """Part only what is higher than a page."""
        if self.height <= page + EPS:
            return None
        parts = self._inside.split(room - 2 * PAD, page - 2 * PAD)
        if parts is None:
            return None
        first, rest = (FramedBox(part, self._width, self._heavy) for part in parts)
        return first, rest

    def described(self) -> str:
        """Name what is inside."""
        return self._inside.described()


class BesideBox(Box):
    """A picture with boxes to the right of it, tops level; parted only if higher than a page."""

    above = 2.0
    below = 3.0

    def __init__(self, picture: Picture | None, inside: Stack, indent: float) -> None:
        """``indent`` is where the boxes start; the rest of a parted one has no picture."""
        self._picture = picture
        self._inside = inside
        self._indent = indent
        self.true_scale = inside.true_scale or (picture is not None and picture.true_scale)
        self.height = max(inside.height, picture.height if picture else 0.0)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        if self._picture is not None:
            draw_picture(pen, self._picture, x, y)
        self._inside.draw(pen, x + self._indent, y)

    def least(self, page: float) -> float:
        """All of it, if it fits on a page; else at least the picture."""
        if self.height <= page + EPS:
            return self.height
        return max(self._picture.height if self._picture else 0.0, self._inside.least(page))

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """Part only what is higher than a page; the picture stays on the first part."""
        tall = self._picture.height if self._picture else 0.0
        if self.height <= page + EPS or tall > room + EPS:
            return None
        parts = self._inside.split(room, page)
        if parts is None:
            return None
        return (
            BesideBox(self._picture, parts[0], self._indent),
            BesideBox(None, parts[1], self._indent),
        )

    def described(self) -> str:
        """Name the picture, or else what is inside."""
        if self._picture is not None:
            return f"picture {self._picture.name or 'without a name'!r}"
        return self._inside.described()
