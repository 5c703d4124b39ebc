"""Make up: takes string and tassel, gives the strip, the steps and their drawings."""

from __future__ import annotations

import math
from collections.abc import Iterator

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
)
from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Fill, Line, Path, Picture, Rect, Shape, Text, moved
from sheetgen.layout.strip import strip_pictures
from sheetgen.layout.words import Words, plain
from sheetgen.plan.beads import LOOP_OF_THREAD

STRIP, MAKE_UP = "bead strip", "make up"


def bead_strip(desk: Desk) -> Iterator[Block]:
    """The string at true scale, with what stands for what."""
    string = desk.plan.string
    if string is None:
        return
    words = desk.words(STRIP)
    pictures = strip_pictures(desk, words)
    figures = [Figure(picture) for picture in pictures[:-1]]
    figures.append(Figure(pictures[-1], words.runs("caption")))
    remarks = (Para(runs) for _, runs in words.lines("remarks"))
    yield Together((Heading(words.heading), *remarks, figures[0]))
    yield from figures[1:]
    if string.substitutions:
        rows = tuple(
            (
                plain(str(s.count)),
                plain(s.kind),
                plain(s.original),
                plain("" if s.change is None else _signed(desk, s.change)),
                plain(s.why),
            )
            for s in string.substitutions
        )
        heads = tuple(words.runs(f"head {c}") for c in ("count", "bead", "find", "change", "why"))
        yield Table(heads, rows, (0.15, 0.19, 0.23, 0.19, 0.24))


def _signed(desk: Desk, mm: float) -> str:
    return f"{'+' if mm > 0 else ''}{desk.length(mm)}"


def make_up(desk: Desk) -> Iterator[Block]:
    """Free the tablets, keep the tails, string, tassel or aglets, trim, step by step."""
    words, plan = desk.words(MAKE_UP), desk.plan
    yield Heading(words.heading)
    number = 0
    for name in ("off the loom", "string", "tassel", "aglets", "last"):
        lines = list(words.lines(name))
        if not lines:
            continue
        yield Heading(words.text(f"title {name}"), 2)
        steps: list[Block] = []
        for _, runs in lines:
            number += 1
            steps.append(Step(runs, f"M{number}"))
        if name == "string" and plan.string:
            yield SideBySide(stringing_drawing(words, plan.string.stringing), tuple(steps))
        elif name == "tassel" and plan.tassel:
            yield SideBySide(tassel_drawing(desk, words), tuple(steps))
        else:
            yield from steps
    cautions = tuple(Para(runs) for _, runs in words.lines("cautions"))
    if cautions:
        yield Boxed(cautions, words.text("cautions"))


def stringing_drawing(words: Words, stringing: str) -> Picture:
    """A bead going on: over the cord folded in a loop of thread, or over a bare end."""
    shapes: list[Shape] = [
        Rect(20, 14, 16, 16, 0.4, Fill("#ffffff"), 4),
        Line(20, 19.5, 36, 19.5, 0.15, (0.8, 0.6)),
        Line(20, 24.5, 36, 24.5, 0.15, (0.8, 0.6)),
    ]
    if stringing == LOOP_OF_THREAD:
        shapes += [
            Path((("M", 2, 19.6), ("L", 13, 19.6), ("C", 17, 19.6, 17, 24.4, 13, 24.4),
                  ("L", 2, 24.4)), 1.3, colour="#808080"),
            Path((("M", 48, 21.2), ("L", 16, 21.2), ("C", 13.5, 21.2, 13.5, 22.8, 16, 22.8),
                  ("L", 48, 22.8)), 0.35),
            Text(38, 28.2, words.text("thread"), 9),
            Text(7, 16.5, words.text("cord"), 9, "middle"),
        ]  # fmt: skip
    else:
        shapes += [
            Line(2, 22, 38, 22, 1.3, colour="#808080"),
            Line(38, 22, 46, 22, 0.6),
            Text(7, 19, words.text("cord"), 9, "middle"),
            Text(38, 28.2, words.text("stiff end"), 9),
        ]
    shapes += arrow(38, 34, 20, 34, 0.5)
    shapes.append(Text(29, 38.5, words.text("bead goes on"), 9, "middle"))
    lifted = tuple(moved(shape, 0, -11) for shape in shapes)
    return Picture(62, 29, lifted, name="stringing")


def tassel_drawing(desk: Desk, words: Words) -> Picture:
    """A tassel with its sizes, not to scale."""
    tassel = desk.plan.tassel
    assert tassel is not None, "asked only where there is a tassel"
    cx, neck_y = 15.0, 14.0
    shapes: list[Shape] = [
        Line(cx, 0, cx, 8, 1.6, colour="#808080"),
        Path((("M", cx - 4, neck_y), ("C", cx - 5, 6, cx + 5, 6, cx + 4, neck_y), ("Z",)), 0.4),
        Rect(cx - 4, neck_y, 8, 6, 0.4, Fill("#ffffff", "level")),
    ]
    for i in range(9):
        share = (i - 4) / 4
        bottom = 52 - abs(math.sin(i * 2.1)) * 0.6
        shapes.append(Line(cx + 3.6 * share, neck_y + 6, cx + 7.5 * share, bottom, 0.35))
    shapes.append(Line(cx - 8.5, 52.2, cx + 8.5, 52.2, 0.3, (1.2, 0.8)))
    x = cx + 11
    shapes += [
        Line(x - 2, neck_y, x + 1, neck_y, 0.2),
        Line(x - 2, neck_y + 6, x + 1, neck_y + 6, 0.2),
        Text(x + 2, neck_y + 2.6, words.text("neck size"), 9),
        Text(x + 2, neck_y + 6.6, words.text("neck wraps"), 9),
        *arrow(x, 36, x, neck_y + 6.6, 0.25),
        *arrow(x, 36, x, 51.8, 0.25),
        Text(x + 2, 36, words.text("skirt size"), 9),
        Text(cx, 57, words.text("trim here"), 9, "middle"),
    ]
    width = (
        x
        + 3
        + max(
            desk.measure(words.text(k), 9, False) for k in ("neck size", "neck wraps", "skirt size")
        )
    )
    return Picture(width, 58.5, tuple(shapes), name="tassel")
