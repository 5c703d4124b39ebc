"""The bead strip: takes the string, gives rows at true scale with marks where they overlap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sheetgen.layout.desk import Desk
from sheetgen.layout.outline import bead_outline, cord, knot, ruler
from sheetgen.layout.shapes import Line, Picture, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.beads import Placed

MARK_W = 9.0
"""Room at both ends of a row for the overlap mark, mm."""


NUMBER_W = 5.0
"""Room that a bead's number takes, mm: of smaller beads only some are numbered."""
WHOLE = ("bead", "knot", "finial")
"""What is never cut by the end of a row."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Something on the string from ``start`` for ``length`` mm: a bead, gap, knot or bare cord."""

    start: float
    length: float
    what: str
    placed: Placed | None = None


def pieces_of(desk: Desk) -> list[Piece]:
    """Everything along the string in order: cord before the first bead, beads, finger room."""
    string = desk.plan.string
    assert string is not None, "asked only for strings of beads"
    found: list[Piece] = []
    at = 0.0
    if string.start:
        found.append(Piece(0.0, string.start, "end"))
        at = string.start
    for placed in string.string.placed:
        found.append(Piece(at, placed.length, placed.what, placed))
        at += placed.length
    if string.room > 0:
        found.append(Piece(at, string.room, "room"))
        at += string.room
    rest = string.ends_take - string.start
    if string.finial and string.finial.length:
        found.append(Piece(at, string.finial.length, "finial"))
    elif rest > 0:
        found.append(Piece(at, rest, "end"))
    return found


def rows_of(pieces: Sequence[Piece], room: float) -> list[list[Piece]]:
    """Break pieces into rows at most ``room`` mm long; bare cord may be cut, a bead never is."""
    rows: list[list[Piece]] = [[]]
    left = room
    waiting = list(reversed(pieces))
    while waiting:
        piece = waiting.pop()
        if piece.length <= left + 1e-9:
            rows[-1].append(piece)
            left -= piece.length
        elif piece.what not in WHOLE and (left > 5 or not rows[-1]):
            rows[-1].append(Piece(piece.start, left, piece.what, piece.placed))
            rest = Piece(piece.start + left, piece.length - left, piece.what, piece.placed)
            waiting.append(rest)
            rows.append([])
            left = room
        elif rows[-1]:
            waiting.append(piece)
            rows.append([])
            left = room
        else:  # a bead wider than the paper stands alone
            rows[-1].append(piece)
            left = 0.0
    return [row for row in rows if row]


def strip_pictures(desk: Desk, words: Words) -> list[Picture]:
    """All rows as pictures; each ends with the number of the mark that begins the next."""
    rows = rows_of(pieces_of(desk), desk.width - 2 * MARK_W)
    return [_row(desk, words, row, i, len(rows)) for i, row in enumerate(rows)]


def _row(desk: Desk, words: Words, row: Sequence[Piece], number: int, rows: int) -> Picture:
    string, thickness = desk.plan.string, desk.plan.thickness
    assert string is not None, "asked only for strings of beads"
    widest = max([thickness, 4.0, *(_diameter(desk, piece) for piece in row)])
    middle = 6.5 + widest / 2
    start = row[0].start
    length = row[-1].start + row[-1].length - start
    shapes: list[Shape] = cord(MARK_W, middle, length, thickness)
    shapes += _marks(MARK_W, length, middle, widest, number, rows)
    # The heavy outlines last: a neighbour's white would hide half of their line.
    for piece in sorted(row, key=_is_heavy):
        shapes += _drawn(desk, words, piece, MARK_W + piece.start - start, middle, widest)
    below = middle + widest / 2
    y = below + 2.0
    units = desk.plan.project.units
    if units != "inches":
        shapes += ruler(MARK_W, y, start, length, inches=False)
        y += 8
    if units != "mm":
        shapes += ruler(MARK_W, y, start, length, inches=True)
        y += 8
    width = max(MARK_W * 2 + length, 20.0)
    return Picture(width, y + 0.5, tuple(shapes), true_scale=True, name=f"strip {number + 1}")


def _marks(
    x: float, length: float, middle: float, widest: float, number: int, rows: int
) -> list[Shape]:
    """Numbered lines where a row goes on: lay equal numbers on each other."""
    shapes: list[Shape] = []
    half = max(widest / 2, 4)
    for at, label, wanted in ((x, number, number > 0), (x + length, number + 1, number + 1 < rows)):
        if wanted:
            away = -1 if at == x else 1
            shapes += [
                Line(at, middle - half, at, middle + half, 0.5, dash=(1.5, 0.8)),
                Text(at + away * 4.5, middle + 1.6, f"×{label}", 11, "middle", True),
            ]
    return shapes


def _diameter(desk: Desk, piece: Piece) -> float:
    """How far a piece reaches across the string, mm."""
    if piece.placed is not None and piece.placed.kind is not None:
        return piece.placed.kind.diameter
    finial = desk.plan.string.finial if desk.plan.string else None
    return (finial.diameter or piece.length) if piece.what == "finial" and finial else 0.0


def _is_heavy(piece: Piece) -> bool:
    kind = piece.placed.kind if piece.placed is not None else None
    return piece.what == "finial" or (kind is not None and kind.divider)


def _drawn(
    desk: Desk, words: Words, piece: Piece, x: float, middle: float, widest: float
) -> list[Shape]:
    """A bead with its number above it, a knot, or a named stretch of bare cord."""
    placed = piece.placed
    if piece.what == "bead" and placed is not None and placed.kind is not None:
        kind = placed.kind
        line = 0.7 if kind.divider else 0.3
        outline = bead_outline(kind.shape, x, middle, piece.length, kind.diameter, line)
        centre = x + piece.length / 2
        shapes: list[Shape] = [outline]
        every = next(n for n in (1, 5, 10, 20, 50) if n * piece.length >= NUMBER_W or n == 50)
        if placed.number % every == 0 or placed.number == 1:
            y = middle - widest / 2 - 1.2
            shapes.append(Text(centre, y, str(placed.number), 8, "middle"))
        if kind.stands_for is not None:
            shapes.append(Text(centre, middle + 1.3, "≠", 9, "middle", True))
        elif kind.hole and kind.diameter >= 6 and piece.length >= 5:
            shapes += [
                Line(x + 0.3, middle + s * kind.hole / 2, x + piece.length - 0.3,
                     middle + s * kind.hole / 2, 0.12, (0.8, 0.6))
                for s in (-1, 1)
            ]  # fmt: skip
        return shapes
    finial = desk.plan.string.finial if desk.plan.string else None
    if piece.what == "finial" and finial is not None:
        across = _diameter(desk, piece)
        return [
            bead_outline(finial.shape, x, middle, piece.length, across, 0.7),
            Text(x + piece.length / 2, middle - widest / 2 - 1.2, words.text("mark finial"), 8,
                 "middle"),
        ]  # fmt: skip
    if piece.what == "knot":
        return knot(x, middle, piece.length, desk.plan.thickness)
    if piece.what in ("room", "end", "gap"):
        name = words.text(f"mark {piece.what}")
        fits = desk.measure(name, 8, False) < piece.length
        y = middle - max(desk.plan.thickness / 2, 1) - 1.2
        return [Text(x + piece.length / 2, y, name, 8, "middle")] if fits else []
    return []
