"""The end of a kit: takes string, tassel and ends, gives how they are made, each drawn."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Heading, Para
from sheetgen.layout.desk import Desk
from sheetgen.layout.drawn import drawn, numbered, smaller
from sheetgen.layout.key import arrow
from sheetgen.layout.makeup import stringing_drawing
from sheetgen.layout.shapes import Line, Path, Picture, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.model.beads import BeadRepeat, Gap, Knot, OrderItem
from sheetgen.plan.plan import Plan


def beads(desk: Desk) -> Iterator[Block]:
    """In which order the beads go on, and how; nothing for a piece without."""
    words, plan = desk.words("beads"), desk.plan
    if plan.string is None or plan.project.beads is None:
        return
    yield Heading(words.heading)
    yield Para(words.runs("order", order=told_order(words, plan.project.beads.order)))
    steps = tuple(numbered(runs, n) for n, (_, runs) in enumerate(words.lines("string"), 1))
    yield from drawn(desk, smaller(stringing_drawing(words, plan.string.stringing), 0.85), steps)


def told_order(words: Words, items: tuple[OrderItem, ...]) -> str:
    """The order of beads in words, as it was described, repeats in brackets."""
    told = []
    for item in items:
        match item:
            case BeadRepeat(times, inner):
                said = told_order(words, inner)
                told.append(words.text("times", n=str(times), order=said))
            case Gap():
                told.append(words.text("bare cord"))
            case Knot():
                told.append(words.text("knot"))
            case _:
                told.append(words.text("some beads", n=str(item.count), bead=item.kind))
    return ", ".join(told)


def off(desk: Desk) -> Iterator[Block]:
    """Off the tablets, with the tails kept."""
    words = desk.words("off")
    yield Heading(words.heading)
    yield from (numbered(runs, n) for n, (_, runs) in enumerate(words.lines("off"), 1))


def finish(desk: Desk) -> Iterator[Block]:
    """The ends: tassel, aglets, or knots."""
    words, plan = desk.words("finish"), desk.plan
    yield Heading(words.heading)
    names = _ends(plan)
    last = 1
    for name in names:
        steps = tuple(numbered(runs, n) for n, (_, runs) in enumerate(words.lines(name), last))
        last += len(steps)
        if name == "tassel":
            yield from drawn(desk, tassel_sketch(words), steps)
        else:
            yield from steps


def tassel_sketch(words: Words) -> Picture:
    """A tassel hanging from its cord: neck and skirt with their figures."""
    cx = 9.0
    shapes: list[Shape] = [
        Line(cx, 0, cx, 6, 1.6, colour="#808080"),
        Path((("M", cx - 3.4, 11), ("C", cx - 4, 4.5, cx + 4, 4.5, cx + 3.4, 11), ("Z",)), 0.4),
        *(Line(cx - 3.4, 11 + k, cx + 3.4, 11.4 + k, 0.5) for k in (0, 1.2, 2.4, 3.6)),
        *(Line(cx + 0.85 * k, 15.4, cx + 1.6 * k, 34, 0.4) for k in range(-4, 5)),
        Line(cx - 8.5, 34.2, cx + 8.5, 34.2, 0.3, (1.2, 0.8)),
        Text(cx + 5.5, 13.8, words.text("neck wraps"), 9),
        *arrow(cx + 9, 25, cx + 9, 16, 0.3),
        *arrow(cx + 9, 25, cx + 9, 33.8, 0.3),
        Text(cx + 11, 26, words.text("skirt size"), 9),
        Text(cx - 8.5, 38.6, words.text("trim here"), 9),
    ]
    return Picture(36.0, 40.0, tuple(shapes), name="tassel")


def _ends(plan: Plan) -> tuple[str, ...]:
    tassels = ("tassel",) if plan.tassel else ()
    return (*tassels, "ends")
