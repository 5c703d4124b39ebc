"""The surface as it will look: takes pack and turning, gives pictures of picks by tablets."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.layout.chart import CELL_W, LABEL_W
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import fill_of
from sheetgen.plan.pack import Tablet
from sheetgen.plan.surface import Cell, surface

ROW_H, FLAT_ROW_H = 4.6, 3.3
"""Height of a pick: beside the chart, and under a wide one, mm."""
MOST_PICKS = 24


def picks_shown(desk: Desk) -> int:
    """One pass of the steps, or two full turns of the tablets; at most :data:`MOST_PICKS`."""
    turning, holes = desk.plan.turning, desk.plan.pack.holes
    second = [s.first for s in turning.stretches if s.pass_start and s.first]
    one_pass = second[0] if second else 2 * holes
    return min(MOST_PICKS, turning.picks, max(one_pass, 2 * holes))


def look(
    desk: Desk, tablets: Sequence[Tablet], title: str, seam: str, row_h: float = ROW_H
) -> Picture:
    """The first picks of these tablets, woven upwards, in columns as wide as the chart's.

    ``title`` stands above; ``seam``, if not empty, names the dashed lines at both sides of a tube.
    """
    turning, pack = desk.plan.turning, desk.plan.pack
    picks = picks_shown(desk)
    columns = surface(pack, turning.stretches, turning.flips_at, picks)
    top = 6.5
    bottom = top + picks * row_h
    width = max(LABEL_W + len(tablets) * CELL_W + 0.5, desk.measure(title, 9, True) + LABEL_W + 1)
    shapes: list[Shape] = [Text(LABEL_W, 3.5, title, 9, bold=True)]
    for pick in range(picks):
        if (pick + 1) % desk.plan.pack.holes == 0 or pick == 0:
            y = bottom - pick * row_h - (row_h - 2.2) / 2
            shapes.append(Text(LABEL_W - 2, y, str(pick + 1), 8.5, "end"))
    for i, tablet in enumerate(tablets):
        x = LABEL_W + i * CELL_W
        cells = columns[tablet.number - 1]
        for pick, cell in enumerate(cells):
            y = bottom - (pick + 1) * row_h
            before = cells[pick - 1] if pick else None
            shapes += _cell(desk, cell, before, x, y, row_h)
    right = LABEL_W + len(tablets) * CELL_W
    shapes.append(Rect(LABEL_W, top, right - LABEL_W, bottom - top, 0.3))
    height = bottom + 1.5
    if seam:
        for x in (LABEL_W, right):
            shapes.append(Line(x, top - 1.5, x, bottom + 1.5, 0.7, dash=(1.6, 1.0)))
        shapes.append(Text((LABEL_W + right) / 2, bottom + 5, seam, 8.5, "middle"))
        height = bottom + 6.5
        width = max(width, (LABEL_W + right) / 2 + desk.measure(seam, 8.5, False) / 2 + 1)
    return Picture(width, height, tuple(shapes), name="surface")


def _cell(
    desk: Desk, cell: Cell, before: Cell | None, x: float, y: float, row_h: float
) -> list[Shape]:
    """One float: a slanting lozenge in the yarn's fill; upright and long where a tablet idles."""
    if cell.yarn is None:
        return [Rect(x + 2, y + 0.8, CELL_W - 4, row_h - 1.6, 0.2, dash=(0.6, 0.6))]
    lean = {"Z": 1.0, "S": -1.0, "none": 0.0}[cell.slant]
    if cell.slant == "none" and before is not None and before.slant in ("S", "Z"):
        lean = 0.35 if before.slant == "Z" else -0.35
    inner = CELL_W - 1.0
    cut = inner * 0.42 * lean
    left, right = x + 0.5, x + 0.5 + inner
    near_left, near_right = left + max(-cut, 0.0), right - max(cut, 0.0)
    far_left, far_right = left + max(cut, 0.0), right - max(-cut, 0.0)
    moves = (
        ("M", near_left, y + row_h),
        ("L", near_right, y + row_h),
        ("L", far_right, y),
        ("L", far_left, y),
        ("Z",),
    )
    return [Path(moves, 0.2, fill_of(desk.plan.use(cell.yarn)))]
