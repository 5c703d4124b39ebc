"""The surface as it will look: takes pack and turning, gives pictures of picks by tablets.

Both drawings keep the proportions of the work: columns as wide and picks as long as planned, at
true scale or enlarged by a whole factor that is printed beside them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Fill, Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import fill_of
from sheetgen.plan.looks import spiral_lead
from sheetgen.plan.pack import Tablet
from sheetgen.plan.surface import Cell, surface

LABEL_W, TITLE_H = 9.0, 10.5
COLUMN_MOST, HEIGHT_SHARE = 9.0, 0.43
ROUND_MOST = 17.0
"""Widest column (mm), tallest face (share of the frame), widest cord drawn enlarged (mm)."""
MOST_PICKS, STROKE, NUMBER_W = 24, 0.4, 5.5


def picks_shown(desk: Desk) -> int:
    """One pass of the steps, or two full turns of the tablets; at most :data:`MOST_PICKS`."""
    turning, holes = desk.plan.turning, desk.plan.pack.holes
    second = [s.first for s in turning.stretches if s.pass_start and s.first]
    one_pass = second[0] if second else 2 * holes
    return min(MOST_PICKS, turning.picks, max(one_pass, 2 * holes))


def column_width(desk: Desk) -> float:
    """Width of one tablet's column on the work, mm: a share of the band, or of a tube's girth."""
    plan = desk.plan
    whole = math.pi * plan.thickness if plan.width is None else plan.width
    return whole / len(plan.pack.tablets)


def factor_of(desk: Desk, columns: int, width: float) -> int:
    """The largest whole factor at which ``columns`` columns go into ``width`` mm; at least 1."""
    column, pick = column_width(desk), desk.plan.turning.spacing
    most = min(
        COLUMN_MOST / column,
        width / (columns * column),
        HEIGHT_SHARE * desk.height / (picks_shown(desk) * pick),
    )
    return max(1, int(most + 1e-9))


def shown_cells(desk: Desk) -> list[list[Cell]]:
    """The first picks of the whole pack, one list a tablet."""
    turning = desk.plan.turning
    return surface(desk.plan.pack, turning.stretches, turning.flips_at, picks_shown(desk))


def enlarged(desk: Desk, factor: int) -> str:
    """“true scale” or “enlarged 6 times”, in the template's words."""
    if factor == 1:
        return desk.common("true scale")
    return desk.common("enlarged", n=str(factor))


def face(desk: Desk, tablets: Sequence[Tablet], width: float, title: str, seam: str) -> Picture:
    """The first picks of these tablets, woven upwards, within ``width`` mm.

    ``title`` stands above with the factor under it; ``seam``, if not empty, names the dashed
    lines at both sides of a tube.
    """
    factor = factor_of(desk, len(tablets), width - LABEL_W - 1)
    column, row = factor * column_width(desk), factor * desk.plan.turning.spacing
    cells = shown_cells(desk)
    picks = picks_shown(desk)
    top = TITLE_H + 3.5
    bottom, right = top + picks * row, LABEL_W + len(tablets) * column
    note = enlarged(desk, factor)
    shapes: list[Shape] = [Text(LABEL_W, 3.5, title, 9, bold=True), Text(LABEL_W, 7.5, note, 8.5)]
    for pick in range(picks):
        if (pick + 1) % desk.plan.pack.holes == 0 or pick == 0:
            y = bottom - (pick + 0.5) * row + 1.1
            shapes.append(Text(LABEL_W - 2, y, str(pick + 1), 8.5, "end"))
    every = next(n for n in (1, 5, 10, 50, 100) if n * column >= NUMBER_W or n == 100)
    for i, tablet in enumerate(tablets):
        x = LABEL_W + i * column
        if i == 0 or (tablet.number % every == 0 and i * column >= NUMBER_W):
            shapes.append(Text(x + column / 2, top - 1.2, str(tablet.number), 8, "middle"))
        own = cells[tablet.number - 1]
        for pick, strokes in enumerate(slants(own)):
            y = bottom - (pick + 1) * row
            shapes += _cell(desk, own[pick], ((x, y), (x + column, y), (x + column, y + row),
                                              (x, y + row)))  # fmt: skip
            for u1, v1, u2, v2 in strokes:
                y1, y2 = (bottom - (pick + v) * row for v in (v1, v2))
                shapes.append(Line(x + u1 * column, y1, x + u2 * column, y2, STROKE))
    shapes.append(Rect(LABEL_W, top, right - LABEL_W, bottom - top, 0.3))
    height, reach = bottom + 1.5, [right, LABEL_W + desk.measure(title, 9, True)]
    if seam:
        for x in (LABEL_W, right):
            shapes.append(Line(x, top - 1.5, x, bottom + 1.5, 0.7, dash=(1.6, 1.0)))
        shapes.append(Text(LABEL_W, bottom + 5, seam, 8.5))
        height = bottom + 6.5
        reach.append(LABEL_W + desk.measure(seam, 8.5, False))
    return Picture(max(reach) + 0.7, height, tuple(shapes), factor == 1, "face")


