"""Threads of a kit: takes the pack, gives which thread goes where, and the warp at a table."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from sheetgen.layout.blocks import Block, Figure, Heading, Para
from sheetgen.layout.desk import Desk
from sheetgen.layout.drawn import drawn, numbered, smaller
from sheetgen.layout.key import GREY, arrow, hole_places
from sheetgen.layout.kit_room import Room
from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import fill_of
from sheetgen.layout.words import Words
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.plan.courses import written_numbers
from sheetgen.plan.plan import Plan

MOST_THREADINGS = 16
CELL, ROW, STROKE_W = 6.0, 8.0, 8.0
Kind = tuple[str, tuple[str | None, ...]]


def threads(desk: Desk) -> Iterator[Block]:
    """The list of threadings, how one tablet is threaded, and the warp between table and belt."""
    words = desk.words("threads")
    yield Heading(words.heading)
    yield Para(words.runs("read the list"))
    yield Figure(threading_list(desk, words))
    steps = tuple(numbered(runs, n) for n, (_, runs) in enumerate(words.lines("thread"), 1))
    yield from drawn(desk, smaller(one_tablet(desk, words), 0.95), steps)
    after = len(steps) + 1
    more = tuple(numbered(runs, n) for n, (_, runs) in enumerate(words.lines("warp"), after))
    yield from drawn(desk, smaller(at_the_table(words), 0.75), more)


def kinds_of(plan: Plan) -> dict[Kind, list[int]]:
    """Threadings that differ, each with the numbers of its tablets."""
    found: dict[Kind, list[int]] = {}
    for number, tablet in enumerate(plan.pack.tablets, 1):
        found.setdefault((tablet.threaded, tablet.holes), []).append(number)
    return found


def shorten_threading(plan: Plan) -> Iterator[Room]:
    """What to change if the list is what is too long."""
    kinds = len(kinds_of(plan))
    yield Room("tablets", "are threaded differently", kinds, MOST_THREADINGS)


def told_numbers(numbers: list[int]) -> str:
    """Tablet numbers; of many at equal steps only the first three and the last.

    >>> told_numbers([1, 2, 3, 8]), told_numbers([2, 5, 8, 11, 14, 17])
    ('1-3, 8', '2, 5, 8 … 17')
    """
    steps = {b - a for a, b in pairwise(numbers)}
    if len(numbers) > 4 and len(steps) == 1 and steps != {1}:
        return f"{', '.join(map(str, numbers[:3]))} … {numbers[-1]}"
    return written_numbers(numbers)


def threading_list(desk: Desk, words: Words) -> Picture:
    """A row a kind: its tablets, the stroke of its thread, the colour in each hole."""
    holes = desk.plan.pack.holes
    fixed = STROKE_W + CELL * holes + 6
    columns = 2 if desk.width >= 2 * (fixed + 28) and len(kinds_of(desk.plan)) > 1 else 1
    room = desk.width / columns - fixed
    shapes: list[Shape] = []
    y, column, lowest = 0.0, 0, 0.0
    kinds = list(kinds_of(desk.plan).items())
    half = -(-len(kinds) // columns)
    for i, (kind, numbers) in enumerate(kinds):
        if i % half == 0:
            column, y = i // half, 5.5
            x = column * desk.width / columns
            for k in range(holes):
                at = x + room + STROKE_W + CELL * (k + 0.5)
                shapes.append(Text(at, 4, HOLE_LETTERS[k], 9.5, "middle", True))
            shapes.append(Text(x, 4, words.text("tablets"), 9))
        names = desk.broken(told_numbers(numbers), 10, True, room - 2)
        row = max(ROW, 4.2 * len(names) + 2.5)
        shapes += _row(desk, kind, names, column * desk.width / columns, y, room)
        y += row
        lowest = max(lowest, y)
    return Picture(desk.width, lowest + 0.5, tuple(shapes), name="threading list")


def _row(
    desk: Desk, kind: Kind, names: list[str], x: float, y: float, room: float
) -> Iterator[Shape]:
    threaded, holes = kind
    for i, line in enumerate(names):
        yield Text(x, y + 5 + 4.2 * i, line, 10, bold=True)
    sign = 1 if threaded == "S" else -1
    cx, cy = x + room + STROKE_W / 2 - 0.5, y + ROW / 2
    yield Line(cx - 2 * sign, cy - 3, cx + 2 * sign, cy + 3, 1.0)
    for k, yarn in enumerate(holes):
        left = x + room + STROKE_W + CELL * k
        if yarn is None:
            yield Rect(left, y + 1, CELL, CELL, 0.3, dash=(0.8, 0.6))
            continue
        use = desk.plan.use(yarn)
        yield Rect(left, y + 1, CELL, CELL, 0.3, fill_of(use))
        yield Text(left + CELL / 2, y + 5.5, use.letter, 10, "middle", True, halo=True)


def one_tablet(desk: Desk, words: Words) -> Picture:
    """One tablet from its lettered side, threads going in, and the two ways it may lie."""
    holes = desk.plan.pack.holes
    cx, cy, size = 24.0, 22.0, 11.0
    shapes: list[Shape] = [Rect(cx - 15, cy - 15, 30, 30, 0.5, Fill("#ffffff"), 2)]
    for i, (hx, hy) in enumerate(hole_places(holes, cx, cy, size)):
        shapes += [
            Circle(hx, hy, 1.7, 0.35, Fill("#ffffff")),
            Text(hx + (cx - hx) * 0.4, hy + (cy - hy) * 0.4 + 1.6, HOLE_LETTERS[i], 11,
                 "middle", True),
        ]  # fmt: skip
    shapes.append(Text(cx, 42, words.text("lettered side"), 9, "middle"))
    threadings = sorted({t.threaded for t in desk.plan.pack.tablets})
    for k, threaded in enumerate(threadings):
        shapes += _on_edge(words, 53.0 + 21 * k, threaded)
    return Picture(43.0 + 21 * len(threadings), 44.0, tuple(shapes), name="one tablet")


def _on_edge(words: Words, cx: float, threaded: str) -> list[Shape]:
    """A tablet on edge from above: a thread in at the near side, out at the far side."""
    s = 1 if threaded == "S" else -1
    return [
        Rect(cx - 1, 11, 2, 17, 0.3, Fill("#bfbfbf")),
        Path((("M", cx + 5 * s, 33), ("L", cx + 5 * s, 26), ("L", cx - 5 * s, 13),
              ("L", cx - 5 * s, 7)), 1.0),
        *arrow(cx - 5 * s, 9, cx - 5 * s, 4.5, 0.7),
        Text(cx, 37.5, threaded, 11, "middle", True),
        Text(cx, 42, words.text("from above"), 9, "middle"),
    ]  # fmt: skip


def at_the_table(words: Words) -> Picture:
    """From the side: the warp from a table's leg through the pack to the belt of who weaves."""
    y = 18.0
    shapes: list[Shape] = [
        Circle(10, 7, 4, 0.5, Fill("#ffffff")),
        Path((("M", 10, 11), ("L", 10, 30), ("L", 22, 31), ("L", 22, 41)), 1.2),
        Path((("M", 10, 14), ("L", 18, 21), ("L", 28, y - 2)), 0.9),
        Rect(7, y + 2, 7, 4, 0.4, Fill("#808080"), 1),
        Line(4, 31, 15, 31, 0.8),
        Line(5, 31, 5, 41, 0.8),
        Line(14, 31, 14, 41, 0.8),
        Line(14, y + 4, 26, y, 1.8, colour="#808080"),
        *(Line(26, y + k * 0.9, 66, y + k * 0.5, 0.3) for k in (-2, -1, 0, 1, 2)),
        Rect(33, y - 6, 2, 12, 0.4, GREY),
        Rect(35.6, y - 6, 2, 12, 0.4, GREY),
        Rect(38.2, y - 6, 2, 12, 0.4, GREY),
        Rect(52, y - 8, 24, 2, 0.5, Fill("#ffffff")),
        Rect(65, y - 6, 2.4, 29, 0.5, Fill("#ffffff")),
        Circle(66.2, y, 1.8, 0.5, Fill("#808080")),
        Text(1, 40.5 + 4, words.text("belt"), 9),
        Text(37, y + 11, words.text("pack"), 9, "middle"),
        Text(76, 45, words.text("table leg"), 9, "end"),
        Text(26, 4, words.text("near"), 9, "middle"),
        Text(62, 4, words.text("far"), 9, "middle"),
        *arrow(32, 3, 56, 3, 0.4),
    ]
    return Picture(77.0, 46.0, tuple(shapes), name="at the table")
