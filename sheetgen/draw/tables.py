"""A table: thin rules, a head that comes again on every page, tick boxes before the rows."""

from __future__ import annotations

import math
from typing import Any

from reportlab.platypus import Table as PlatypusTable

from sheetgen.draw.boxes import TICK, TICK_GAP, LayoutError, TickBox, tick_drops
from sheetgen.draw.scale import POINTS, millimetres
from sheetgen.draw.stack import FUZZ
from sheetgen.draw.text import Styles, flush_right, paragraph
from sheetgen.layout.blocks import Runs, Table

_PAD_SIDE = 2.0
_PAD = 1.3
"""Between a rule and the text, mm, at the sides and above and below."""
_THIN = 0.15
_RULE = 0.4
"""Line widths, mm."""
_TO_WRITE = 9.0
"""Least height of a row that a pencil writes in, mm."""
_MANY = 5
"""So many rows, the head among them, can spare one to keep the last company."""
_NARROWEST = 3.0
"""Less room for text is a mistake: hardly a letter goes in, mm."""


class SheetTable(PlatypusTable):
    """Rows with a head; parted between rows, and inside a row only if it is higher than a page.

    ``page`` is the height of an empty page in points.
    """

    page = 0.0

    def split(self, width: float, room: float) -> list[Any]:
        """Part between rows, or inside the one at the foot of the page if no page can hold it."""
        self.splitByRow, self.splitInRow = 1, 0
        parts: list[Any] = super().split(width, room)
        foot = parts[0]._nrows if parts else self.repeatRows
        heights, head = self._rowHeights, self.repeatRows
        if math.fsum(heights[:head]) + math.fsum(heights[foot : foot + 1]) > self.page + FUZZ:
            self.splitByRow, self.splitInRow = 0, 1
            return list(super().split(width, room))
        if len(parts) == 2 and parts[1]._nrows == head + 1 and self._nrows >= _MANY:
            # A row alone on a page is easily overlooked.
            return list(super().split(width, math.fsum(heights[:-2]) + FUZZ))
        return parts

    def onSplit(self, part: Any, byRow: int = 1) -> None:  # noqa: N802, N803
        """Tell the parts how high a page is."""
        part.page = self.page
        part.spaceAfter = self.spaceAfter


def table_flowable(table: Table, width: float, styles: Styles, page: float) -> SheetTable | None:
    """A table for ``width`` mm, nothing if it has no cells; ``page`` in points.

    Raises LayoutError for rows of another length than there are columns and for columns that
    leave no room for a letter.
    """
    for row in (*([table.head] if table.head else []), *table.rows):
        if len(row) != len(table.widths):
            raise LayoutError(f"a row of {len(row)} cells in a table of {len(table.widths)}")
    if not table.widths or not (table.head or table.rows):
        return None
    rows = [_cells(row, table, styles.body) for row in table.rows]
    if table.head:
        rows.insert(0, _cells(table.head, table, styles.strong))
    if table.ticked:
        for i, cells in enumerate(rows):
            cells.insert(0, "" if table.head and i == 0 else TickBox())
    flowable = SheetTable(
        rows,
        colWidths=[column * POINTS for column in _columns(table, width)],
        style=_looks(table, styles),
        repeatRows=1 if table.head else 0,
        hAlign="LEFT",
        spaceBefore=2.0 * POINTS,
        spaceAfter=3.5 * POINTS,
    )
    flowable.page = page
    return flowable


def _cells(cells: tuple[Runs, ...], table: Table, style: Any) -> list[Any]:
    """A paragraph for each cell; an empty text stays a text, which has the height of a line."""
    right = flush_right(style) if table.right else style
    found: list[Any] = []
    for i, runs in enumerate(cells):
        text = paragraph(runs, right if i in table.right else style)
        found.append(text if any(run.text.strip() for run in runs) else "")
    return found


def _columns(table: Table, width: float) -> list[float]:
    """Widths of the columns, mm; the tick box takes its own from the first."""
    columns = [share * width for share in table.widths]
    sides = [(_PAD_SIDE if i else 0.0) + _PAD_SIDE for i in range(len(columns))]
    sides[-1] -= _PAD_SIDE
    if table.ticked:
        columns[0] -= TICK + TICK_GAP
    room = min(column - side for column, side in zip(columns, sides, strict=True))
    if room < _NARROWEST:
        raise LayoutError(f"a column of a table leaves {room:.1f} mm for its text")
    return [TICK + TICK_GAP, *columns] if table.ticked else columns


def _looks(table: Table, styles: Styles) -> list[tuple[Any, ...]]:
    """Fonts, rules and room of a table, in platypus' words."""
    body = styles.body
    first = 1 if table.ticked else 0
    start = 1 if table.head else 0
    looks: list[tuple[Any, ...]] = [
        # For empty cells too: the default is a font that could not be embedded.
        ("FONT", (0, 0), (-1, -1), body.fontName, body.fontSize, body.leading),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), _PAD * POINTS),
        ("BOTTOMPADDING", (0, 0), (-1, -1), _PAD * POINTS),
        ("LEFTPADDING", (0, 0), (-1, -1), _PAD_SIDE * POINTS),
        ("RIGHTPADDING", (0, 0), (-1, -1), _PAD_SIDE * POINTS),
        ("LEFTPADDING", (0, 0), (first, -1), 0),
        ("RIGHTPADDING", (-1, 0), (-1, -1), 0),
        ("LINEBELOW", (0, start), (-1, -1), _THIN * POINTS, "black"),
        ("LINEBELOW", (0, "splitlast"), (-1, "splitlast"), _RULE * POINTS, "black"),
        ("LINEBELOW", (0, -1), (-1, -1), _RULE * POINTS, "black"),
    ]
    if table.to_write:
        below = max(_PAD, _TO_WRITE - _PAD - millimetres(body.leading))
        looks.append(("BOTTOMPADDING", (0, start), (-1, -1), below * POINTS))
    if table.head:
        looks.append(("LINEBELOW", (0, 0), (-1, 0), _RULE * POINTS, "black"))
    if table.ticked:
        tick, text = tick_drops(body.leading)
        looks += [
            ("RIGHTPADDING", (0, 0), (0, -1), 0),
            ("TOPPADDING", (0, start), (0, -1), (_PAD + tick) * POINTS),
            ("TOPPADDING", (1, start), (-1, -1), (_PAD + text) * POINTS),
        ]
    return looks
