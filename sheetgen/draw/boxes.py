"""What a page is filled with: boxes of known height that can be drawn and, some of them, split.

Every box is made for a width that is known, so its height is known too; all lengths are mm.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence

from sheetgen.draw.pen import Pen
from sheetgen.draw.shapes import draw_picture
from sheetgen.draw.text import SetLine, Setting
from sheetgen.layout.shapes import Picture

EPS = 0.05
"""What may stick out without harm, mm: sums of rounded lengths never agree to the last digit."""
TICK = 5.0
"""Side of a box to tick, mm."""
TICK_GAP = 2.5
"""Between a tick box and what stands beside it, mm."""
TICK_LINE = 0.35
THIN = 0.15
RULE = 0.4
"""Line widths, mm."""
WRITING = 9.0
"""Distance of lines to write on, mm."""


class LayoutError(ValueError):
    """Something that cannot be put on the paper: a mistake in the layout, not of the user."""


class Box(ABC):
    """A piece of a page.

    ``above`` and ``below`` are the room that it wants around it; of two neighbours' wishes the
    larger counts, and at the top of a page none.
    """

    height: float = 0.0
    above: float = 0.0
    below: float = 0.0
    keeps_next = False
    true_scale = False

    @abstractmethod
    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""

    def least(self, page: float) -> float:
        """Height of the smallest first part that may stand at the foot of a page."""
        return self.height

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """A first part at most ``room`` high and the rest, or None if this is not to be split.

        ``page`` is the height of an empty page: what must stay whole is split only if it is
        higher than that.
        """
        return None

    def described(self) -> str:
        """What this is, for the message when it does not fit."""
        return "a block"


class TextBox(Box):
    """Set lines; never parted so that one line stands alone."""

    def __init__(
        self, lines: Sequence[SetLine], setting: Setting, flush_right: float | None = None
    ) -> None:
        """``flush_right`` is the width to whose right edge the lines are moved."""
        self._lines = tuple(lines)
        self._setting = setting
        self._flush_right = flush_right
        self.line = setting.line
        self.height = len(self._lines) * setting.line

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        for bold in (False, True):
            texts = [
                (x + self._indent(line) + piece.x, y + i * self._setting.line, piece.text)
                for i, line in enumerate(self._lines)
                for piece in line.pieces
                if piece.bold is bold and piece.text
            ]
            if texts:
                base = self._setting.base
                pen.texts(((a, b + base, text) for a, b, text in texts), self._setting.size, bold)

    def least(self, page: float) -> float:
        """Two lines, or all of a text of three."""
        count = len(self._lines)
        return (count if count <= 3 else 2) * self._setting.line

    def split(self, room: float, page: float) -> tuple[TextBox, TextBox] | None:
        """Part between lines, two at least on either side unless the text is higher than a page."""
        count = len(self._lines)
        fits = int((room + EPS) / self._setting.line)
        if self.height <= page + EPS:
            fits = min(fits, count - 2)
            if count <= 3 or fits < 2:
                return None
        fits = min(fits, count - 1)
        if fits < 1:
            return None
        return self._part(0, fits), self._part(fits, count)

    def emptied(self) -> TextBox:
        """The same setting without a line, for a cell that is all on the page before."""
        return self._part(0, 0)

    def _part(self, start: int, end: int) -> TextBox:
        part = TextBox(self._lines[start:end], self._setting, self._flush_right)
        part.above, part.below = self.above, self.below
        return part

    def _indent(self, line: SetLine) -> float:
        return 0.0 if self._flush_right is None else self._flush_right - line.width


class HeadingBox(TextBox):
    """A heading: stays with what follows; with a ``title`` it is also a bookmark."""

    keeps_next = True

    def __init__(self, lines: Sequence[SetLine], setting: Setting, title: str | None) -> None:
        super().__init__(lines, setting)
        self._title = title

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw, and leave the bookmark if there is a title."""
        if self._title is not None:
            pen.bookmark(self._title, y)
        super().draw(pen, x, y)


def text_drop(line: float) -> float:
    """How far below the top of a tick box a text with lines of ``line`` starts beside it."""
    return max(0.0, (TICK - line) / 2)


def draw_tick(pen: Pen, x: float, y: float, line: float) -> None:
    """A tick box at (x, y), its middle level with that of a first line ``text_drop`` below y."""
    pen.rects([(x, y + max(0.0, (line - TICK) / 2), TICK, TICK)], TICK_LINE)


class StepBox(Box):
    """A tick box, a number if there is one, and a text with a hanging indent.

    The middle of the tick box is level with the middle of the first line.
    """

    below = 1.8

    def __init__(
        self, text: TextBox, number: TextBox | None, indent: float, ticked: bool = True
    ) -> None:
        """``text`` is set for the width less ``indent``."""
        self._text = text
        self._number = number
        self._indent = indent
        self._ticked = ticked
        self._drop = text_drop(text.line) if ticked else 0.0
        self.height = max(TICK if ticked else 0.0, self._drop + text.height)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        if self._ticked:
            draw_tick(pen, x, y, self._text.line)
        if self._number is not None:
            self._number.draw(pen, x + TICK + TICK_GAP, y + self._drop)
        self._text.draw(pen, x + self._indent, y + self._drop)

    def least(self, page: float) -> float:
        """All of a short step; the tick box and the first lines of a long one."""
        if self._is_short(page):
            return self.height
        return max(TICK if self._ticked else 0.0, self._drop + self._text.least(page))

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """Part the text of a long step; the rest has no tick box of its own."""
        if self._is_short(page):
            return None
        parts = self._text.split(room - self._drop, page - self._drop)
        if parts is None:
            return None
        first = StepBox(parts[0], self._number, self._indent, self._ticked)
        return first, StepBox(parts[1], None, self._indent, ticked=False)

    def _is_short(self, page: float) -> bool:
        # What is done in one go should not have to be read on two pages.
        return self.height <= page / 4


class PictureBox(Box):
    """A picture with a caption below it, in one piece."""

    def __init__(self, picture: Picture, caption: TextBox | None, gap: float = 1.5) -> None:
        self._picture = picture
        self._caption = caption
        self._gap = gap
        self.true_scale = picture.true_scale
        self.height = picture.height + (gap + caption.height if caption else 0.0)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        draw_picture(pen, self._picture, x, y)
        if self._caption is not None:
            self._caption.draw(pen, x, y + self._picture.height + self._gap)

    def described(self) -> str:
        """Name the picture."""
        return f"picture {self._picture.name or 'without a name'!r}"


class WritingBox(Box):
    """Empty lines to write on; the lowest is the lower edge."""

    def __init__(self, count: int, width: float) -> None:
        self._count = count
        self._width = width
        self.height = count * WRITING

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        places = [y + (i + 1) * WRITING for i in range(self._count)]
        if places:
            pen.segments([(x, place, x + self._width, place) for place in places], 0.2)

    def least(self, page: float) -> float:
        """Two lines."""
        return min(self._count, 2) * WRITING

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """Part between lines."""
        fits = int((room + EPS) / WRITING)
        if not 0 < fits < self._count:
            return None
        return WritingBox(fits, self._width), WritingBox(self._count - fits, self._width)
