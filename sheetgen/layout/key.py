"""The key drawing: weaver, near, far, forward, holes and thread slant, once on every sheet."""

from __future__ import annotations

import math

from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.model.pack import HOLE_LETTERS

TOP_W, SIDE_W, HEIGHT = 62.0, 78.0, 66.0
GREY = Fill("#d9d9d9")


def arrow(x1: float, y1: float, x2: float, y2: float, width: float = 0.6) -> list[Shape]:
    """A line with a filled head at its end."""
    angle = math.atan2(y2 - y1, x2 - x1)
    return [Line(x1, y1, x2, y2, width), _head(x2, y2, angle)]


def _head(x: float, y: float, angle: float, size: float = 2.6) -> Path:
    """A filled arrow head whose tip is at (x, y), pointing along ``angle`` (radians, y down)."""
    left, right = angle + math.pi - 0.42, angle + math.pi + 0.42
    return Path(
        (
            ("M", x, y),
            ("L", x + size * math.cos(left), y + size * math.sin(left)),
            ("L", x + size * math.cos(right), y + size * math.sin(right)),
            ("Z",),
        ),
        0.1,
        Fill("#000000"),
    )


def from_above(words: Words) -> Picture:
    """The weaver looks away from herself: cloth, two tablets on edge, S and Z threads."""
    shapes: list[Shape] = [
        Text(2, 4.5, words.text("seen from above"), 9.5, bold=True),
        Circle(30, 59, 3.2, 0.4, GREY),
        Text(35, 60.3, words.text("you"), 9),
        Path((("M", 26, 54), ("L", 34, 54), ("L", 34, 41), ("L", 26, 41), ("Z",)), 0.3, GREY),
        Text(37, 49, words.text("woven"), 9),
    ]
    for cx, lean, name in ((21, 4.5, "S-threaded"), (39, -4.5, "Z-threaded")):
        top, bottom = 16.0, 34.0
        shapes += [
            Line(30 + (cx - 30) * 0.18, 41, cx + lean, bottom, 0.3),
            Path(
                (
                    ("M", cx - 0.9, top + 2),
                    ("L", cx + 0.9, top + 2),
                    ("L", cx + 0.9, bottom - 2),
                    ("L", cx - 0.9, bottom - 2),
                    ("Z",),
                ),
                0.25,
                Fill("#bfbfbf"),
            ),
            Line(cx - lean, top, cx + lean, bottom, 1.0),
            Line(cx - lean, top, cx - lean, top - 3, 0.3),
            Text(cx - 5 if lean > 0 else cx + 5, top - 4.2, words.text(name), 9, "middle"),
        ]
    shapes += arrow(56, 50, 56, 16)
    shapes += [
        Text(59, 14, words.text("far"), 9, "end"),
        Text(59, 54, words.text("near"), 9, "end"),
    ]
    return Picture(TOP_W, HEIGHT, tuple(shapes), name="key from above")


def hole_places(holes: int, cx: float, cy: float, radius: float) -> list[tuple[float, float]]:
    """Where the holes lie, seen from the weaver's right: A near top, then as forward brings them.

    Near is left, far is right. Forward turns the top edge away, so B waits below or before A.
    """
    start = -math.pi / 2 if holes == 2 else -math.pi / 2 - math.pi / holes
    step = 2 * math.pi / holes
    angles = [start - i * step for i in range(holes)]
    return [(cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles]


def from_the_side(words: Words, holes: int) -> Picture:
    """One tablet seen from the weaver's right, with its holes and the way forward."""
    cx, cy, radius = 42.0, 38.0, 15.0
    places = hole_places(holes, cx, cy, radius)
    shapes: list[Shape] = [
        Text(2, 4.5, words.text("seen from your right"), 9.5, bold=True),
        Line(4, cy, 14, cy, 2.4, colour="#bfbfbf"),
        _outline(places, cx, cy),
    ]
    for x, y in places:
        shapes += [Line(14, cy, x, y, 0.2), Line(x, y, 74, cy, 0.2)]
    for i, (x, y) in enumerate(places):
        shapes += [
            Circle(x, y, 1.6, 0.3, Fill("#ffffff")),
            Text(
                x + (cx - x) * 0.34,
                y + (cy - y) * 0.34 + 1.5,
                HOLE_LETTERS[i],
                11,
                "middle",
                True,
                halo=True,
            ),
        ]
    shapes.append(Path((("M", 26, 17), ("C", 32, 9.5, 50, 9.5, 56.5, 15.5)), 0.7, dash=()))
    shapes.append(_head(57.6, 16.8, 0.9))
    shapes += [
        Text(42, 10, words.text("forward"), 9.5, "middle", True),
        Text(4, cy + 6, words.text("near"), 9),
        Text(74, cy + 6, words.text("far"), 9, "end"),
        Text(4, cy + 10.5, words.text("you"), 9),
        Text(42, 62, words.text("letters come"), 9, "middle"),
    ]
    return Picture(SIDE_W, HEIGHT, tuple(shapes), name="key from the side")


def _outline(places: list[tuple[float, float]], cx: float, cy: float) -> Path:
    """The tablet's edge, a little outside its holes; a square plate for two holes."""
    grow = 1.28
    corners = [(cx + (x - cx) * grow, cy + (y - cy) * grow) for x, y in places]
    if len(corners) == 2:
        corners = [(cx - 14, cy - 19), (cx - 14, cy + 19), (cx + 14, cy + 19), (cx + 14, cy - 19)]
    moves = [("M", *corners[0]), *(("L", *c) for c in corners[1:]), ("Z",)]
    return Path(tuple(moves), 0.5, Fill("#ffffff"))
