"""Warp: takes the warp end, gives its drawing, the ends by colour and the winding."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Step, Table, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Circle, Fill, Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words, plain
from sheetgen.plan.plan import Plan

PART = "warp"
SMALLEST = 7.0
"""Points; below that nobody reads outdoors."""


def warping(desk: Desk) -> Iterator[Block]:
    """One end drawn with its parts dimensioned, ends per colour, order of winding."""
    words, plan = desk.words(PART), desk.plan
    yield Heading(words.heading)
    yield Figure(end_drawing(desk, words), words.runs("drawing caption"))
    rows = tuple(
        (
            plain(plan.use(name).letter, bold=True),
            plain(name),
            plain(str(ends)),
            plain(desk.length(ends * plan.warp.length)),
        )
        for name, ends in _in_order(plan)
    )
    heads = tuple(words.runs(f"head {c}") for c in ("letter", "yarn", "ends", "length"))
    table = Table(heads, rows, (0.20, 0.34, 0.16, 0.30), ticked=True, right=(2, 3))
    yield Together((table,))
    for _, runs in words.lines("remarks"):
        yield Para(runs)
    for number, (_, runs) in enumerate(words.lines("steps"), start=1):
        yield Step(runs, f"W{number}")


def _in_order(plan: Plan) -> Iterator[tuple[str, int]]:
    """Warp yarns with their ends, in the order of the materials."""
    ends = plan.pack.ends_by_yarn
    yield from ((use.name, ends[use.name]) for use in plan.yarns if use.name in ends)


def end_drawing(desk: Desk, words: Words) -> Picture:
    """One warp end, not to scale: the parts in order with their lengths under them."""
    end = desk.plan.warp
    parts: list[tuple[str, float, float]] = []
    for piece in range(end.pieces):
        number = str(piece + 1) if end.pieces > 1 else ""
        parts += [
            (words.text("near tail"), end.near_tail, 1.0),
            (words.text("woven", piece=number).strip(), end.in_weave, 2.4),
            (words.text("far tail"), end.far_tail, 1.0),
        ]
        if len(parts) >= 6:
            break
    parts.append((words.text("loom waste"), end.loom_waste, 1.3))
    shares = math.fsum(p[2] for p in parts)
    width, y = desk.width - 4, 15.0
    shapes: list[Shape] = []
    x = 2.0
    for name, mm, share in parts:
        w = (width - 2) * share / shares
        woven = share == 2.4
        shapes.append(Line(x, y, x + w, y, 0.5))
        if woven:
            shapes.append(Rect(x, y - 2.2, w, 4.4, 0.4, Fill("#ffffff", "rising")))
        shapes += [
            Line(x, y + 3.5, x, y + 14, 0.25),
            Line(x + w, y + 3.5, x + w, y + 14, 0.25),
            *arrow(x + w / 2, y + 10.8, x + 0.6, y + 10.8, 0.25),
            *arrow(x + w / 2, y + 10.8, x + w - 0.6, y + 10.8, 0.25),
        ]
        told = words.text("warp in it", length=desk.length(mm)) if woven else desk.length(mm)
        for i, (line, size) in enumerate(_fitted(desk, told, w - 1, 10)):
            at = y + 5.4 + 3.8 * i
            shapes.append(Text(x + w / 2, at, line, size, "middle", True, halo=True))
        for i, (line, size) in enumerate(_fitted(desk, name, w - 1, 9)):
            shapes.append(Text(x + w / 2, y - 8.2 + 3.8 * i, line, size, "middle"))
        x += w
    near = 2.0 + (width - 2) * parts[0][2] / shares
    for at in (near, x):
        shapes.append(Circle(at, y, 1.3, 0.4, Fill("#000000")))
    whole = words.text("whole end", length=desk.length(end.length))
    shapes += [
        Line(2, y + 13, 2, y + 21, 0.25),
        Line(x, y + 13, x, y + 21, 0.25),
        *arrow(x / 2, y + 19, 2.6, y + 19, 0.25),
        *arrow(x / 2, y + 19, x - 0.6, y + 19, 0.25),
        Text(x / 2, y + 17.3, whole, 10.5, "middle", True, halo=True),
    ]
    return Picture(desk.width, y + 22, tuple(shapes), name="warp end")


def _fitted(desk: Desk, name: str, width: float, size: float) -> list[tuple[str, float]]:
    """A name on two lines with the size at which they fit, though not below :data:`SMALLEST`."""
    lines = _broken(desk, name, width, size)
    while size > SMALLEST and max(desk.measure(line, size, True) for line in lines) > width:
        size -= 0.5
    return [(line, size) for line in lines]


def _broken(desk: Desk, name: str, width: float, size: float) -> list[str]:
    """A name on the second of two lines, or on both where it is wider than its part."""
    if desk.measure(name, size, True) <= width or " " not in name:
        return ["", name]
    if "/ " in name:
        return name.replace("/ ", "/|", 1).split("|")
    words = name.split(" ")
    half = min(
        range(1, len(words)), key=lambda n: abs(len(" ".join(words[:n])) - len(" ".join(words[n:])))
    )
    return [" ".join(words[:half]), " ".join(words[half:])]
