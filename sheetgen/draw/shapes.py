"""A Picture onto paper, at exactly the size that it says."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import groupby
from math import cos, radians, sin

from sheetgen.draw.fonts import CAP_HEIGHT, DESCENT, text_width
from sheetgen.draw.patterns import draw_lines, has_lines, tint
from sheetgen.draw.pen import Pen, Segment
from sheetgen.draw.scale import millimetres
from sheetgen.layout.shapes import (
    WHITE,
    Circle,
    Fill,
    Line,
    Path,
    Photo,
    Picture,
    Rect,
    Shape,
    Text,
)

_Moves = tuple[tuple[str | float, ...], ...]
_HALO = 0.35
"""White around a text with a halo, mm."""


def draw_picture(pen: Pen, picture: Picture, x: float, y: float) -> None:
    """Draw ``picture`` with its top left corner at (x, y), mm; later shapes lie on earlier ones."""
    with pen.origin(x, y):
        for _, run in groupby(picture.shapes, key=_style):
            shapes = list(run)
            match shapes[0]:
                case Line(width=width, dash=dash, colour=colour):
                    lines = (s for s in shapes if isinstance(s, Line))
                    pen.segments(((s.x1, s.y1, s.x2, s.y2) for s in lines), width, dash, colour)
                case Rect():
                    _draw_rects(pen, [s for s in shapes if isinstance(s, Rect)])
                case Text():
                    _draw_texts(pen, [s for s in shapes if isinstance(s, Text)])
                case Circle():
                    _draw_circle(pen, shapes[0])
                case Path():
                    _draw_path(pen, shapes[0])
                case Photo(x, y, w, h, raster):
                    pen.photograph((x, y, w, h), raster.data)


def _style(shape: Shape) -> object:
    """Neighbours with the same answer may be drawn in one go."""
    match shape:
        case Line(width=width, dash=dash, colour=colour):
            return Line, width, dash, colour
        case Rect(width=width, dash=dash, fill=fill, round=0.0):
            return Rect, width, dash, fill
        case Text(size=size, bold=bold, halo=False, turn=0.0):
            return Text, size, bold
    return id(shape), shape


def _draw_rects(pen: Pen, rects: list[Rect]) -> None:
    """Rectangles of one style: plain ones as one path, hatched ones from a stored drawing."""
    first = rects[0]
    fill = first.fill or Fill()
    if first.round:
        _draw_rounded(pen, first)
    elif not has_lines(fill):
        boxes = ((r.x, r.y, r.w, r.h) for r in rects)
        pen.rects(boxes, first.width, first.dash, tint(fill))
    else:
        for rect in rects:
            box = (rect.x, rect.y, rect.w, rect.h)
            size = round(rect.w, 4), round(rect.h, 4)
            pen.stamp((size, fill), box, _filler(fill, rect.w, rect.h))
            pen.rects([box], rect.width, rect.dash)


def _filler(fill: Fill, w: float, h: float) -> Callable[[Pen], None]:
    def draw(pen: Pen) -> None:
        pen.rects([(0.0, 0.0, w, h)], 0.0, (), tint(fill))
        draw_lines(pen, fill.pattern, w, h)

    return draw


def _draw_rounded(pen: Pen, rect: Rect) -> None:
    box = (rect.x, rect.y, rect.w, rect.h)
    ground = tint(rect.fill) if rect.fill else None
    if rect.fill and has_lines(rect.fill):
        radius = min(rect.round, rect.w / 2, rect.h / 2)
        _hatch(pen, _rounded_moves(box, radius), box, rect.fill)
        ground = None
    pen.rounded(box, rect.round, rect.width, rect.dash, ground)


def _draw_circle(pen: Pen, circle: Circle) -> None:
    ground = tint(circle.fill) if circle.fill else None
    if circle.fill and has_lines(circle.fill):
        r = circle.r
        box = (circle.cx - r, circle.cy - r, 2 * r, 2 * r)
        _hatch(pen, _rounded_moves(box, r), box, circle.fill)
        ground = None
    pen.circle(circle.cx, circle.cy, circle.r, circle.width, ground)


def _draw_path(pen: Pen, path: Path) -> None:
    ground = tint(path.fill) if path.fill else None
    if path.fill and has_lines(path.fill):
        _hatch(pen, path.moves, _bounds(path), path.fill)
        ground = None
    pen.path(path.moves, path.width, path.dash, path.colour, ground)


def _hatch(pen: Pen, moves: _Moves, box: Segment, fill: Fill) -> None:
    """Ground and lines of ``fill`` inside the outline ``moves``, which lies in ``box``.

    Stored once for all outlines of one shape: a strip of equal beads stays small.
    """
    x, y, w, h = box
    outline = tuple(
        (move[0], *(round(float(n) - (y if i % 2 else x), 4) for i, n in enumerate(move[1:])))
        for move in moves
    )

    def draw(inner: Pen) -> None:
        with inner.clipped(outline):
            _filler(fill, w, h)(inner)

    pen.stamp((outline, fill), box, draw)


def _bounds(path: Path) -> Segment:
    """A box around the path; control points of curves count, so it may be too large."""
    xs = [float(n) for move in path.moves for n in move[1::2]]
    ys = [float(n) for move in path.moves for n in move[2::2]]
    return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)


def _rounded_moves(box: Segment, radius: float) -> _Moves:
    """A rectangle with round corners, or a circle if they meet, as pen moves.

    A quarter circle as a Bézier curve has its handles at 4/3 (√2 - 1) of the radius (geometry).
    """
    x, y, w, h = box
    r, k = radius, radius * (1 - 4 / 3 * (2**0.5 - 1))
    right, foot = x + w, y + h
    return (
        ("M", x + r, y),
        ("L", right - r, y),
        ("C", right - k, y, right, y + k, right, y + r),
        ("L", right, foot - r),
        ("C", right, foot - k, right - k, foot, right - r, foot),
        ("L", x + r, foot),
        ("C", x + k, foot, x, foot - k, x, foot - r),
        ("L", x, y + r),
        ("C", x, y + k, x + k, y, x + r, y),
        ("Z",),
    )


def _draw_texts(pen: Pen, texts: list[Text]) -> None:
    first = texts[0]
    if first.halo:
        pen.path(_patch(first), 0.0, colour=WHITE)
    if first.turn:
        start = _shift(first)
        x = first.x + start * cos(radians(first.turn))
        y = first.y - start * sin(radians(first.turn))
        pen.turned_text(x, y, first.text, first.size, first.bold, first.turn)
        return
    placed: Iterable[tuple[float, float, str]] = ((t.x + _shift(t), t.y, t.text) for t in texts)
    pen.texts(placed, first.size, first.bold)


def _shift(text: Text) -> float:
    """From the anchor to the start of the text along the base line, mm."""
    if text.anchor == "start":
        return 0.0
    width = text_width(text.text, text.size, text.bold)
    return -width / 2 if text.anchor == "middle" else -width


def _patch(text: Text) -> _Moves:
    """Outline of the white patch behind a text, turned with it."""
    left = _shift(text) - _HALO
    right = left + text_width(text.text, text.size, text.bold) + 2 * _HALO
    up = CAP_HEIGHT * millimetres(text.size) + _HALO
    # Capitals and figures reach no lower than the base line; in a small cell the pattern around
    # them needs the room.
    flat = text.text.isupper() or text.text.isdigit()
    down = -(0.0 if flat else DESCENT * millimetres(text.size)) - _HALO
    c, s = cos(radians(text.turn)), sin(radians(text.turn))
    corners = [(left, down), (right, down), (right, up), (left, up)]
    first, *others = [(text.x + a * c - b * s, text.y - a * s - b * c) for a, b in corners]
    return (("M", *first), *(("L", *corner) for corner in others), ("Z",))
