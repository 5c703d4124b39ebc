"""Fill patterns: a tint, and over it black lines that tell the yarns apart on a grey photocopy.

Each pattern is given as lines or dots inside a box of w by h mm, cut off at the box by arithmetic,
so that a small cell needs no clipping.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from sheetgen.draw.pen import Pen, Segment
from sheetgen.layout.shapes import Fill, Pattern

LINE = 0.18
"""Width of a pattern's lines, mm: the thinnest that an office copier keeps (common practice)."""
GAP = 1.1
"""Distance of a pattern's lines, mm: four of them in a cell of 5 mm."""
WIDE_GAP = 1.5
"""Distance where two sets of lines cross, mm, so that they stay open."""
DOT = 0.26
"""Radius of a dot, mm."""
GREY = "#a0a0a0"
"""The fill ``solid``: black letters on it keep a contrast of 8 to 1 (WCAG formula)."""

_DIAGONAL = math.sqrt(2.0)


def tint(fill: Fill) -> str | None:
    """The colour of the ground: the yarn's own, or grey for ``solid``."""
    return GREY if fill.pattern == "solid" else fill.tint


def has_lines(fill: Fill) -> bool:
    """Whether anything is drawn over the ground."""
    return fill.pattern not in ("plain", "solid")


def draw_lines(pen: Pen, pattern: Pattern, w: float, h: float) -> None:
    """Draw ``pattern`` over the box from the pen's origin to (w, h), mm."""
    if pattern == "dots":
        pen.dots(_dots(w, h), DOT)
        return
    segments = list(_segments(pattern, w, h))
    if segments:
        pen.segments(segments, LINE)


def _segments(pattern: Pattern, w: float, h: float) -> Iterator[Segment]:
    match pattern:
        case "rising":
            yield from _rising(w, h, GAP)
        case "falling":
            yield from _falling(w, h, GAP)
        case "crossed":
            yield from _rising(w, h, WIDE_GAP)
            yield from _falling(w, h, WIDE_GAP)
        case "level":
            yield from ((0.0, y, w, y) for y in _places(h, GAP))
        case "upright":
            yield from ((x, 0.0, x, h) for x in _places(w, GAP))
        case "grid":
            yield from ((0.0, y, w, y) for y in _places(h, WIDE_GAP))
            yield from ((x, 0.0, x, h) for x in _places(w, WIDE_GAP))
        case "bricks":
            yield from _bricks(w, h)


def _places(length: float, gap: float) -> list[float]:
    """Places about ``gap`` apart, centred: half a gap stays free at both ends.

    The gap gives way a little so that it goes into the length; a whole row of equal cells then
    reads as one even field.
    """
    count = max(1, round(length / gap))
    return [(i + 0.5) * length / count for i in range(count)]


def _rising(w: float, h: float, gap: float) -> Iterator[Segment]:
    """Lines at 45 degrees, x + y = c, from the left or lower side to the upper or right one."""
    for c in _places(w + h, gap * _DIAGONAL):
        x1, x2 = max(0.0, c - h), min(w, c)
        yield x1, c - x1, x2, c - x2


def _falling(w: float, h: float, gap: float) -> Iterator[Segment]:
    for x1, y1, x2, y2 in _rising(w, h, gap):
        yield x1, h - y1, x2, h - y2


def _bricks(w: float, h: float) -> Iterator[Segment]:
    """Courses with upright joints that change their place from course to course."""
    beds = [0.0, *_places(h, GAP), h]
    yield from ((0.0, y, w, y) for y in beds[1:-1])
    length = 2 * GAP
    for course, (top, foot) in enumerate(pairwise(beds)):
        x = length / 2 if course % 2 else length
        while x < w:
            yield x, top, x, foot
            x += length


def _dots(w: float, h: float) -> Iterator[tuple[float, float]]:
    """Dots in rows, every other row moved by half a step, none cut by the edge if there is room."""
    for row, y in enumerate(_places(h, GAP)):
        places = _places(w, 1.2 * GAP)
        step = w / len(places)
        yield from ((x + (step / 4 if row % 2 else -step / 4), y) for x in places)
