"""Threading: takes pack and turning, gives key drawing, chart and the surface beside it."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Step, Together
from sheetgen.layout.chart import chart_rows
from sheetgen.layout.desk import Desk
from sheetgen.layout.key import from_above, from_the_side
from sheetgen.layout.look import FLAT_ROW_H, look
from sheetgen.layout.shapes import Picture, moved
from sheetgen.layout.words import Words

PART = "threading"


def threading(desk: Desk) -> Iterator[Block]:
    """The key, the chart broken over rows, the surface beside or below it, and the steps."""
    words = desk.words(PART)
    remarks = (Para(runs) for _, runs in words.lines("remarks"))
    first, *others = _key(desk, words)
    yield Together((Heading(words.heading), *remarks, first))
    yield from others
    seam = words.text("seam") if desk.plan.project.is_tube else ""
    rows = chart_rows(desk, desk.width)
    empty = "empty holes" in desk.flags
    for number, (chart, tablets) in enumerate(rows):
        title, sides = words.text("surface"), seam if len(rows) == 1 else ""
        caption = words.runs("chart caption") if empty and number == 0 else ()
        surface = look(desk, tablets, title, sides)
        if chart.width + surface.width + 8 <= desk.width:
            yield Figure(_beside(chart, surface, 8.0), caption)
        else:
            surface = look(desk, tablets, title, sides, FLAT_ROW_H)
            yield Figure(chart, caption)
            yield Figure(surface)
    yield Para(words.runs("surface caption"), small=True)
    for number, (_, runs) in enumerate(words.lines("steps"), start=1):
        yield Step(runs, f"T{number}")


def _key(desk: Desk, words: Words) -> list[Block]:
    """The two key drawings, side by side where the paper is wide enough."""
    above = from_above(words)
    side = from_the_side(words, desk.plan.pack.holes)
    if above.width + side.width + 6 <= desk.width:
        return [Figure(_beside(above, side, 12.0))]
    return [Figure(above), Figure(side)]


def _beside(left: Picture, right: Picture, gap: float) -> Picture:
    """Two pictures as one, tops level."""
    shifted = tuple(moved(shape, left.width + gap, 0) for shape in right.shapes)
    return Picture(
        left.width + gap + right.width,
        max(left.height, right.height),
        (*left.shapes, *shifted),
        left.true_scale or right.true_scale,
        f"{left.name}, {right.name}",
    )
