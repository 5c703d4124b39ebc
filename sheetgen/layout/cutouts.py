"""Cut-outs at true scale for card: takes a plan, gives tablets, shuttle, bead gauge, tassel board.

A tablet is a square that a playing card yields, or a disc where it has other than four holes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.layout.blocks import (
    Block,
    Document,
    Figure,
    Heading,
    PageBreak,
    Para,
    Table,
    Together,
)
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.key import hole_places
from sheetgen.layout.materials import tool_rows
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.shapes import Circle, Line, Path, Picture, Rect, Shape, Text, moved
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.layout.words import Words
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

SIDE = 57.0
"""Side of a tablet, mm: a bridge card is 57.15 mm wide, a poker card 63.5 mm (trade custom)."""
CORNER = 4.0
"""Radius of a corner, mm, so that none catches its neighbour (common practice, no source)."""
HOLE = 5.5
"""Diameter of a hole, mm: what an office punch makes, 5 to 6 mm (from memory)."""
EDGE = 9.0
"""From a hole's middle to the edges, mm: the bridge of card is wider than the hole (practice)."""
GAP, TITLE = 1.5, 14.0
LINE = 0.25
SHUTTLE_LENGTH, SHUTTLE_WIDTH, NOTCH = 120.0, 32.0, 14.0
BOARD_WIDTH = 90.0


@dataclass(frozen=True, slots=True)
class Grid:
    """How many tablets go side by side and below each other on a page."""

    columns: int
    rows: int

    @property
    def on_page(self) -> int:
        """Tablets on a page."""
        return self.columns * self.rows


def grid_of(width: float, height: float) -> Grid:
    """As many tablets as fit on a page of ``width`` by ``height`` mm below its title.

    >>> grid_of(184, 251)
    Grid(columns=3, rows=4)
    """
    columns = int((width + GAP) / (SIDE + GAP))
    return Grid(max(1, columns), max(1, int((height - TITLE + GAP) / (SIDE + GAP))))


def tablets(desk: Desk) -> Iterator[Block]:
    """Front faces, as many pages as the pack needs; each page of backs behind its fronts.

    A back has a page of its own, so that it can be printed behind.
    """
    words, count = desk.words("tablets"), len(desk.plan.pack.tablets)
    grid = grid_of(desk.width, desk.height)
    for start in range(0, count, grid.on_page):
        numbers = range(start + 1, min(start + grid.on_page, count) + 1)
        one = " one" if len(numbers) == 1 else ""
        for back in (False, True):
            key = f"backs{one}" if back else f"fronts{one}"
            title = words.text(key, first=str(numbers[0]), last=str(numbers[-1]))
            if back or start:
                yield PageBreak()
            yield Together((Heading(title), Figure(faces(desk, numbers, grid, back))))


def faces(desk: Desk, numbers: range, grid: Grid, back: bool) -> Picture:
    """A page of faces; backs stand mirrored, so that they meet their fronts on two sides."""
    step = SIDE + GAP
    shapes: list[Shape] = []
    wide = grid.columns * step - GAP
    left = (desk.width - wide) / 2
    for i, number in enumerate(numbers):
        row, column = divmod(i, grid.columns)
        column = grid.columns - 1 - column if back else column
        x, y = left + column * step, LINE + row * step
        face = tablet_face(desk.plan.pack.holes, number, back)
        shapes += (moved(shape, x, y) for shape in face)
    high = math.ceil(len(numbers) / grid.columns) * step
    return Picture(desk.width, high, tuple(shapes), True, "backs" if back else "tablets")


def tablet_face(holes: int, number: int, back: bool = False) -> list[Shape]:
    """One face with its holes and letters; from the back all stands mirrored, letters upright."""
    centre = SIDE / 2
    if holes == 4:
        radius = (centre - EDGE) * math.sqrt(2)
        shapes: list[Shape] = [Rect(0, 0, SIDE, SIDE, LINE, round=CORNER)]
    else:
        radius = centre - EDGE
        shapes = [Circle(centre, centre, centre, LINE)]
    for letter, (x, y) in zip(HOLE_LETTERS, hole_places(holes, centre, centre, radius),
                              strict=False):  # fmt: skip
        x = SIDE - x if back else x
        shapes += [
            Circle(x, y, HOLE / 2, LINE),
            Line(x - 0.8, y, x + 0.8, y, 0.15),
            Line(x, y - 0.8, x, y + 0.8, 0.15),
            Text(x + (centre - x) * 0.36, y + (centre - y) * 0.36 + 2, letter, 16, "middle", True),
        ]
    shapes.append(Text(centre, centre + 1.5, str(number), 11, "middle"))
    return shapes


