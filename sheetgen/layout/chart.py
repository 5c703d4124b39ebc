"""The threading chart: takes the pack, gives pictures of tablets by holes, as wide as fits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Fill, Line, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import swatch
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.plan.pack import Tablet

CELL_W, CELL_H = 7.5, 7.0
LABEL_W = 9.0
BRACKET_H, NUMBER_H, SLANT_H = 5.5, 5.0, 11.0


@dataclass(frozen=True, slots=True)
class RepeatRun:
    """``times`` repeats of ``size`` tablets, from position ``start`` (from 0)."""

    start: int
    size: int
    times: int

    @property
    def end(self) -> int:
        """One past its last position."""
        return self.start + self.size * self.times


def find_repeats(columns: Sequence[object], least: int = 4) -> list[RepeatRun]:
    """Stretches of columns that repeat, longest first at each place; at least ``least`` columns.

    >>> find_repeats("xababab")
    [RepeatRun(start=1, size=2, times=3)]
    """
    found, at = [], 0
    while at < len(columns):
        best = RepeatRun(at, 1, 1)
        for size in range(1, (len(columns) - at) // 2 + 1):
            times = 1
            unit = columns[at : at + size]
            while columns[at + times * size : at + (times + 1) * size] == unit:
                times += 1
            if times > 1 and size * times > best.size * best.times:
                best = RepeatRun(at, size, times)
        if best.times > 1 and best.size * best.times >= least:
            found.append(best)
            at = best.end
        else:
            at += 1
    return found


def columns_that_fit(width: float) -> int:
    """Tablets that stand side by side in ``width`` mm."""
    return max(1, int((width - LABEL_W) // CELL_W))


def chart_rows(desk: Desk, width: float) -> list[tuple[Picture, tuple[Tablet, ...]]]:
    """The chart broken into rows of tablets that fit ``width`` mm, each with its tablets."""
    tablets = desk.plan.pack.tablets
    repeats = find_repeats([(t.threaded, t.holes, t.group) for t in tablets])
    corners = row_corners(len(tablets), columns_that_fit(width), repeats)
    return [
        (_picture(desk, tablets[start:end], start, repeats), tablets[start:end])
        for start, end in pairwise(corners)
    ]


def row_corners(tablets: int, most: int, repeats: Sequence[RepeatRun]) -> list[int]:
    """Where rows of at most ``most`` tablets begin, and the end of the last.

    Rows are about equally long; a repeat that fills two rows or more is broken between its units,
    so that its rows are alike.

    >>> row_corners(30, 12, [RepeatRun(4, 5, 5)])
    [0, 4, 14, 24, 30]
    """
    if tablets <= most:
        return [0, tablets]
    corners, at = [0], 0
    wide = [
        r for r in repeats if r.size <= most and r.size * r.times >= 2 * (most // r.size * r.size)
    ]
    for start, end, unit in [*((r.start, r.end, r.size) for r in wide), (tablets, tablets, 1)]:
        corners += _even(at, start, most)
        step = most // unit * unit
        last = start + (end - start) // step * step
        corners += range(start + step, last + 1, step)
        at = last
    return corners


def _even(start: int, end: int, most: int) -> list[int]:
    """Ends of equally long rows from ``start`` to ``end``."""
    if start >= end:
        return []
    rows = -(-(end - start) // most)
    return [start + (end - start) * (i + 1) // rows for i in range(rows)]


def _picture(
    desk: Desk, tablets: Sequence[Tablet], start: int, repeats: Sequence[RepeatRun]
) -> Picture:
    holes = desk.plan.pack.holes
    grouped = len(desk.plan.pack.groups) > 1
    top = BRACKET_H * (1 + grouped)
    shapes: list[Shape] = []
    if grouped:
        shapes += _groups(desk, tablets)
    shapes += _repeats(desk, repeats, start, len(tablets), top - BRACKET_H)
    cells = top + NUMBER_H
    for hole in range(holes):
        y = cells + hole * CELL_H + CELL_H / 2 + 1.5
        shapes.append(Text(LABEL_W - 2.5, y, HOLE_LETTERS[hole], 12, "end", True))
    for i, tablet in enumerate(tablets):
        x = LABEL_W + i * CELL_W
        shapes.append(Text(x + CELL_W / 2, cells - 1.3, str(tablet.number), 9, "middle"))
        for hole, yarn in enumerate(tablet.holes):
            y = cells + hole * CELL_H
            if yarn is None:
                shapes += _empty(x, y)
            else:
                shapes += swatch(desk.plan.use(yarn), x, y, CELL_W, CELL_H, 10)
        shapes += slant(x + CELL_W / 2, cells + holes * CELL_H + 1.2, tablet.threaded)
    _heavy_lines(shapes, tablets, cells, holes)
    width = LABEL_W + len(tablets) * CELL_W + 0.5
    return Picture(width, cells + holes * CELL_H + SLANT_H, tuple(shapes), name="threading")


def _heavy_lines(shapes: list[Shape], tablets: Sequence[Tablet], cells: float, holes: int) -> None:
    """A heavier line after every fifth tablet, so that the eye keeps its column."""
    for i, tablet in enumerate(tablets):
        if tablet.number % 5 == 0 and i + 1 < len(tablets):
            x = LABEL_W + (i + 1) * CELL_W
            shapes.append(Line(x, cells - 4, x, cells + holes * CELL_H, 0.5))


def _empty(x: float, y: float) -> list[Shape]:
    """A hole without a thread: a dashed cell, crossed out."""
    return [
        Rect(x, y, CELL_W, CELL_H, 0.25, Fill("#ffffff"), dash=(1.0, 0.8)),
        Line(x + 1.5, y + 1.5, x + CELL_W - 1.5, y + CELL_H - 1.5, 0.2),
        Line(x + 1.5, y + CELL_H - 1.5, x + CELL_W - 1.5, y + 1.5, 0.2),
    ]


def slant(cx: float, y: float, threaded: str, height: float = 5.5) -> list[Shape]:
    """A tablet edge from above with its thread through it, far side up, and the letter below.

    S: from near right to far left, like the middle stroke of S; Z the mirror image.
    """
    lean = 2.4 if threaded == "S" else -2.4
    return [
        Rect(cx - 0.5, y + 0.4, 1.0, height - 0.8, 0.2, Fill("#bfbfbf")),
        Line(cx - lean, y, cx + lean, y + height, 0.9),
        Text(cx, y + height + 3.6, threaded, 9, "middle", True),
    ]


def _groups(desk: Desk, tablets: Sequence[Tablet]) -> list[Shape]:
    """A named bracket over each run of tablets of one group."""
    shapes: list[Shape] = []
    at = 0
    while at < len(tablets):
        end = at
        while end < len(tablets) and tablets[end].group == tablets[at].group:
            end += 1
        name = tablets[at].group or desk.common("no group")
        shapes += _bracket(LABEL_W + at * CELL_W, LABEL_W + end * CELL_W, 0.0, name, desk)
        at = end
    return shapes


def _bracket(x1: float, x2: float, y: float, name: str, desk: Desk) -> list[Shape]:
    x1, x2 = x1 + 0.6, x2 - 0.6
    while len(name) > 2 and desk.measure(name, 8.5, True) > x2 - x1 - 1:
        name = f"{name[:-2]}."
    line = y + 4.4
    return [
        Text((x1 + x2) / 2, y + 3.4, name, 8.5, "middle", True),
        Line(x1, line, x2, line, 0.5),
        Line(x1, line, x1, line + 0.9, 0.5),
        Line(x2, line, x2, line + 0.9, 0.5),
    ]


def _repeats(
    desk: Desk, repeats: Sequence[RepeatRun], start: int, count: int, y: float
) -> list[Shape]:
    """Brackets over repeats, each unit ticked, with what is repeated how often."""
    shapes: list[Shape] = []
    for run in repeats:
        first, last = max(run.start, start), min(run.end, start + count)
        if first >= last:
            continue
        if run.size == 1:
            label = desk.common("alike", n=str(run.times))
        else:
            label = desk.common("repeat", size=str(run.size), times=str(run.times))
        x1, x2 = (LABEL_W + (p - start) * CELL_W for p in (first, last))
        shapes += _bracket(x1, x2, y, label, desk)
        for unit in range(1, run.times):
            at = run.start + unit * run.size
            if run.size > 1 and first < at < last:
                x = LABEL_W + (at - start) * CELL_W
                shapes.append(Line(x, y + 3.6, x, y + 5.3, 0.5))
    return shapes
