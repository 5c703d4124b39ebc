"""Labels: takes the plan of the kits, gives a label to cut out for every bag."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, PageBreak, Para
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.kits import KitPlan

WIDEST, HEIGHT = 62.0, 30.0
"""A label, mm: it goes on a bag for sandwiches, and three side by side on A4."""
INSIDE = 4.0


def labels(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """Labels side by side, to be cut along the dashes."""
    words = desk.words("labels")
    yield PageBreak()
    yield Heading(words.heading)
    yield Para(words.runs("how"))
    across = max(1, int(desk.width / 55.0))
    width = min(WIDEST, desk.width / across)
    for first in range(1, kits.bags + 1, across):
        shapes: list[Shape] = []
        last = min(kits.bags, first + across - 1)
        for place, bag in enumerate(range(first, last + 1)):
            shapes += _label(kits, desk, words, bag, place * width, width)
        picture = Picture((last - first + 1) * width, HEIGHT, tuple(shapes), name=f"labels {first}")
        yield Figure(picture, close=True)


def _label(
    kits: KitPlan, desk: Desk, words: Words, bag: int, x: float, width: float
) -> list[Shape]:
    """One label: number, whose it is, the piece."""
    room = width - 2 * INSIDE
    who = words.text("spare") if kits.is_spare(bag) else kits.guest(bag)
    title = words.text("bag", n=str(bag))
    shapes: list[Shape] = [
        Rect(x + 0.1, 0.1, width - 0.2, HEIGHT - 0.2, 0.2, dash=(2.0, 1.5)),
        Text(x + INSIDE, 8.5, title, 15.0, bold=True),
    ]
    if who:
        line = desk.broken(who, 12.0, False, room)[0]
        shapes.append(Text(x + INSIDE, 15.5, line, 12.0))
    piece = desk.broken(kits.plan.project.piece, 9.0, False, room)[:2]
    shapes += [Text(x + INSIDE, 21.0 + 4 * i, line, 9.0) for i, line in enumerate(piece)]
    return shapes
