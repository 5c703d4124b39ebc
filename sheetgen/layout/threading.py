"""Threading: takes pack and turning, gives key drawing, chart and the surface beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Step, Together
from sheetgen.layout.chart import chart_rows
from sheetgen.layout.desk import Desk
from sheetgen.layout.key import from_above, from_the_side
from sheetgen.layout.look import face, round_cord
from sheetgen.layout.shapes import Picture, Shape, moved
from sheetgen.layout.words import Words

PART = "threading"
GAP, FACE_LEAST = 7.0, 48.0
"""Between drawings, and the least room for a face beside the chart, mm."""


def threading(desk: Desk) -> Iterator[Block]:
    """The key, the chart broken over rows, the surface beside or below it, and the steps."""
    words = desk.words(PART)
    remarks = (Para(runs) for _, runs in words.lines("remarks"))
    first, *others = _key(desk, words)
    yield Together((Heading(words.heading), *remarks, first))
    yield from others
    yield from _charts(desk, words)
    yield Para(words.runs("surface caption"), small=True)
    for number, (_, runs) in enumerate(words.lines("steps"), start=1):
        yield Step(runs, f"T{number}")


def _charts(desk: Desk, words: Words) -> Iterator[Block]:
    """Every row of the chart with its face, and for a tube the round cord once."""
    rows = chart_rows(desk, desk.width)
    seam = words.text("seam") if desk.plan.project.is_tube and len(rows) == 1 else ""
    drawn = set[object]()
    for number, (chart, tablets) in enumerate(rows):
        looks_like = tuple((t.threaded, t.holes, t.group) for t in tablets)
        if looks_like in drawn:  # a wide pack repeats: one face is enough
            yield Figure(chart)
            continue
        drawn.add(looks_like)
        empty = number == 0 and "empty holes" in desk.flags
        caption = words.runs("chart caption") if empty else ()
        around = [round_cord(desk, words.text("round"))] if seam else []
        beside = desk.width - chart.width - GAP - math.fsum(p.width + GAP for p in around)
        if beside >= FACE_LEAST:
            pictures = [chart, face(desk, tablets, beside, words.text("surface"), seam), *around]
        else:
            yield Figure(chart, caption)
            caption = ()
            room = desk.width - math.fsum(p.width + GAP for p in around)
            pictures = [face(desk, tablets, room, words.text("surface"), seam), *around]
        yield Figure(_in_a_row(pictures, desk.width), caption)


def _key(desk: Desk, words: Words) -> list[Block]:
    """The two key drawings, side by side where the paper is wide enough."""
    above = from_above(words)
    side = from_the_side(words, desk.plan.pack.holes)
    if above.width + side.width + GAP <= desk.width:
        return [Figure(_in_a_row([above, side], desk.width))]
    return [Figure(above), Figure(side)]


def _in_a_row(pictures: Sequence[Picture], width: float) -> Picture:
    """Pictures side by side as one, tops level; below each other where they would be too wide."""
    shapes: list[Shape] = []
    x = y = line = widest = 0.0
    for picture in pictures:
        if x and x + picture.width > width:
            x, y, line = 0.0, y + line + 3, 0.0
        shapes += (moved(shape, x, y) for shape in picture.shapes)
        widest = max(widest, x + picture.width)
        x, line = x + picture.width + GAP, max(line, picture.height)
    true_scale = any(p.true_scale for p in pictures)
    return Picture(widest, y + line, tuple(shapes), true_scale, pictures[0].name)
