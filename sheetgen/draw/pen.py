"""The one place that speaks to a reportlab canvas: millimetres, y down, typed.

Shapes of one style go into one path, and what comes again and again is stored once: a chart of ten
thousand cells stays small.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO
from typing import Any

from reportlab.lib.utils import ImageReader

from sheetgen.draw.canvas import SheetCanvas
from sheetgen.draw.fonts import font_name, printable
from sheetgen.draw.ink import Ink
from sheetgen.draw.scale import points
from sheetgen.layout.shapes import BLACK

Segment = tuple[float, float, float, float]
Moves = Sequence[Sequence[str | float]]


class Pen:
    """Draws on ``canvas``, in a part of it that is ``height`` mm high: a page, a flowable."""

    def __init__(self, canvas: SheetCanvas, height: float) -> None:
        self._canvas = canvas
        self._height = height
        self._left = 0.0
        self._top = 0.0
        self._ink = Ink(canvas)

    @contextmanager
    def origin(self, x: float, y: float) -> Iterator[None]:
        """Count coordinates from (x, y)."""
        before = self._left, self._top
        self._left += x
        self._top += y
        try:
            yield
        finally:
            self._left, self._top = before

    def segments(
        self,
        segments: Iterable[Segment],
        width: float = 0.25,
        dash: tuple[float, ...] = (),
        colour: str = BLACK,
    ) -> None:
        """Straight lines in one style, one path for all of them; ``width`` and ``dash`` in mm."""
        self._ink.stroke(width, dash, colour)
        x, y = self._x, self._y
        self._canvas.lines([(x(a), y(b), x(c), y(d)) for a, b, c, d in segments])

    def dots(self, centres: Iterable[tuple[float, float]], radius: float) -> None:
        """Black dots as one path: round-ended strokes take a tenth of the bytes of circles."""
        self._canvas.setLineCap(1)
        # Not quite of length 0: some printers leave those out.
        self.segments(((x - 0.01, y, x + 0.01, y) for x, y in centres), 2 * radius)
        self._canvas.setLineCap(0)

    def rects(
        self,
        rects: Iterable[Segment],
        width: float = 0.25,
        dash: tuple[float, ...] = (),
        colour: str | None = None,
    ) -> None:
        """Rectangles (x, y, w, h) as one path, outlined if ``width`` > 0, filled if ``colour``.

        Outlined *and* filled ones are painted one after the other, so that a later one hides what
        it lies on, as it would alone.
        """
        self._ink.paint(width, dash, BLACK, colour)
        stroke, fill = int(width > 0), int(colour is not None)
        boxes = [(self._x(x), self._y(y + h), points(w), points(h)) for x, y, w, h in rects]
        if stroke and fill:
            for box in boxes:
                self._canvas.rect(*box, stroke=1, fill=1)
        elif stroke or fill:
            path = self._canvas.beginPath()
            for box in boxes:
                path.rect(*box)
            self._canvas.drawPath(path, stroke=stroke, fill=fill, fillMode=1)

    def rounded(
        self, box: Segment, radius: float, width: float, dash: tuple[float, ...], colour: str | None
    ) -> None:
        """A rectangle (x, y, w, h) with round corners."""
        x, y, w, h = box
        self._ink.paint(width, dash, BLACK, colour)
        self._canvas.roundRect(
            self._x(x),
            self._y(y + h),
            points(w),
            points(h),
            points(min(radius, w / 2, h / 2)),
            stroke=int(width > 0),
            fill=int(colour is not None),
        )

    def circle(self, cx: float, cy: float, r: float, width: float, colour: str | None) -> None:
        """A circle, outlined if ``width`` > 0 and filled if ``colour``."""
        self._ink.paint(width, (), BLACK, colour)
        self._canvas.circle(
            self._x(cx), self._y(cy), points(r), stroke=int(width > 0), fill=int(colour is not None)
        )

    def path(
        self,
        moves: Moves,
        width: float,
        dash: tuple[float, ...] = (),
        line: str = BLACK,
        colour: str | None = None,
    ) -> None:
        """Pen moves as ``layout.shapes.Path`` has them; an unknown move is a ValueError."""
        self._ink.paint(width, dash, line, colour)
        if width > 0 or colour is not None:
            self._canvas.drawPath(
                self._path(moves), stroke=int(width > 0), fill=int(colour is not None), fillMode=1
            )

    @contextmanager
    def clipped(self, moves: Moves) -> Iterator[None]:
        """Draw only inside the outline of ``moves``."""
        with self._ink.saved():
            self._canvas.clipPath(self._path(moves), stroke=0, fill=0, fillMode=1)
            yield

    def texts(
        self, texts: Iterable[tuple[float, float, str]], size: float, bold: bool = False
    ) -> None:
        """Black one-line texts (x, y of the base line, text), ``size`` in points."""
        self._ink.fill(BLACK)
        block = self._canvas.beginText()
        block.setFont(font_name(bold), size)
        for x, y, text in texts:
            block.setTextOrigin(self._x(x), self._y(y))
            block.textOut(printable(text))
        self._canvas.drawText(block)

    def turned_text(
        self, x: float, y: float, text: str, size: float, bold: bool, turn: float
    ) -> None:
        """One text turned by ``turn`` degrees anticlockwise about the start of its base line."""
        self._ink.fill(BLACK)
        block = self._canvas.beginText()
        block.setFont(font_name(bold), size)
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        block.setTextTransform(cos, sin, -sin, cos, self._x(x), self._y(y))
        block.textOut(printable(text))
        self._canvas.drawText(block)

    def photograph(self, box: Segment, data: bytes) -> None:
        """The bytes of a JPEG or PNG stretched into (x, y, w, h)."""
        x, y, w, h = box
        image = ImageReader(BytesIO(data))
        self._canvas.drawImage(image, self._x(x), self._y(y + h), points(w), points(h))

    def stamp(self, key: Hashable, box: Segment, draw: Callable[[Pen], None]) -> None:
        """Place at (x, y) of ``box`` (x, y, w, h) a drawing that is stored once per ``key``.

        ``draw`` draws it with a pen whose origin is its own top left corner; what lies outside
        w by h is cut off.
        """
        x, y, w, h = box
        name, fresh = self._canvas.stored(key)
        if fresh:
            self._canvas.beginForm(name, 0, 0, points(w), points(h))
            draw(Pen(self._canvas, h))
            self._canvas.endForm()
        with self._ink.saved():
            self._canvas.translate(self._x(x), self._y(y + h))
            self._canvas.doForm(name)

    def _x(self, x: float) -> float:
        return points(self._left + x)

    def _y(self, y: float) -> float:
        return points(self._height - self._top - y)

    def _path(self, moves: Moves) -> Any:
        path = self._canvas.beginPath()
        for kind, *numbers in moves:
            values = [float(n) for n in numbers]
            points = [self._y(v) if i % 2 else self._x(v) for i, v in enumerate(values)]
            match kind:
                case "M":
                    path.moveTo(*points)
                case "L":
                    path.lineTo(*points)
                case "C":
                    path.curveTo(*points)
                case "Z":
                    path.close()
                case _:
                    raise ValueError(f"a path has no move {kind!r}")
        return path
