"""Weaving of a kit: takes the turning, gives its drawings and boxes, several turns in one."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Boxed, Figure, Heading, Para, Table, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.drawn import drawn, numbered, smaller
from sheetgen.layout.key import GREY, arrow, hole_places
from sheetgen.layout.kit_boxes import MOST_ROWS, length_key, rows_at_least, turn_boxes
from sheetgen.layout.kit_room import Room
from sheetgen.layout.materials import stand_in
from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Rect, Shape, Text
from sheetgen.layout.stops import stop_drawing
from sheetgen.layout.ticks import course_name
from sheetgen.layout.words import Words, plain
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.plan.plan import Plan
from sheetgen.plan.turning import Stretch

MOST_STEPS = 12


def weave(desk: Desk) -> Iterator[Block]:
    """Which way is forward, the weft, the steps, the stops, and the boxes."""
    words, plan = desk.words("weave"), desk.plan
    yield Heading(words.heading)
    forward = [numbered(runs, n) for n, (_, runs) in enumerate(words.lines("turn"), 1)]
    yield from drawn(desk, which_way(desk, words), tuple(forward))
    after = len(forward) + 1
    beater = stand_in(desk.words("bag"), "beater")
    lines = words.lines("weft", beater=beater)
    weft = tuple(numbered(runs, n) for n, (_, runs) in enumerate(lines, after))
    yield from drawn(desk, smaller(weft_drawing(desk, words), 0.8), weft)
    if plan.turning.patterned:
        yield Together((Para(words.runs("pattern")), _pattern(desk, words)))
    pictures, per_box = turn_boxes(desk, words, first_pass(plan))
    key = "passes" if plan.turning.patterned else "boxes" if per_box > 1 else "one box"
    told = Para(words.runs(key, n=str(per_box), long=desk.along(per_box * plan.turning.spacing)))
    yield Together((told, Figure(pictures[0], close=True)))
    yield from (Figure(picture, close=True) for picture in pictures[1:])
    if plan.turning.interventions:
        yield _stop(desk, words)


def picks_a_box(desk: Desk) -> int:
    """Picks that a whole box stands for."""
    return turn_boxes(desk, desk.words("weave"), first_pass(desk.plan))[1]


def first_pass(plan: Plan) -> tuple[Stretch, ...]:
    """The stretches until the described steps begin again."""
    found: list[Stretch] = []
    for stretch in plan.turning.stretches:
        if found and stretch.pass_start:
            break
        found.append(stretch)
    return tuple(found)


def shorten_weaving(plan: Plan) -> Iterator[Room]:
    """What to change if the turning is what is too long."""
    if plan.turning.patterned:
        steps = len(first_pass(plan))
        yield Room("turning", "different steps", steps, MOST_STEPS)
    rows, most = rows_at_least(plan), 2 * MOST_ROWS
    yield Room(length_key(plan), "rows of boxes at least", rows, most)


def _pattern(desk: Desk, words: Words) -> Block:
    """A row a step: how often, and what each group does."""
    turning = desk.plan.turning
    rows = []
    for number, stretch in enumerate(first_pass(desk.plan), 1):
        told = ", ".join(
            f"{course_name(desk, course)}: {words.text(f'go {motion}')}"
            if len(turning.courses) > 1
            else words.text(f"go {motion}")
            for course, motion in zip(turning.courses, stretch.motions, strict=True)
        )
        if stretch.flips:
            flipped = ", ".join(course_name(desk, turning.courses[i]) for i in stretch.flips)
            told = f"{words.text('flip first', groups=flipped)} {told}"
        rows.append((plain(str(number)), plain(f"{stretch.picks} ×", bold=True), plain(told)))
    heads = tuple(words.runs(h) for h in ("head step", "head times", "head go"))
    return Table(heads, tuple(rows), (0.14, 0.2, 0.66))


def _stop(desk: Desk, words: Words) -> Block:
    """What to do at a stop; drawn for the first, whose sides it names."""
    first = desk.plan.turning.interventions[0]
    drawing = stop_drawing(desk, words, first)
    drawing = smaller(drawing, 0.75 if drawing.height > 30 else 1.0)
    steps = tuple(Para(runs) for _, runs in words.lines(desk.plan.turning.way))
    return Boxed((Figure(drawing), *steps), words.text("stop"), heavy=True)


def which_way(desk: Desk, words: Words) -> Picture:
    """You at the left, a tablet seen from its side, and the arrow over it: forward."""
    cx, cy, radius = 37.0, 22.0, 10.0
    holes = desk.plan.pack.holes
    shapes: list[Shape] = [
        Circle(6, 12, 3.6, 0.5, Fill("#ffffff")),
        Path((("M", 6, 15.6), ("L", 6, 30), ("M", 6, 18), ("L", 15, cy)), 1.0),
        Text(6, 35, words.text("you"), 10, "middle", True),
        Line(15, cy, 22, cy, 2.0, colour="#808080"),
        Rect(cx - 13, cy - 13, 26, 26, 0.5, Fill("#ffffff"), 2.5),
    ]
    for i, (x, y) in enumerate(hole_places(holes, cx, cy, radius)):
        shapes += [
            Line(22, cy, x, y, 0.25),
            Line(x, y, 62, cy, 0.25),
            Circle(x, y, 1.5, 0.35, Fill("#ffffff")),
            Text(x + (cx - x) * 0.45, y + (cy - y) * 0.45 + 1.5, HOLE_LETTERS[i], 10, "middle",
                 True, halo=True),
        ]  # fmt: skip
    shapes += [
        Path((("M", cx - 14, 7.5), ("C", cx - 8, 2.5, cx + 6, 2.5, cx + 12, 6)), 1.1),
        *arrow(cx + 12, 6, cx + 15.5, 9, 1.1),
        Text(cx, 3.4, words.text("forward"), 10, "middle", True, halo=True),
        Text(68, cy + 1.2, words.text("far"), 9, "end"),
        Text(cx, 40, words.text("side view"), 9, "middle"),
    ]
    return Picture(70.0, 41.5, tuple(shapes), name="which way")


def weft_drawing(desk: Desk, words: Words) -> Picture:
    """The weft through the gap between the threads; for a tube, back under or over the work."""
    plan = desk.plan
    sign = 1 if plan.project.weft.enters == "right" else -1
    tube = plan.project.is_tube
    cx = 35.0
    shapes: list[Shape] = [
        Text(35, 3.5, words.text("looking away"), 9, "middle"),
        *(Circle(cx + k * 5.0, 10, 1.5, 0.4, GREY) for k in range(-3, 4)),
        *(Circle(cx + k * 5.0, 24, 1.5, 0.4, GREY) for k in range(-3, 4)),
        *arrow(cx + 32 * sign, 17, cx - 22 * sign, 17, 0.9),
        Text(cx, 15.4, words.text("gap"), 9, "middle", halo=True),
    ]
    if tube:
        under = plan.project.weft.returns == "under"
        y = 31.5 if under else 5.5
        back = (
            ("M", cx - 22 * sign, 17.0),
            ("C", cx - 29 * sign, 17.0, cx - 29 * sign, y, cx - 20 * sign, y),
            ("L", cx + 22 * sign, y),
        )
        shapes += [
            Path(back, 0.9, dash=(1.6, 1.0)),
            *arrow(cx + 22 * sign, y, cx + 30 * sign, y, 0.9),
            Text(cx, 37.0, words.text(f"back {plan.project.weft.returns}"), 9,
                 "middle", True),
        ]  # fmt: skip
    return Picture(70.0, 39.0 if tube else 27.0, tuple(shapes), name="weft")
