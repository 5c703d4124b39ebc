"""Warp: takes the warp end, gives its drawing, the ends by colour and the winding."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Step, Table
from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Circle, Fill, Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words, plain

PART = "warp"


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
        for name, ends in plan.pack.ends_by_yarn.items()
    )
    heads = tuple(words.runs(f"head {c}") for c in ("letter", "yarn", "ends", "length"))
    yield Table(heads, rows, (0.20, 0.34, 0.16, 0.30), ticked=True, right=(2, 3))
    for _, runs in words.lines("remarks"):
        yield Para(runs)
    for number, (_, runs) in enumerate(words.lines("steps"), start=1):
        yield Step(runs, f"W{number}")


def end_drawing(desk: Desk, words: Words) -> Picture:
    """One warp end, not to scale: the parts in order with their lengths under them."""
    end = desk.plan.warp
    parts: list[tuple[str, float, float]] = []
    for piece in range(end.pieces):
        number = str(piece + 1) if end.pieces > 1 else ""
        parts += [
            (words.text("near tail"), end.near_tail, 1.0),
            (words.text("woven", piece=number).strip(), end.in_weave, 1.9),
            (words.text("far tail"), end.far_tail, 1.0),
        ]
        if len(parts) >= 6:
            break
    parts.append((words.text("loom waste"), end.loom_waste, 1.3))
    shares = sum(p[2] for p in parts)
    width, y = desk.width - 4, 15.0
    shapes: list[Shape] = []
    x = 2.0
    for name, mm, share in parts:
        w = (width - 2) * share / shares
        woven = share == 1.9
        shapes.append(Line(x, y, x + w, y, 0.5))
        if woven:
            shapes.append(Rect(x, y - 2.2, w, 4.4, 0.4, Fill("#ffffff", "rising")))
        shapes += [
            Line(x, y + 3.5, x, y + 13, 0.25),
            Line(x + w, y + 3.5, x + w, y + 13, 0.25),
            *arrow(x + w / 2, y + 9.6, x + 0.6, y + 9.6, 0.25),
            *arrow(x + w / 2, y + 9.6, x + w - 0.6, y + 9.6, 0.25),
        ]
        for i, line in enumerate(_broken(desk, desk.length(mm), w - 1, 10)):
            shapes.append(Text(x + w / 2, y + 4.4 + 3.8 * i, line, 10, "middle", True, halo=True))
        for i, line in enumerate(_broken(desk, name, w - 1, 9)):
            shapes.append(Text(x + w / 2, y - 8.2 + 3.8 * i, line, 9, "middle"))
        x += w
    for at in (2.0, x):
        shapes.append(Circle(at, y, 1.3, 0.4, Fill("#000000")))
    whole = words.text("whole end", length=desk.length(end.length))
    shapes += [
        Line(2, y + 12, 2, y + 20, 0.25),
        Line(x, y + 12, x, y + 20, 0.25),
        *arrow(x / 2, y + 18, 2.6, y + 18, 0.25),
        *arrow(x / 2, y + 18, x - 0.6, y + 18, 0.25),
        Text(x / 2, y + 16.3, whole, 10.5, "middle", True, halo=True),
    ]
    return Picture(desk.width, y + 21, tuple(shapes), name="warp end")


def _broken(desk: Desk, name: str, width: float, size: float) -> list[str]:
    """A name on the second of two lines, or on both where it is wider than its part."""
    if desk.measure(name, size, True) <= width or " " not in name:
        return ["", name]
    if " / " in name:
        return name.replace(" / ", " /|").split("|")
    words = name.split(" ")
    half = min(
        range(1, len(words)), key=lambda n: abs(len(" ".join(words[:n])) - len(" ".join(words[n:])))
    )
    return [" ".join(words[:half]), " ".join(words[half:])]