def tools(desk: Desk) -> Iterator[Block]:
    """Shuttle, bead gauge and tassel board, as far as the piece needs them and they fit."""
    words = desk.words("tools")
    yield PageBreak()
    yield Heading(words.heading)
    for _, runs in words.lines("how"):
        yield Para(runs)
    yield Figure(shuttle(words), words.runs("shuttle caption"))
    if desk.plan.string:
        yield Figure(bead_holes(desk), words.runs("gauge caption"))
    if desk.plan.tassel and desk.plan.tassel.strands:
        board = desk.plan.tassel.strand_length / 2
        if board <= desk.height - 2 * TITLE:
            yield Figure(tassel_board(desk, words, board), words.runs("board caption"))
        else:
            yield Para(words.runs("board too large"))


def shuttle(words: Words) -> Picture:
    """A flat shuttle with a notch at each end to wind the weft through."""
    w, h, n = SHUTTLE_LENGTH, SHUTTLE_WIDTH, NOTCH
    mid = h / 2
    moves = (
        ("M", 4.0, 0.5), ("L", w - 4, 0.5), ("L", w, 4.5), ("L", w - n, mid - 2),
        ("C", w - n - 5, mid - 2, w - n - 5, mid + 2, w - n, mid + 2), ("L", w, h - 4),
        ("L", w - 4, h), ("L", 4.0, h), ("L", 0.5, h - 4), ("L", n, mid + 2),
        ("C", n + 5, mid + 2, n + 5, mid - 2, n, mid - 2), ("L", 0.5, 4.5), ("Z",),
    )  # fmt: skip
    label = Text(w / 2, mid + 1.5, words.text("shuttle"), 10, "middle")
    return Picture(w + 0.5, h + 0.5, (Path(moves, LINE), label), True, "shuttle")


def bead_holes(desk: Desk) -> Picture:
    """A strip with a hole for each size of bead; a bead of that size just goes through."""
    string = desk.plan.string
    assert string is not None, "asked only for strings of beads"
    sizes = sorted({k.diameter for k in string.kinds if k.name in string.string.counts})
    shapes: list[Shape] = []
    x = y = 4.0
    row = right = 0.0
    for size in sizes:
        need = max(size, desk.measure(desk.length(size), 9, False))
        if x > 4.0 and x + need + 4 > desk.width:
            x, y, row = 4.0, y + row + 9, 0.0
        shapes += [
            Circle(x + need / 2, y + size / 2, size / 2, LINE),
            Text(x + need / 2, y + size + 4, desk.length(size), 9, "middle"),
        ]
        x += need + 5
        row, right = max(row, size), max(right, x)
    high = y + row + 7
    shapes.insert(0, Rect(0.5, 0.5, right - 1.5, high - 1, LINE, round=2))
    return Picture(min(right, desk.width), high, tuple(shapes), True, "bead gauge")


def tassel_board(desk: Desk, words: Words, board: float) -> Picture:
    """A card as high as half a strand: threads wound round it are cut at one edge."""
    wide = min(BOARD_WIDTH, desk.width - 1)
    label = words.text("board", high=desk.length(board))
    shapes = (
        Rect(0.5, 0.5, wide, board, LINE),
        Line(wide / 2, 6, wide / 2, board - 5, 0.2, (1, 1)),
        Text(wide / 4, board / 2, label, 9, "middle"),
    )
    return Picture(wide + 1, board + 1, shapes, True, "tassel board")


def stand_ins(desk: Desk) -> Iterator[Block]:
    """Each tool with its period form and its household stand-in, side by side."""
    words = desk.words("stand-ins")
    rows = tuple(tool_rows(words))
    if not rows:
        return
    heads = tuple(words.runs(head) for head in ("head tool", "head period", "head household"))
    table = Table(heads, rows, (0.4, 0.32, 0.28))
    # nobody wants a card with two rows on it
    yield Together((Heading(words.heading), Para(words.runs("practice")), table))


PARTS: dict[str, Part] = {"tablets": tablets, "tools": tools, "stand-ins": stand_ins}


def cutouts_sheet(
    plan: Plan, template: Template, paper: Paper, measure: Measure, setting: Setting = AS_IT_IS
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not known here."""
    return lay_out(PARTS, plan, template, paper, measure, setting)
