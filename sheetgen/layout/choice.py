"""The choice sheet: takes candidates, a template and the paper, gives bars to compare yarns by."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from sheetgen.layout.blocks import Block, Document, Figure, Heading, Para, Step, Together
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.fields import written_range
from sheetgen.layout.gauges import BAR_W, BLACK
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.shapes import Line, Picture, Rect, Shape, Text
from sheetgen.layout.sheet import AS_IT_IS, lay_out
from sheetgen.layout.words import Words
from sheetgen.model.template import Template
from sheetgen.model.values import Reading
from sheetgen.plan.candidate import Candidate
from sheetgen.plan.plan import Plan

PART = "comparison"
BARS = 9.0
"""Where the bars begin, mm; the number stands before them."""
BOX = 5.0
WIDE = 140.0
"""A frame as wide as this has room for the boxes beside the text."""
OUTLINE = 0.15
VERDICTS = ("thinner", "alike", "thicker", "taken")


@dataclass(frozen=True, slots=True)
class Compared:
    """What the page compares: the piece with the yarn as described, yarns in order, their stash."""

    plan: Plan
    candidates: tuple[Candidate, ...]
    stash: str
    target: str


def choice_sheet(
    compared: Compared,
    template: Template,
    paper: Paper,
    measure: Measure,
    setting: Setting = AS_IT_IS,
) -> Document:
    """The comparison page."""
    parts = {PART: partial(comparison, compared, setting.text_size / AS_IT_IS.text_size)}
    return lay_out(parts, compared.plan, template, paper, measure, setting)


def comparison(compared: Compared, larger: float, desk: Desk) -> Iterator[Block]:
    """How it is done, the find's bar, and a row for each yarn; ``larger`` times the usual text."""
    words, find = desk.words(PART), _find(desk)
    steps = [Step(runs, f"V{n}") for n, (_, runs) in enumerate(words.lines("steps"), start=1)]
    key = "about" if find is not None else "about no find"
    about = words.runs(key, yarn=compared.target, stash=compared.stash)
    yield Together((Heading(words.heading), Para(about), *steps))
    if find is None:
        yield Para(words.runs("no find"))
    else:
        yield Figure(find_bar(desk, words, find, larger))
    for number, candidate in enumerate(compared.candidates, start=1):
        yield Figure(row(desk, words, number, candidate, find, larger), close=True)
    if not compared.candidates:
        yield Para(words.runs("nothing"))


def _find(desk: Desk) -> Reading | None:
    """The thickness that was read off the find."""
    find = desk.plan.project.find
    read = find.thickness if find else None
    return read if isinstance(read, Reading) else None


def find_bar(desk: Desk, words: Words, find: Reading, larger: float) -> Picture:
    """The find's thickness as a bar, between two of what it may be where that was read."""
    sizes = [("find", find.value)]
    if find.high > find.low:
        sizes = [("find low", find.low), *sizes, ("find high", find.high)]
    shapes: list[Shape] = []
    y = 1.0
    for key, size in sizes:
        height = max(size, 4.0 * larger)
        label = words.text(key, size=desk.length(size))
        bar = Rect(BARS, y + (height - size) / 2, BAR_W, size, 0, BLACK)
        shapes += [bar, Text(BARS + BAR_W + 3, y + height / 2 + 1.4, label, 9.5 * larger,
                             bold=key == "find")]  # fmt: skip
        y += height + 2.5
    shapes.append(Line(0, y, desk.width, y, 0.2))
    return Picture(desk.width, y, tuple(shapes), true_scale=True, name="find")


