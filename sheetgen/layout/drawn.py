"""Drawn steps: takes a picture and steps, gives them beside or below each other, kept together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen.layout.blocks import Block, Figure, Para, Run, Runs, SideBySide, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Circle, Line, Path, Photo, Picture, Rect, Shape, Text

BESIDE = 48.0
"""Least room for steps beside a picture, mm."""


def drawn(desk: Desk, picture: Picture, steps: tuple[Block, ...]) -> Iterator[Block]:
    """The picture with its steps at its right where there is room, else below it."""
    if desk.width - picture.width - 4 >= BESIDE:
        yield SideBySide(picture, steps, gap=4)
    elif steps:
        yield Together((Figure(picture), steps[0]))
        yield from steps[1:]
    else:
        yield Figure(picture)


def numbered(runs: Runs, number: int) -> Para:
    """A step with its number before it and no box: the boxes of a kit are for its turns."""
    return Para((Run(f"{number}  ", bold=True), *runs))


def smaller(picture: Picture, k: float) -> Picture:
    """A sketch ``k`` times as large, its texts and lines as they were: nothing at true scale."""
    assert not picture.true_scale, "what is at true scale keeps its size"
    shapes = tuple(_scaled(shape, k) for shape in picture.shapes)
    return replace(picture, width=picture.width * k, height=picture.height * k, shapes=shapes)


def _scaled(shape: Shape, k: float) -> Shape:
    match shape:
        case Line(x1, y1, x2, y2):
            return replace(shape, x1=x1 * k, y1=y1 * k, x2=x2 * k, y2=y2 * k)
        case Rect(x, y, w, h):
            return replace(shape, x=x * k, y=y * k, w=w * k, h=h * k, round=shape.round * k)
        case Circle(cx, cy, r):
            return replace(shape, cx=cx * k, cy=cy * k, r=r * k)
        case Path(moves):
            scaled = ((pen, *(float(n) * k for n in numbers)) for pen, *numbers in moves)
            return replace(shape, moves=tuple(scaled))
        case Photo(x, y, w, h):
            return replace(shape, x=x * k, y=y * k, w=w * k, h=h * k)
        case Text(x, y):
            return replace(shape, x=x * k, y=y * k)
