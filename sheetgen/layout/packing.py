"""Packing: takes the plan of the kits, gives a row of tick boxes for every bag."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, NeedRoom, Para, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.bags import BagItem
from sheetgen.plan.kits import KitPlan

BOX = 5.0
ROW = 7.0
COLUMN = 9.0
"""Tick boxes and their distances, mm."""
NUMBER = 11.0
"""Room for a bag's number, mm."""
TOGETHER = 13
"""Bags that stand under one row of numbers: two such blocks go on A4 and on Letter."""
SMALL = 9.0


def item_name(words: Words, sort: str, name: str) -> str:
    """What something is called: tablets, fittings and needs have words of their own."""
    if sort == "need":
        return words.text(f"need {name}")
    return words.text(f"name {sort}", name=name)


def item_size(desk: Desk, words: Words, item: BagItem) -> str:
    """How many or how long, and for what."""
    if item.sort != "yarn":
        long = (
            words.text(f"size {item.name}", length=desk.length(item.length)) if item.length else ""
        )
        return f"{item.number}{long}"
    told = {"n": str(item.number), "length": desk.length(item.length), "ends": str(item.ends)}
    what = words.text(f"use {item.use}")
    if item.use == "ends":
        return words.text("cut ends", **told)
    if item.ends:
        cut = desk.length(desk.plan.figures["cut_length"].value)
        return words.text("warp coil", what=what, cut=cut, **told)
    return words.text("coil" if item.number == 1 else "coils", what=what, **told)


def packing(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """Bags below one another, what goes into them side by side under its number."""
    words = desk.words("packing")
    yield NeedRoom(34 + (ROW + 1) * (1 + min(kits.bags, TOGETHER)))
    yield Heading(words.heading)
    yield Para(words.runs("how"))
    things = len(kits.items) + 1
    bags = range(1, kits.bags + 1)
    names = max(desk.measure(_named(kits, words, bag), SMALL, False) for bag in bags)
    room = min(45.0, max(names + 2, 12.0))
    columns = max(1, int((desk.width - NUMBER - room) / COLUMN))
    for first in range(0, things, columns):
        shown = range(first + 1, min(things, first + columns) + 1)
        for start in range(1, kits.bags + 1, TOGETHER):
            rows = [_row(desk, "", words.text("number"), room, [str(n) for n in shown])]
            for bag in range(start, min(kits.bags, start + TOGETHER - 1) + 1):
                name = desk.broken(_named(kits, words, bag), SMALL, False, room - 2)
                rows.append(_row(desk, str(bag), name[0] if name else "", room, len(shown)))
            yield Together(tuple(Figure(row, close=True) for row in rows))


def _named(kits: KitPlan, words: Words, bag: int) -> str:
    """Whose bag it is, as far as that is known."""
    return words.text("spare") if kits.is_spare(bag) else kits.guest(bag)


def _row(desk: Desk, number: str, name: str, room: float, boxes: int | list[str]) -> Picture:
    """Number and name of a bag with its boxes; with texts in place of boxes, the row above."""
    start, base = NUMBER + room, ROW - 2.2
    shapes: list[Shape] = [Text(0, base, number, 11.0, bold=True), Text(NUMBER, base, name, SMALL)]
    if isinstance(boxes, list):
        places = [start + i * COLUMN + BOX / 2 for i in range(len(boxes))]
        shapes += [
            Text(x, base, text, 10.0, "middle", bold=True)
            for x, text in zip(places, boxes, strict=True)
        ]
        return Picture(start + len(boxes) * COLUMN, ROW, tuple(shapes), name="packing numbers")
    shapes += [Rect(start + i * COLUMN, (ROW - BOX) / 2, BOX, BOX, 0.35) for i in range(boxes)]
    return Picture(start + boxes * COLUMN, ROW, tuple(shapes), name=f"packing {number}")
