"""The bars that prove the scale: exact, as they are the only proof that the printer kept it.

They stand on every page that has something at true scale. A bar is drawn ``stretch`` times as
long, for a printer that makes it shorter.
"""

from __future__ import annotations

from sheetgen.draw.fonts import text_width
from sheetgen.draw.pen import Pen
from sheetgen.layout.paper import Paper

BAR = 100.0
UPRIGHT_BAR = 50.0
"""Lengths of the scale bars, mm."""
EDGE = 10.0
"""Home printers leave up to 8.5 mm unprinted: nothing nearer to the edge than this, mm."""
_LINE = 0.3
_BESIDE = 2.6
"""From the frame to the upright bar, mm."""


def draw_bar(
    pen: Pen, x: float, y: float, stretch: float, name: str, size: float, right: float
) -> None:
    """A bar of 100 mm from (x, y) to the right, a tick every 10 mm, ``name`` at its end.

    The name stands above the end where it would reach beyond ``right``.
    """
    end = x + BAR * stretch
    ticks = [x + 10.0 * stretch * i for i in range(11)]
    pen.segments(
        [
            (x, y, end, y),
            *((at, y, at, y - (2.6 if i % 5 == 0 else 1.5)) for i, at in enumerate(ticks)),
        ],
        _LINE,
    )
    width = text_width(name, size)
    beside = end + 0.8 + width <= right
    place = (end + 0.8, y - 1.6) if beside else (end - width, y - 3.2)
    pen.texts([(x + 0.8, y - 1.6, "0"), (*place, name)], size)


def draw_upright_bar(pen: Pen, paper: Paper, page: int, stretch: float, size: float) -> None:
    """A bar of 50 mm right of the frame: printers can stretch the two directions differently.

    None where the margin is too narrow for it.
    """
    if paper.side < EDGE + _BESIDE:
        return
    x = paper.right(page) + _BESIDE
    foot = paper.height - paper.foot - paper.footer
    top = foot - UPRIGHT_BAR * stretch
    ticks = [foot - 10.0 * stretch * i for i in range(6)]
    pen.segments(
        [
            (x, foot, x, top),
            *((x, at, x - (1.6 if i % 5 == 0 else 1.0), at) for i, at in enumerate(ticks)),
        ],
        _LINE,
    )
    pen.turned_text(x - 0.5, top - 1.0, "50 mm", size, False, 90.0)
