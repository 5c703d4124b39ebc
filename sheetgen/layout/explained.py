"""Explained: takes the plan, gives the terms and conventions of the record, and who signs it."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, SideBySide, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words

_CARD, _STROKE = 14.0, 9.0
_PITCH = 9.0
"""Distance of lines to write on, mm."""


def explained(desk: Desk) -> Iterator[Block]:
    """How surely each figure is known, the terms, S and Z with their drawing."""
    words = desk.words("explained")
    yield Heading(words.heading)
    for _, runs in words.lines("origins"):
        yield Para(runs, small=True)
    slant = tuple(Para(runs, small=True) for _, runs in words.lines("slant"))
    if slant:
        yield SideBySide(_strokes(words), slant)
    for _, runs in words.lines("terms"):
        yield Para(runs, small=True)


def _strokes(words: Words) -> Picture:
    """A stroke as in the middle of S and one as in the middle of Z, each with its letter."""
    shapes: list[Shape] = []
    for i, hand in enumerate("SZ"):
        x, pad = i * (_CARD + 3), (_CARD - _STROKE) / 2
        left, right = x + pad, x + _CARD - pad
        top, foot = pad, _CARD - pad
        ends = (right, foot, left, top) if hand == "S" else (left, foot, right, top)
        shapes += [Rect(x, 0.2, _CARD, _CARD - 0.2, 0.2), Line(*ends, 1.2)]
        letter = hand
        shapes.append(Text(x + _CARD / 2, _CARD + 4.5, letter, 10.0, "middle", bold=True))
    return Picture(2 * _CARD + 3.2, _CARD + 6, tuple(shapes), name="S and Z")


def signed(desk: Desk) -> Iterator[Block]:
    """Lines for hand and date."""
    words = desk.words("signed")
    shapes: list[Shape] = []
    middle = desk.width * 0.62
    for i, key in enumerate(("written by", "looked over by")):
        y = _PITCH * (i + 1)
        who, when = words.text(key), words.text("date")
        shapes += _to_fill(desk, who, 0.0, middle - 4, y)
        shapes += _to_fill(desk, when, middle, desk.width, y)
    picture = Picture(desk.width, 2 * _PITCH + 1, tuple(shapes), name="hand and date")
    yield Together((Heading(words.heading), Para(words.runs("what")), Figure(picture)))


def _to_fill(desk: Desk, label: str, left: float, right: float, y: float) -> list[Shape]:
    start = left + desk.measure(label, 10.0, False) + 2
    return [Text(left, y - 0.5, label, 10.0), Line(start, y, right, y, 0.2)]
