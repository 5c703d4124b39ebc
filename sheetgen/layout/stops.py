"""Stops: takes an intervention, gives its drawing: a tablet and the weft, before and after."""

from __future__ import annotations

from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.interventions import LET_OUT
from sheetgen.plan.plan import Intervention

HALF_W, HEIGHT = 25.0, 37.0
GREY = Fill("#d9d9d9")


def stop_drawing(desk: Desk, words: Words, intervention: Intervention) -> Picture:
    """Seen from above, far side up: the thread slant of tablet 1 and the weft's side.

    Flipping turns the slant over; letting out shows the far end undone instead.
    """
    turning = desk.plan.turning
    above = Text(0, 3.2, words.text("seen from above"), 8.5)
    if turning.way == LET_OUT:
        return _let_out(words, above)
    threaded = desk.plan.pack.tablets[0].threaded
    sign = 1 if (threaded == "S") == (intervention.number % 2 == 1) else -1
    shapes = [
        above,
        *_side_view(1.0, sign, intervention.side_before, words.text("before")),
        *arrow(HALF_W - 2, 13, HALF_W + 4, 13, 0.7),
        *_side_view(HALF_W + 4, -sign, intervention.side_after, words.text("after")),
    ]
    return Picture(2 * HALF_W + 6, HEIGHT, tuple(shapes), name="stop")


def _side_view(x: float, sign: int, side: str, label: str) -> list[Shape]:
    """One tablet with its thread, the work below it, and an arrow where the weft goes in."""
    cx = x + 11.0
    shapes: list[Shape] = [
        Rect(cx - 0.8, 7, 1.6, 12, 0.25, Fill("#bfbfbf")),
        Line(cx - 4.2 * sign, 5.5, cx + 4.2 * sign, 20.5, 1.2),
        Rect(cx - 3, 21.5, 6, 10, 0.3, GREY),
        Text(cx, HEIGHT - 1.0, label, 9, "middle"),
    ]
    if side == "right":
        shapes += arrow(cx + 11, 24.5, cx + 3.6, 24.5, 0.8)
    elif side == "left":
        shapes += arrow(cx - 11, 24.5, cx - 3.6, 24.5, 0.8)
    return shapes


def _let_out(words: Words, above: Text) -> Picture:
    """The far end untied, its twist combed out away from the weaver."""
    cx, height = 13.0, 27.0
    shapes: list[Shape] = [
        above,
        Rect(cx - 2.5, 18.5, 5, 4, 0.3, GREY),
        Rect(cx - 0.6, 14, 1.2, 4, 0.25, Fill("#bfbfbf")),
        *(Line(cx + k, 14, cx + 2.0 * k, 7, 0.3) for k in (-2, -1, 0, 1, 2)),
        Path((("M", cx - 6, 10.5), ("C", cx - 3, 8.5, cx + 3, 8.5, cx + 6, 10.5)), 0.7),
        *arrow(cx + 9, 15, cx + 9, 6.5, 0.7),
        Circle(cx, 5.3, 0.9, 0.4, Fill("#ffffff")),
        Text(cx, height - 1.0, words.text("untie far end"), 9, "middle"),
    ]
    return Picture(28.0, height, tuple(shapes), name="stop")
