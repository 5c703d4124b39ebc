"""A table: thin rules, a head that comes again on every page, tick boxes before the rows."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.draw.boxes import EPS, RULE, THIN, TICK, TICK_GAP, Box, TextBox, draw_tick, text_drop
from sheetgen.draw.pen import Pen

PAD_SIDE = 2.0
PAD = 1.3
"""Between a rule and the text, mm, at the sides and above and below."""


class Row:
    """The cells of one row, their tops level, and whether a tick box stands before them."""

    def __init__(self, cells: Sequence[TextBox], ticked: bool) -> None:
        self.cells = tuple(cells)
        self.ticked = ticked
        self.drop = max((text_drop(c.line) for c in self.cells), default=0.0) if ticked else 0.0
        tallest = max((cell.height for cell in self.cells), default=0.0)
        self.height = max(self.drop + tallest, TICK if ticked else 0.0) + 2 * PAD

    def draw(self, pen: Pen, x: float, y: float, places: Sequence[float]) -> None:
        """Draw with the cells' texts ``places`` to the right of x."""
        if self.ticked and self.cells:
            draw_tick(pen, x, y + PAD, self.cells[0].line)
        for cell, place in zip(self.cells, places, strict=True):
            cell.draw(pen, x + place, y + PAD + self.drop)

    def least(self) -> float:
        """Height of the row with a single line in it, mm."""
        line = max((cell.line for cell in self.cells), default=0.0)
        return max(self.drop + line, TICK if self.ticked else 0.0) + 2 * PAD

    def split(self, room: float) -> tuple[Row, Row] | None:
        """Part every cell at the foot of a page; cells that fit leave an empty one."""
        first, rest = [], []
        inner = room - 2 * PAD - self.drop
        for cell in self.cells:
            if cell.height <= inner + EPS:
                parts: tuple[TextBox, TextBox] | None = cell, cell.emptied()
            else:
                parts = cell.split(inner, inner)
            if parts is None:
                return None
            first.append(parts[0])
            rest.append(parts[1])
        return Row(first, self.ticked), Row(rest, ticked=False)


class TableBox(Box):
    """Rows with a head; parted between rows, or inside a row that is higher than a page."""

    above = 2.0
    below = 3.5

    def __init__(
        self, head: Row | None, rows: Sequence[Row], width: float, places: Sequence[float]
    ) -> None:
        """``places`` are the left edges of the cells' texts, mm from the table's."""
        self._head = head
        self._rows = tuple(rows)
        self._width = width
        self._places = tuple(places)
        self._head_height = head.height if head else 0.0
        self.height = self._head_height + sum(row.height for row in rows)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        thin, strong = [], []
        if self._head:
            self._head.draw(pen, x, y, self._places)
            y += self._head.height
            strong.append(y)
        for i, row in enumerate(self._rows):
            if i:
                thin.append(y)
            row.draw(pen, x, y, self._places)
            y += row.height
        strong.append(y)
        for rules, line in ((thin, THIN), (strong, RULE)):
            if rules:
                pen.segments([(x, rule, x + self._width, rule) for rule in rules], line)

    def least(self, page: float) -> float:
        """The head and the first row, or a line of it if the row is higher than a page."""
        if not self._rows:
            return self.height
        first = self._rows[0]
        whole = first.height <= page - self._head_height + EPS
        return self._head_height + (first.height if whole else first.least())

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """Part between rows, or inside one that is higher than a page; both parts get the head."""
        y = self._head_height
        count = 0
        for row in self._rows:
            if y + row.height > room + EPS:
                break
            y += row.height
            count += 1
        if count == len(self._rows):
            return None
        first, rest = self._rows[:count], self._rows[count:]
        if rest[0].height > page - self._head_height + EPS:
            parts = rest[0].split(room - y)
            if parts:
                first, rest = (*first, parts[0]), (parts[1], *rest[1:])
        if not first:
            return None
        return self._part(first), self._part(rest)

    def described(self) -> str:
        """Say that it is a table."""
        return "a table"

    def _part(self, rows: tuple[Row, ...]) -> TableBox:
        return TableBox(self._head, rows, self._width, self._places)


def column_places(widths: Sequence[float], width: float, ticked: bool) -> list[tuple[float, float]]:
    """Left edge and width of each column's text, mm, from shares of ``width``.

    The tick box takes its room from the first column, which keeps at least the room of a letter.
    """
    columns, x = [], 0.0
    for i, share in enumerate(widths):
        left = x + (TICK + TICK_GAP if ticked and i == 0 else 0.0 if i == 0 else PAD_SIDE)
        x += share * width
        right = x - (0.0 if i == len(widths) - 1 else PAD_SIDE)
        columns.append((left, max(right - left, 3.0)))
    return columns
