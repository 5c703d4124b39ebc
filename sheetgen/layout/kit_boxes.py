"""Boxes of a kit: takes the turning, gives a box for so many picks that all fit into a few rows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sheetgen.diagnostics import Diagnostic
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Fill, Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.plan import Plan
from sheetgen.plan.turning import Stretch

BOX, PITCH, GROUP_GAP, ROW = 5.2, 5.8, 1.6, 7.4
STOP_W, RIGHT_W = 14.5, 15.0
MOST_ROWS = 7
A_ROW = 11
"""Boxes in a row of a narrow column, about."""
MOST_PICKS = 12
"""Picks that are counted surely without a mark (common practice, no source)."""
TURNS = (1, 2, 3, 4, 5, 10, 20, 40)
"""Full turns that a box may stand for."""


@dataclass(frozen=True, slots=True)
class Box:
    """A box from ``first`` to ``last`` picks woven; ``stop`` is the number of the stop after it."""

    first: int
    last: int
    stop: int = 0


def turn_boxes(desk: Desk, words: Words, one_pass: Sequence[Stretch]) -> tuple[list[Picture], int]:
    """The rows of boxes, and the picks in a whole one."""
    turning, holes = desk.plan.turning, desk.plan.pack.holes
    if turning.patterned:
        per_box = one_pass[-1].last
        return _pictures(desk, words, list(boxes_of(desk.plan, per_box)), per_box), per_box
    for turns in TURNS:
        per_box = turns * holes
        boxes = list(boxes_of(desk.plan, per_box))
        if len(_rows(desk, boxes)) <= MOST_ROWS:
            break
    return _pictures(desk, words, boxes, per_box), per_box


def boxes_of(plan: Plan, per_box: int) -> Iterator[Box]:
    """Boxes of ``per_box`` picks, cut short at every stop and at the end."""
    turning = plan.turning
    stops = {i.pick: i.number for i in turning.interventions}
    ends = sorted({*stops, turning.picks})
    at = 0
    for end in ends:
        while at < end:
            whole = at - at % per_box + per_box if turning.patterned else at + per_box
            last = min(whole, end)
            yield Box(at, last, stops.get(last, 0) if last == end else 0)
            at = last


def _rows(desk: Desk, boxes: Sequence[Box]) -> list[list[tuple[float, Box]]]:
    """Boxes with their places, as many a row as the width has room for, in fives."""
    room = desk.width - RIGHT_W
    rows: list[list[tuple[float, Box]]] = [[]]
    x, count = 0.0, 0
    for box in boxes:
        need = BOX + (STOP_W if box.stop else 0.0)
        if rows[-1] and x + need > room:
            rows.append([])
            x, count = 0.0, 0
        rows[-1].append((x, box))
        count += 1
        x += PITCH + (GROUP_GAP if count % 5 == 0 else 0.0)
        if box.stop:
            x, count = x + STOP_W, 0
    return rows


def _pictures(desk: Desk, words: Words, boxes: Sequence[Box], per_box: int) -> list[Picture]:
    """A picture a row, so that columns break between rows."""
    pictures = []
    y = 0.5
    spacing = desk.plan.turning.spacing
    for row in _rows(desk, boxes):
        shapes: list[Shape] = []
        for x, box in row:
            shapes.append(Rect(x, y, BOX, BOX, 0.4))
            if box.last - box.first != per_box:
                told = str(box.last - box.first)
                shapes.append(Text(x + BOX / 2, y + 4.0, told, 9, "middle"))
            if box.stop:
                left = x + PITCH
                shapes += [
                    Rect(left, y - 0.2, STOP_W - 1.6, BOX + 0.4, 0.7, Fill("#e6e6e6")),
                    Text(left + STOP_W / 2 - 0.8, y + 4.0, words.text("stop n", n=str(box.stop)),
                         9, "middle", True),
                ]  # fmt: skip
        at = desk.along(row[-1][1].last * spacing)
        shapes.append(Text(desk.width, y + 4.0, at, 9, "end", True))
        end = row[-1][0] + PITCH + (STOP_W if row[-1][1].stop else 0)
        room = desk.width - desk.measure(at, 9, True) - 1
        if end < room:
            shapes.append(Line(end, y + 3.0, room, y + 3.0, 0.15, (0.4, 1.2)))
        pictures.append(Picture(desk.width, ROW - 1.0, tuple(shapes), name="turn boxes"))
    return pictures


def rows_at_least(plan: Plan) -> int:
    """Rows that boxes of the most turns take in a column."""
    boxes = plan.turning.picks / (TURNS[-1] * plan.pack.holes)
    return math.ceil((boxes + len(plan.turning.interventions) * STOP_W / PITCH) / A_ROW)


def length_key(plan: Plan) -> str:
    """The key that makes a piece long."""
    return "beads.order" if plan.string else "length"


def crowded(plan: Plan, per_box: int) -> Iterator[Diagnostic]:
    """A box that stands for more picks than a guest counts surely."""
    if plan.turning.patterned or per_box <= MOST_PICKS:
        return
    key = length_key(plan)
    path: tuple[str, ...] = tuple(key.split("."))
    if plan.project.kit and path[0] in plan.project.kit.differs:
        path = ("kit", "differs", *path)
    yield Diagnostic(
        "crowded-boxes",
        "warning",
        f"a box on the kit sheet stands for {per_box} picks, and guests lose count",
        path,
        allowed=f"at most {MOST_PICKS}",
        hint=f"give guests a shorter piece: “{key}” in “differs”, under “kit”",
    )
