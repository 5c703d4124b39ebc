"""The flowables that are ours: pictures at true scale, steps with a tick box, lines to write on.

Platypus counts in points and its y runs up; everything else here is in mm, y down.
"""

from __future__ import annotations

from typing import Any

from reportlab.platypus import Flowable

from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import POINTS, millimetres
from sheetgen.draw.shapes import draw_picture
from sheetgen.draw.stack import FUZZ
from sheetgen.draw.text import Text
from sheetgen.layout.shapes import Picture

TICK = 5.0
"""Side of a box to tick, mm."""
TICK_GAP = 2.5
"""Between a tick box and what stands beside it, mm."""
_TICK_LINE = 0.35
_WRITING_LINE = 0.2
_WRITING = 9.0
"""Distance of lines to write on, mm."""


class LayoutError(ValueError):
    """Something that cannot be put on the paper; ``hint`` where larger paper is no cure."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.hint = hint


class Drawn(Flowable):
    """A flowable with a pen of its own."""

    @property
    def pen(self) -> Pen:
        """Counts from the top left corner."""
        return Pen(self.canv, millimetres(self.height))


class HeadingText(Text):
    """A heading: stays with what follows; with a ``bookmark`` the reader's contents list it."""

    opens = True
    keepWithNext = 1  # noqa: N815
    bookmark = ""

    def draw(self) -> None:
        """Draw, and leave the bookmark."""
        if self.bookmark:
            self.canv.mark_part(self.bookmark, self.height)
        super().draw()

    def split(self, width: float, room: float) -> list[Any]:
        """Part between lines; the first part has the bookmark."""
        parts: list[Any] = super().split(width, room)
        if parts:
            parts[0].bookmark = self.bookmark
        return parts


class PictureBox(Drawn):
    """A picture at exactly its size, in one piece.

    One at true scale is drawn ``stretch`` times as large, for a printer that makes it smaller.
    """

    def __init__(self, picture: Picture, stretch: float = 1.0) -> None:
        super().__init__()
        self._picture = picture
        self._stretch = stretch if picture.true_scale else 1.0
        self.width = picture.width * self._stretch * POINTS
        self.height = picture.height * self._stretch * POINTS

    def draw(self) -> None:
        """Draw, and have the page prove its scale if the picture is at scale."""
        if self._picture.true_scale:
            self.canv.true_scale = True
        if self._stretch != 1.0:
            # The flowable has the canvas to itself: what is changed here ends with it.
            self.canv.scale(self._stretch, self._stretch)
        draw_picture(Pen(self.canv, self._picture.height), self._picture, 0.0, 0.0)


def tick_drops(leading: float) -> tuple[float, float]:
    """How far down a tick box and the text beside it start, mm, for their middles to be level.

    ``leading`` is that of the text, points.
    """
    higher = millimetres(leading) - TICK
    return max(0.0, higher / 2), max(0.0, -higher / 2)


class TickBox(Drawn):
    """A box to tick."""

    def __init__(self) -> None:
        super().__init__()
        self.width = self.height = TICK * POINTS

    def draw(self) -> None:
        """Draw the box."""
        draw_tick(self.pen, 0.0)


def draw_tick(pen: Pen, y: float) -> None:
    """A tick box at the left edge."""
    pen.rects([(0.0, y, TICK, TICK)], _TICK_LINE)


class StepBox(Drawn):
    """A tick box, a number if there is one, and a text with a hanging indent.

    The middle of the tick box is level with the middle of the first line.
    """

    def __init__(
        self, text: Any, number: Any, indent: float, page: float, ticked: bool = True
    ) -> None:
        """``indent`` (mm) is where the paragraph ``text`` starts; ``page`` in points."""
        super().__init__()
        self._text, self._number, self._indent = text, number, indent
        self._ticked = ticked
        self._tick, self._drop = tick_drops(text.style.leading) if ticked else (0.0, 0.0)
        self.page = page
        self.spaceAfter = 1.8 * POINTS

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """Measure the text; one line at least."""
        _, high = self._text.wrap(width - self._indent * POINTS, room)
        high = max(high, self._text.style.leading)
        tick = TICK * POINTS if self._ticked else 0.0
        self.width, self.height = width, max(tick, self._drop * POINTS + high)
        return self.width, self.height

    def draw(self) -> None:
        """Draw box, number and text."""
        if self._ticked:
            draw_tick(self.pen, self._tick)
        top = self.height - self._drop * POINTS
        if self._number is not None:
            _, high = self._number.wrap(self.width, self.height)
            self._number.drawOn(self.canv, (TICK + TICK_GAP) * POINTS, top - high)
        self._text.drawOn(self.canv, self._indent * POINTS, top - self._text.height)

    def split(self, width: float, room: float) -> list[Any]:
        """Part the text of a long step; the rest has no tick box of its own.

        What is done in one go should not have to be read on two pages.
        """
        if self.height <= self.page / 4 + FUZZ:
            return []
        drop = self._drop * POINTS
        parts = self._text.split(width - self._indent * POINTS, room - drop)
        if len(parts) < 2:
            return []
        first = StepBox(parts[0], self._number, self._indent, self.page, self._ticked)
        return [first, StepBox(parts[1], None, self._indent, self.page, ticked=False)]


class WritingBox(Drawn):
    """Empty lines to write on; the lowest is the lower edge."""

    def __init__(self, count: int) -> None:
        super().__init__()
        self._count = count
        self.spaceAfter = 4.0 * POINTS

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """All the width."""
        self.width, self.height = width, self._count * _WRITING * POINTS
        return self.width, self.height

    def draw(self) -> None:
        """Draw the lines."""
        right = millimetres(self.width)
        places = [(i + 1) * _WRITING for i in range(self._count)]
        self.pen.segments([(0.0, y, right, y) for y in places], _WRITING_LINE)

    def split(self, width: float, room: float) -> list[Any]:
        """Part between lines, two at least before."""
        fits = int(room / (_WRITING * POINTS))
        return [WritingBox(fits), WritingBox(self._count - fits)] if 2 <= fits < self._count else []
