"""Stops: takes an intervention, gives its drawing: a tablet and the weft, before and after."""

from __future__ import annotations

from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.interventions import LET_OUT
from sheetgen.plan.plan import Intervention

HALF_W, HEIGHT = 21.0, 30.0
GREY = Fill("#d9d9d9")


def stop_drawing(desk: Desk, words: Words, intervention: Intervention) -> Picture:
    """Seen from above, far side up: the thread slant of tablet 1 and the weft's side.

    Flipping turns the slant over; letting out shows the far end undone instead.
    """
    turning = desk.plan.turning
    if turning.way == LET_OUT:
        return _let_out(words)
    threaded = desk.plan.pack.tablets[0].threaded
    sign = 1 if (threaded == "S") == (intervention.number % 2 == 1) else -1
    shapes = [
        *_side_view(4.0, sign, intervention.side_before, words.text("before")),
        *arrow(HALF_W + 1.5, 10, HALF_W + 6.5, 10, 0.7),
        *_side_view(HALF_W + 7, -sign, intervention.side_after, words.text("after")),
    ]
    return Picture(2 * HALF_W + 8, HEIGHT, tuple(shapes), name="stop")


def _side_view(x: float, sign: int, side: str, label: str) -> list[Shape]:
    """One tablet with its thread, the work below it, and an arrow where the weft goes in."""
    cx = x + 8.0
    shapes: list[Shape] = [
        Rect(cx - 0.6, 3, 1.2, 10, 0.25, Fill("#bfbfbf")),
        Line(cx - 3.2 * sign, 2, cx + 3.2 * sign, 14, 1.0),
        Rect(cx - 2.5, 15, 5, 9, 0.3, GREY),
        Text(cx, HEIGHT - 0.8, label, 9, "middle"),
    ]
    if side == "right":
        shapes += arrow(cx + 9, 17.5, cx + 3, 17.5, 0.7)
    elif side == "left":
        shapes += arrow(cx - 9, 17.5, cx - 3, 17.5, 0.7)
    return shapes


def _let_out(words: Words) -> Picture:
    """The far end untied, its twist combed out away from the weaver."""
    cx = 12.0
    shapes: list[Shape] = [
        Rect(cx - 2.5, 20, 5, 5, 0.3, GREY),
        Rect(cx - 0.6, 14, 1.2, 5, 0.25, Fill("#bfbfbf")),
        *(Line(cx + k, 14, cx + 2.2 * k, 4, 0.3) for k in (-2, -1, 0, 1, 2)),
        Path((("M", cx - 6, 8), ("C", cx - 3, 5.5, cx + 3, 5.5, cx + 6, 8)), 0.7),
        *arrow(cx + 9, 13, cx + 9, 3, 0.7),
        Circle(cx, 1.8, 1.0, 0.4, Fill("#ffffff")),
        Text(cx, HEIGHT - 0.8, words.text("untie far end"), 9, "middle"),
    ]
    return Picture(26.0, HEIGHT, tuple(shapes), name="stop")