def row(
    desk: Desk, words: Words, number: int, c: Candidate, find: Reading | None, larger: float
) -> Picture:
    """One yarn: find's bar and predicted bar end to end, ends to wind, boxes for the verdict."""
    predicted = _thickness(c)
    thickest = max(predicted, find.value if find else 0.0)
    top = max(thickest, 6.0 * larger) + 2.0
    middle = 1.0 + (top - 1.0) / 2
    base = middle + 1.7 * larger
    shapes: list[Shape] = [Text(0, base, str(number), 12 * larger, bold=True)]
    x = BARS
    if find is not None:
        inner = max(find.value - OUTLINE, 0.01)  # its outer edges are as far apart as the find
        shapes.append(Rect(x, middle - inner / 2, BAR_W, inner, OUTLINE))
        x += BAR_W
    shapes.append(Rect(x, middle - predicted / 2, BAR_W, predicted, 0, BLACK))
    x += BAR_W + 3
    size, step = 11 * larger, 4.6 * larger
    name = desk.broken(c.yarn.name, size, True, desk.width - x)
    shapes += [Text(x, base + step * i, line, size, bold=True) for i, line in enumerate(name)]
    y = max(top, middle + step * len(name)) + 2.5
    wide = desk.width >= WIDE
    beside = (desk.width * 0.6, y - 2.0)
    size, step = 9.5 * larger, 4.3 * larger
    for line in _lines(desk, words, c):
        for part in desk.broken(line, size, False, (beside[0] if wide else desk.width) - BARS - 3):
            shapes.append(Text(BARS, y + 1.5, part, size))
            y += step
    boxes, foot = _boxes(desk, words, *(beside if wide else (BARS, y)), 10 * larger)
    y = max(y, foot)
    shapes.append(Line(0, y, desk.width, y, 0.2))
    return Picture(desk.width, y, (*shapes, *boxes), true_scale=True, name=f"yarn {number}")


def _thickness(c: Candidate) -> float:
    return c.plan.thickness if c.plan else c.predicted.value


def _lines(desk: Desk, words: Words, c: Candidate) -> Iterator[str]:
    """What is to be known of a yarn, a sentence each."""
    units = desk.plan.project.units
    figure = c.plan.figures["thickness"] if c.plan else c.predicted
    yield words.text("predicted", size=written_range(figure, units, desk.writing))
    if c.verdict is not None and c.verdict.what == "width":
        wide = written_range(c.predicted, units, desk.writing)
        yield words.text("predicted width", size=wide, find=desk.length(c.verdict.wanted))
    yield _fingers(words, c, desk.plan.project.is_tube)
    if c.used is not None and c.wanted is not None:
        left = desk.length(c.at_hand) if c.at_hand is not None else words.text("not said")
        key = "amount short" if c.short else "amount"
        more = {"short": desk.length(c.short)} if c.short else {}
        yield words.text(key, left=left, wanted=desk.length(c.wanted), **more)
    told = {r.code for r in (*c.failures, *c.remarks)}
    said = [words.text(f"remark {code}") for code in _codes(words) if code in told]
    if said:
        yield words.text("remarks", remarks="; ".join(said))


def _codes(words: Words) -> Sequence[str]:
    found = [key for key in words.part.words if key.startswith("remark ")]
    return [key.removeprefix("remark ") for key in found]


def turns(threads: int) -> int:
    """Turns of a ring that, drawn out flat, gives at least so many threads: two of each turn.

    >>> turns(20), turns(9)
    (10, 5)
    """
    return math.ceil(threads / 2)


def _fingers(words: Words, c: Candidate, tube: bool) -> str:
    """How often to wind for the finger test, and for the number of tablets that is nearer."""
    in_tablet = max(1, round(c.ends / c.tablets))
    if not tube:
        return words.text("fingers band", threads=str(in_tablet))
    found = words.text("fingers", turns=str(turns(c.ends)), threads=str(2 * turns(c.ends)),
                       tablets=str(c.tablets))  # fmt: skip
    if c.verdict is None or c.verdict.best_tablets == c.tablets:
        return found
    best = c.verdict.best_tablets
    other = turns(best * in_tablet)
    return f"{found} {words.text('or', turns=str(other), tablets=str(best))}"


def _boxes(
    desk: Desk, words: Words, left: float, y: float, size: float
) -> tuple[list[Shape], float]:
    """Boxes of 5 mm for the verdict, side by side, in as many rows as they need."""
    shapes: list[Shape] = []
    x, y = left, y + 0.5
    for key in VERDICTS:
        label = words.text(key)
        wide = BOX + 2 + desk.measure(label, size, False) + 6
        if x > left and x + wide - 6 > desk.width:
            x, y = left, y + BOX + 2
        shapes += [Rect(x, y, BOX, BOX, 0.4), Text(x + BOX + 2, y + 3.9, label, size)]
        x += wide
    return shapes, y + BOX + 2
