"""Turning: takes the turning plan, gives the boxes to tick and what to do at every stop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen import amounts
from sheetgen.layout.blocks import (
    Block,
    Boxed,
    Figure,
    Heading,
    Para,
    SideBySide,
    Step,
    Table,
    Together,
    WritingLines,
)
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Picture, Rect, Shape, Text
from sheetgen.layout.stops import stop_drawing
from sheetgen.layout.ticks import MOST_SINGLE, row_picture, tick_rows
from sheetgen.layout.words import Words, plain
from sheetgen.plan.courses import written_numbers
from sheetgen.plan.looks import Length
from sheetgen.plan.plan import Intervention

PART = "turning"
MOST_COPIES = 4


def weaving(desk: Desk) -> Iterator[Block]:
    """How to turn, the looks to expect, the paper bar, boxes and interventions."""
    words, plan = desk.words(PART), desk.plan
    yield Heading(words.heading)
    for _, runs in words.lines("how"):
        yield Para(runs)
    for number, (_, runs) in enumerate(words.lines("steps"), start=1):
        yield Step(runs, f"R{number}")
    if plan.turning.lengths:
        yield _looks(desk, words)
        for _, runs in words.lines("looks"):
            yield Para(runs, small=True)
    yield Figure(pick_bar(desk, words), words.runs("bar caption"))
    copies = min(plan.project.pieces, MOST_COPIES)
    for piece in range(copies):
        yield Together(tuple(_piece(desk, words, piece)))
    if plan.project.pieces > copies:
        yield Para(words.runs("copy the boxes", pieces=str(plan.project.pieces)))
    yield Together((Para(words.runs("own notes")), WritingLines(3)))


def _piece(desk: Desk, words: Words, piece: int) -> Iterator[Block]:
    """The boxes of one piece under their heading; ``piece`` counts from 0."""
    plan = desk.plan
    title = words.text("boxes")
    if plan.project.pieces > 1:
        title = words.text("boxes of piece", n=str(piece + 1), pieces=str(plan.project.pieces))
    yield Heading(title, 2)
    if piece == 0:
        single = plan.turning.picks <= MOST_SINGLE
        yield Para(words.runs("one box a pick" if single else "one box a turn"))
        if plan.turning.patterned:
            yield Para(words.runs("arrows"))
    else:
        for number, (_, runs) in enumerate(words.lines("next piece"), start=1):
            yield Step(runs, f"P{piece + 1}.{number}")
    yield from _boxes(desk, words, piece)


def _boxes(desk: Desk, words: Words, piece: int) -> Iterator[Block]:
    """Rows of boxes, each intervention boxed at its place."""
    for row in tick_rows(desk):
        picture = Figure(row_picture(desk, row, words, piece), close=True)
        stops = tuple(_stop(desk, words, intervention) for intervention in row.after)
        yield Together((picture, *stops)) if stops else picture


def _stop(desk: Desk, words: Words, intervention: Intervention) -> Block:
    """One intervention, large, with what to do and the weft side before and after."""
    way = desk.plan.turning.way
    more = {
        "n": str(intervention.number),
        "pick": str(intervention.pick),
        "at": desk.along(intervention.at),
        "before": _side(desk, intervention.side_before),
        "after": _side(desk, intervention.side_after),
        "bead": str(intervention.bead),
        "turns": amounts.plain(intervention.turns, 0),
    }
    steps = [Step(runs) for _, runs in words.lines(way, **more)]
    if intervention.bead:
        steps.append(Step(words.runs("hidden", **more)))
    drawing = stop_drawing(desk, words, intervention)
    return Boxed((SideBySide(drawing, tuple(steps)),), words.text("stop", **more), heavy=True)


def _side(desk: Desk, side: str) -> str:
    return desk.common(side) if side else desk.common("either side")


def _look(words: Words, part: Length) -> str:
    """The look in words; where it cannot be told, which tablets' cords twist which way."""
    look = words.text(f"look {part.look}")
    if part.look != "cannot tell":
        return look
    named = zip(("hands S", "hands Z", "hands both"), part.hands, strict=True)
    told = [words.text(key, tablets=written_numbers(n)) for key, n in named if n]
    return f"{look}: {'; '.join(told)}"


def _looks(desk: Desk, words: Words) -> Block:
    """How each length between interventions will look, and the weft's side in it."""
    spacing = desk.plan.turning.spacing
    lengths: list[Length] = []
    for part in desk.plan.turning.lengths:
        alike = lengths and replace(lengths[-1], first=0, last=0) == replace(part, first=0, last=0)
        first = lengths.pop().first if alike else part.first
        lengths.append(replace(part, first=first))
    rows = tuple(
        (
            plain(words.text("picks from to", first=str(part.first + 1), last=str(part.last))),
            plain(
                words.text(
                    "from to",
                    first=desk.along(part.first * spacing),
                    last=desk.along(part.last * spacing),
                )
            ),
            plain(desk.common(part.side)),
            plain(_look(words, part)),
        )
        for part in lengths
    )
    heads = tuple(words.runs(f"head {c}") for c in ("picks", "length", "side", "look"))
    return Table(heads, rows, (0.18, 0.26, 0.14, 0.42))


def pick_bar(desk: Desk, words: Words) -> Picture:
    """A bar at true scale: a ruler above, predicted picks below, every tenth numbered."""
    spacing = desk.plan.turning.spacing
    x, y = 3.0, 12.0
    label = words.text("bar picks")
    room = desk.width - x - 3 - desk.measure(label, 8.5, False)
    inches = desk.plan.project.units == "inches"
    unit, parts, half, most = (25.4, 8, 4, 4) if inches else (10.0, 10, 5, 10)
    length = unit * min(most, int(room / unit))
    shapes: list[Shape] = [Rect(x, y, length, 8, 0.3)]
    for tick in range(round(length / unit) * parts + 1):
        at = x + tick * unit / parts
        tall = 3.0 if tick % parts == 0 else 2.2 if tick % half == 0 else 1.4
        shapes.append(Line(at, y, at, y - tall, 0.12))
        if tick % parts == 0:
            shapes.append(Text(at, y - 4, str(tick // parts), 8, "middle"))
    shapes.append(Text(x + length + 2, y - 2, desk.writing("in" if inches else "cm"), 8.5))
    pick, step = 0, 1 if spacing >= 0.8 else 5
    while pick * spacing <= length:
        at = x + pick * spacing
        tall = 8.0 if pick % 10 == 0 else 5.0 if pick % 5 == 0 else 3.0
        shapes.append(Line(at, y + 8, at, y + 8 - tall, 0.18))
        if pick % 10 == 0:
            shapes.append(Text(at, y + 12, str(pick), 8, "middle"))
        pick += step
    shapes.append(Text(x + length + 2, y + 7, label, 8.5))
    return Picture(desk.width, y + 13, tuple(shapes), true_scale=True, name="pick bar")