Corner = tuple[float, float]
Stroke = tuple[float, float, float, float]
"""From and to, in shares of a column (right) and of a pick (up)."""


def slants(cells: Sequence[Cell]) -> list[tuple[Stroke, ...]]:
    """Strokes along the thread of each pick: Z leans to the upper right, S to the upper left.

    Where a tablet idles the last float runs on and gets none; an empty hole gets none either.
    """
    found: list[tuple[Stroke, ...]] = []
    for cell in cells:
        lean = {"Z": 0.5, "S": -0.5, "none": 0.0}[cell.slant]
        if not lean or cell.yarn is None:
            found.append(())
            continue
        edges = (0.0, 0.5) if lean > 0 else (0.5, 1.0)
        found.append(tuple((u, 0.0, u + lean, 1.0) for u in edges))
    return found


def _cell(desk: Desk, cell: Cell, corners: Sequence[Corner]) -> list[Shape]:
    """One pick of one tablet in its yarn's fill; where an empty hole comes round, the weft: a dash.

    A cell that the float of an idle tablet runs through has no line below it: see the outline.
    """
    moves = (("M", *corners[0]), *(("L", *corner) for corner in corners[1:]), ("Z",))
    if cell.yarn is None:
        left, right = corners[3][0], corners[2][0]
        y = (corners[0][1] + corners[3][1]) / 2
        third = (right - left) / 3
        weft = Line(left + third, y, right - third, y, 0.5)
        return [Path(moves, 0.12, Fill("#ffffff")), weft]
    return [Path(moves, 0.12, fill_of(desk.plan.use(cell.yarn)))]


def round_factor(desk: Desk) -> int:
    """The largest whole factor at which the cord is at most :data:`ROUND_MOST` mm thick."""
    tall = HEIGHT_SHARE * desk.height / (picks_shown(desk) * desk.plan.turning.spacing)
    return max(1, int(min(ROUND_MOST / desk.plan.thickness, tall) + 1e-9))


def round_cord(desk: Desk, title: str) -> Picture:
    """A tube from one side: half its columns, turning round it where the first length spirals."""
    plan, factor = desk.plan, round_factor(desk)
    radius, row = factor * plan.thickness / 2, factor * plan.turning.spacing
    picks, cells = picks_shown(desk), shown_cells(desk)
    top = TITLE_H + 1.0
    bottom, x0 = top + picks * row, 2.0
    per_pick = _turn_per_pick(desk)
    sector = 2 * math.pi / len(plan.pack.tablets)
    shapes: list[Shape] = [
        Text(x0, 3.5, title, 9, bold=True),
        Text(x0, 7.5, enlarged(desk, factor), 8.5),
    ]
    for i, column in enumerate(cells):
        start = -math.pi / 2 + i * sector
        strokes = slants(column)
        for pick, cell in enumerate(column):
            turned = _round(start + pick * per_pick)

            def at(u: float, v: float, turned: float = turned, pick: int = pick) -> Corner:
                angle = turned + u * sector + v * per_pick
                across = math.sin(max(-math.pi / 2, min(math.pi / 2, angle)))
                return x0 + radius * (1 + across), bottom - (pick + v) * row

            if turned + sector + per_pick <= -math.pi / 2 or turned >= math.pi / 2:
                continue
            shapes += _cell(desk, cell, (at(0, 1), at(1, 1), at(1, 0), at(0, 0)))
            shapes += [Line(*at(u1, v1), *at(u2, v2), STROKE) for u1, v1, u2, v2 in strokes[pick]]
    for x in (x0, x0 + 2 * radius):
        shapes.append(Line(x, top, x, bottom, 0.4))
    wide = max(
        2 * radius, desk.measure(title, 9, True), desk.measure(enlarged(desk, factor), 9, False)
    )
    return Picture(x0 + wide + 1, bottom + 1.5, tuple(shapes), factor == 1, "round cord")


def _turn_per_pick(desk: Desk) -> float:
    """How far (radians) the columns move round the tube in one pick of its first length.

    A spiral like Z climbs to the right on the side that is seen, one like S to the left.
    """
    plan = desk.plan
    look = plan.turning.lengths[0].look if plan.turning.lengths else "straight"
    sign = {"spiral Z": 1, "spiral S": -1}.get(look, 0)
    lead = spiral_lead(plan.turning.spacing, plan.thickness)
    return sign * 2 * math.pi * plan.turning.spacing / lead


def _round(angle: float) -> float:
    """The angle brought between -pi and pi."""
    return angle - 2 * math.pi * math.floor((angle + math.pi) / (2 * math.pi))
