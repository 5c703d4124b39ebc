"""Gauges: takes thicknesses and bead sizes, gives bars and circles at true scale to lay against."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Step, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.outline import bead_outline
from sheetgen.layout.shapes import Fill, Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.plan.beads import bead_length

PART = "gauges"
STEP = 0.25
BAR_W = 24.0
BLACK = Fill("#000000")


def gauges(desk: Desk) -> Iterator[Block]:
    """Thickness bars, beads at size, and a stretch to wrap yarn on."""
    words = desk.words(PART)
    steps = (Step(runs, f"G{n}") for n, (_, runs) in enumerate(words.lines("steps"), start=1))
    bars = Figure(thickness_gauge(desk, words), words.runs("thickness caption"))
    yield Together((Heading(words.heading), *steps))
    yield bars
    if desk.plan.string:
        for picture in bead_gauge(desk, words):
            yield Figure(picture)
        yield Para(words.runs("bead caption"), small=True)
    yield Figure(wraps_gauge(desk, words), words.runs("wraps caption"))


def gauge_sizes(wanted: float | None, predicted: float) -> list[float]:
    """Sizes (mm) of the bars: both, and the quarter millimetres within half a one of either.

    >>> gauge_sizes(2.0, 1.6)
    [1.0, 1.25, 1.5, 1.6, 1.75, 2.0, 2.25, 2.5]
    """
    sizes = {predicted} | ({wanted} if wanted else set())
    near = {round(size / STEP) + k for size in sizes for k in range(-2, 3)}
    quarters = {n * STEP for n in near if n > 0}
    return sorted(sizes | {q for q in quarters if all(abs(q - s) > 0.03 for s in sizes)})


def thickness_gauge(desk: Desk, words: Words) -> Picture:
    """Black bars as thick as find, prediction and their neighbours, in two columns."""
    plan = desk.plan
    find = plan.figures.get("find_thickness")
    wanted = find.value if find else None
    sizes = gauge_sizes(wanted, plan.thickness)
    labels = [_label(desk, words, size, wanted) for size in sizes]
    longest = max(desk.measure(label, 9.5, True) for label in labels)
    columns = 2 if BAR_W + 6 + longest < desk.width / 2 else 1
    half = -(-len(sizes) // columns)
    shapes: list[Shape] = []
    column_w, y, lowest = desk.width / 2, 0.0, 0.0
    for i, size in enumerate(sizes):
        if i % half == 0:
            y = 2.0
        x = 0.0 if i < half else column_w
        row = max(size, 4.0) + 3.0
        middle = y + row / 2
        shapes.append(Rect(x, middle - size / 2, BAR_W, size, 0, BLACK))
        marked = labels[i] != desk.length(size)
        shapes.append(Text(x + BAR_W + 3, middle + 1.4, labels[i], 9.5, bold=marked))
        y += row
        lowest = max(lowest, y)
    return Picture(desk.width, lowest + 1, tuple(shapes), true_scale=True, name="thickness gauge")


def _label(desk: Desk, words: Words, size: float, wanted: float | None) -> str:
    """The bar's thickness, and whether it is the find's or the predicted one."""
    label = desk.length(size)
    if wanted is not None and abs(size - wanted) < 1e-9:
        label = f"{label} {words.text('the find')}"
    if abs(size - desk.plan.thickness) < 1e-9:
        label = f"{label} {words.text('predicted')}"
    return label


def bead_gauge(desk: Desk, words: Words) -> Iterator[Picture]:
    """Every kind of bead once, at size, side by side, in rows as wide as the frame."""
    string = desk.plan.string
    assert string is not None, "asked only for strings of beads"
    kinds = [k for k in string.kinds if k.name in string.string.counts]
    rows: list[list[tuple[float, int]]] = [[]]
    x = 0.0
    for i, kind in enumerate(kinds):
        need = max(bead_length(kind), desk.measure(kind.name, 9, False), 12) + 6
        if rows[-1] and x + need > desk.width:
            rows.append([])
            x = 0.0
        rows[-1].append((x + (need - 6) / 2, i))
        x += need
    for number, row in enumerate(rows):
        tallest = max(kinds[i].diameter for _, i in row)
        shapes: list[Shape] = []
        for centre, i in row:
            kind = kinds[i]
            length = bead_length(kind)
            shapes += [
                bead_outline(kind.shape, centre - length / 2, 1 + tallest / 2, length,
                             kind.diameter),
                Text(centre, tallest + 5.5, kind.name, 9, "middle"),
                Text(centre, tallest + 9.3, desk.length(kind.diameter), 8.5, "middle"),
            ]  # fmt: skip
        yield Picture(
            desk.width, tallest + 11, tuple(shapes), true_scale=True, name=f"beads {number + 1}"
        )


def wraps_gauge(desk: Desk, words: Words) -> Picture:
    """A stretch of 20 mm to wrap yarn on, and the wraps that each yarn should give."""
    stretch = 20.0
    lines = [
        words.text(
            "wraps", yarn=use.name, letter=use.letter,
            wraps=f"{stretch / use.figures.diameter.value:.0f}",
        )
        for use in desk.plan.yarns
    ]  # fmt: skip
    lines = [part for line in lines for part in desk.broken(line, 9.5, False, desk.width - 34)]
    height = max(25.0, 4.2 * len(lines) + 4)
    shapes: list[Shape] = [
        Rect(4, 5, stretch, 11, 0.3, Fill("#ffffff")),
        Line(4, 2, 4, 19, 0.5),
        Line(4 + stretch, 2, 4 + stretch, 19, 0.5),
        Text(4, 23.5, desk.length(stretch), 9.5),
    ]
    shapes += [Text(34, 6 + 4.2 * i, line, 9.5) for i, line in enumerate(lines)]
    return Picture(desk.width, height, tuple(shapes), true_scale=True, name="wraps gauge")
