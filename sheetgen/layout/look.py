"""The surface as it will look: takes pack and turning, gives pictures of picks by tablets.

Both drawings keep the proportions of the work: columns as wide and picks as long as planned, at
true scale or enlarged by a whole factor that is printed beside them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import fill_of
from sheetgen.plan.looks import spiral_lead
from sheetgen.plan.pack import Tablet
from sheetgen.plan.surface import Cell, surface

LABEL_W, TITLE_H = 9.0, 10.5
COLUMN_MOST, HEIGHT_SHARE = 9.0, 0.43
ROUND_MOST = 17.0
"""Widest column (mm), tallest face (share of the frame), widest cord drawn enlarged (mm)."""
MOST_PICKS = 24


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
    return desk.common("enlarged").format(n=factor)


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
    every = next(n for n in (1, 5, 10, 50, 100) if n * column >= 5.5 or n == 100)
    for i, tablet in enumerate(tablets):
        x = LABEL_W + i * column
        if tablet.number % every == 0 or i == 0:
            shapes.append(Text(x + column / 2, top - 1.2, str(tablet.number), 8, "middle"))
        for pick, corners in enumerate(floats(cells[tablet.number - 1])):
            points = [(x + u * column, bottom - (pick + v) * row) for u, v in corners]
            shapes.append(_float(desk, cells[tablet.number - 1][pick], points))
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


def floats(cells: Sequence[Cell]) -> list[tuple[Corner, ...]]:
    """Corners of the float of each pick, in shares of a column (right) and of a pick (up).

    It leans like the thread: Z to the upper right, S to the upper left; where a tablet idles the
    last float runs on, a little upright.
    """
    found: list[tuple[Corner, ...]] = []
    last = 0.0
    for cell in cells:
        lean = {"Z": 0.42, "S": -0.42, "none": 0.3 * last}[cell.slant]
        last = lean or last
        left, right, up = 0.07, 0.93, abs(lean)
        if lean >= 0:
            corners = ((left, 0.0), (right - up, 0.0), (right, 1.0), (left + up, 1.0))
        else:
            corners = ((left + up, 0.0), (right, 0.0), (right - up, 1.0), (left, 1.0))
        found.append(corners if cell.yarn is not None else _weft_patch())
    return found


def _weft_patch() -> tuple[Corner, ...]:
    """Where an empty hole comes round: a small patch, the weft shows."""
    return ((0.3, 0.2), (0.7, 0.2), (0.7, 0.8), (0.3, 0.8))


def _float(desk: Desk, cell: Cell, points: Sequence[Corner]) -> Path:
    moves = (("M", *points[0]), *(("L", *point) for point in points[1:]), ("Z",))
    if cell.yarn is None:
        return Path(moves, 0.2, dash=(0.6, 0.6))
    return Path(moves, 0.2, fill_of(desk.plan.use(cell.yarn)))


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
        for pick, corners in enumerate(floats(column)):
            start = -math.pi / 2 + i * sector
            angles = [
                _round(start + u * sector + (pick + v) * per_pick, pick * per_pick + start)
                for u, v in corners
            ]
            if max(angles) < -math.pi / 2 or min(angles) > math.pi / 2:
                continue
            points = [
                (
                    x0 + radius + radius * math.sin(max(-math.pi / 2, min(math.pi / 2, a))),
                    bottom - (pick + v) * row,
                )
                for a, (_, v) in zip(angles, corners, strict=True)
            ]
            shapes.append(_float(desk, column[pick], points))
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


def _round(angle: float, column: float) -> float:
    """The angle brought to the turn in which its column starts between -pi and pi."""
    turns = math.floor((column + math.pi) / (2 * math.pi))
    return angle - 2 * math.pi * turns
