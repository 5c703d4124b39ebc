"""Tick boxes for the turning: takes the turning plan, gives rows of boxes and what interrupts them.

A row is one picture, so that pages break between rows. Boxes stand in groups of one full turn; in
a patterned plan every stretch has arrows over its boxes that say which way each group goes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.layout.desk import Desk
from sheetgen.layout.key import arrow
from sheetgen.layout.shapes import Line, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.plan.plan import Intervention
from sheetgen.plan.surface import top_holes

BOX, PITCH, GAP, FLIP_W = 5.0, 5.7, 2.4, 10.0
LEFT_W = 22.0
MOST_SINGLE = 600
"""Picks that are ticked one by one; longer plans have a box for a full turn."""


@dataclass(frozen=True, slots=True)
class Cluster:
    """Boxes that stand together: picks ``first`` to ``last`` (picks woven before and after)."""

    first: int
    last: int
    motions: tuple[str, ...]
    flips: tuple[int, ...] = ()
    new_pass: bool = False
    shows_motion: bool = False


@dataclass(frozen=True, slots=True)
class TickRow:
    """Clusters on one line, the picks in a box, and the interventions after it."""

    clusters: tuple[Cluster, ...]
    per_box: int
    after: tuple[Intervention, ...]

    @property
    def first(self) -> int:
        """Picks woven before the row."""
        return self.clusters[0].first

    @property
    def last(self) -> int:
        """Picks woven after it."""
        return self.clusters[-1].last


def clusters_of(desk: Desk) -> Iterator[Cluster]:
    """Cut the plan into clusters of one full turn (ten full turns where a box is a full turn).

    A cluster also ends where a stretch ends and at every intervention.
    """
    turning = desk.plan.turning
    size = desk.plan.pack.holes * (1 if picks_in_box(desk) == 1 else 5)
    stops = sorted(i.pick for i in turning.interventions)
    for stretch in turning.stretches:
        at = stretch.first
        while at < stretch.last:
            end = min([at + size, stretch.last, *(s for s in stops if s > at)])
            starts = at == stretch.first
            yield Cluster(
                at,
                end,
                stretch.motions,
                stretch.flips if starts else (),
                stretch.pass_start and starts,
                starts,
            )
            at = end


def picks_in_box(desk: Desk) -> int:
    """1, or a full turn for long plans without a pattern within the turn."""
    turning, holes = desk.plan.turning, desk.plan.pack.holes
    return 1 if turning.picks <= MOST_SINGLE else holes


def boxes_in(cluster: Cluster, per_box: int) -> int:
    """Boxes of a cluster; the last may stand for fewer picks than the others."""
    return -(-(cluster.last - cluster.first) // per_box)


def tick_rows(desk: Desk) -> list[TickRow]:
    """Fill rows with clusters; a row ends when it is full and at every intervention."""
    per_box = picks_in_box(desk)
    room = desk.width - LEFT_W - right_width(desk, desk.words("turning"))
    by_pick: dict[int, list[Intervention]] = {}
    for intervention in desk.plan.turning.interventions:
        by_pick.setdefault(intervention.pick, []).append(intervention)
    rows: list[TickRow] = []
    line: list[Cluster] = []
    used = 0.0
    for cluster in clusters_of(desk):
        need = boxes_in(cluster, per_box) * PITCH + GAP + (FLIP_W if cluster.flips else 0.0)
        if line and used + need > room + GAP:
            rows.append(TickRow(tuple(line), per_box, ()))
            line, used = [], 0.0
        line.append(cluster)
        used += need
        after = by_pick.get(cluster.last)
        if after:
            rows.append(TickRow(tuple(line), per_box, tuple(after)))
            line, used = [], 0.0
    if line:
        rows.append(TickRow(tuple(line), per_box, ()))
    return rows


def right_width(desk: Desk, words: Words) -> float:
    """Room (mm) at the right for the picks and the length reached, by the longest of them."""
    turning = desk.plan.turning
    lengths = (desk.along((turning.picks - k) * turning.spacing) for k in range(10))
    longest = max(desk.measure(at, 9.5, False) for at in lengths)
    picks = words.text("reached", pick=str(turning.picks), at="")
    return 4.0 + longest + desk.measure(picks, 9.5, False)


def row_picture(desk: Desk, row: TickRow, words: Words, piece: int) -> Picture:
    """One row: pick and hole on top at the left, boxes, running length and breaks at the right.

    ``piece`` counts pieces from 0: sessions run on from one piece to the next.
    """
    courses = desk.plan.turning.courses
    arrows = desk.plan.turning.patterned
    head = 4.6 * len(courses) if arrows else 0.0
    box_y = head + 1.0
    shapes: list[Shape] = [
        Text(0, box_y + 3.9, str(row.first + 1), 10.5, bold=True),
        *_left(desk, row, words, head, box_y),
    ]
    x = LEFT_W
    pauses = _pauses(desk, words, row, piece)
    marks: list[str] = []
    for cluster in row.clusters:
        if arrows and cluster.new_pass:
            shapes.append(Line(x - GAP / 2, 0, x - GAP / 2, box_y + BOX + 0.5, 0.9))
        if cluster.flips:
            shapes += _flip_marks(cluster, x, words)
            x += FLIP_W
        if arrows and (cluster.shows_motion or cluster is row.clusters[0]):
            shapes += _motions(cluster, x, words)
        for i in range(boxes_in(cluster, row.per_box)):
            shapes.append(Rect(x, box_y, BOX, BOX, 0.35))
            done = min(cluster.first + (i + 1) * row.per_box, cluster.last)
            begun = cluster.first + i * row.per_box
            if row.per_box > 1 and done - begun < row.per_box:
                shapes.append(Text(x + BOX / 2, box_y + 3.6, str(done - begun), 8, "middle"))
            for pick, told in pauses:
                if begun < pick <= done:
                    marks.append(told)
                    shapes += [
                        Line(x + BOX + off, box_y - 1, x + BOX + off, box_y + BOX + 2.2, 0.45)
                        for off in (0.4, 1.3)
                    ]
            x += PITCH
        x += GAP
    at = desk.along(row.last * desk.plan.turning.spacing)
    right = desk.width - right_width(desk, words) + 2
    shapes.append(Text(right, box_y + 3.9, words.text("reached", pick=str(row.last), at=at), 9.5))
    height = box_y + BOX + 1.0
    if marks:
        height += 1.4  # below the double line
        for line in desk.broken("; ".join(marks), 9, True, desk.width):
            shapes.append(Text(desk.width, height + 2.6, line, 9, "end", True))
            height += 4.2
    return Picture(desk.width, height, tuple(shapes), name=f"ticks {row.first + 1}")


def course_name(desk: Desk, course: str) -> str:
    """A group's name; “no. 7” for tablets that a step singles out, “others” for the rest."""
    if course[:1].isdigit():
        return desk.common("tablet numbers", n=course)
    return course or desk.common("no group" if len(desk.plan.turning.courses) > 1 else "all")


def _left(desk: Desk, row: TickRow, words: Words, head: float, box_y: float) -> list[Shape]:
    """Name of each group beside its arrows, and the hole on top when the row begins."""
    turning, pack = desk.plan.turning, desk.plan.pack
    tops = top_holes(pack, turning.stretches, turning.flips_at, row.first)
    shapes: list[Shape] = []
    if not head:
        letter = HOLE_LETTERS[tops[0]]
        told = words.text("on top", hole=letter)
        x = min(12.0, LEFT_W - 1.2 - desk.measure(told, 8.5, False))
        shapes.append(Text(x, box_y + 3.9, told, 8.5))
        return shapes
    for i, (course, numbers) in enumerate(pack.groups.items()):
        letter = HOLE_LETTERS[tops[numbers[0] - 1]]
        name = words.text("group on top", group=course_name(desk, course), hole=letter)
        while len(name) > 4 and desk.measure(name, 8.5, False) > LEFT_W - 1:
            name = f"{name[: name.rindex(' ')][:-2]}.{name[name.rindex(' ') :]}"
        shapes.append(Text(0, 3.6 + 4.6 * i, name, 8.5))
    return shapes


def _motions(cluster: Cluster, x: float, words: Words) -> list[Shape]:
    """Arrows over a cluster: up is forward, down is backward, a bar is idle."""
    shapes: list[Shape] = []
    for i, motion in enumerate(cluster.motions):
        y = 4.6 * i
        if motion == "forward":
            shapes += arrow(x + 2.5, y + 4.1, x + 2.5, y + 0.4, 0.5)
        elif motion == "backward":
            shapes += arrow(x + 2.5, y + 0.4, x + 2.5, y + 4.1, 0.5)
        else:
            shapes.append(Line(x + 0.8, y + 2.2, x + 4.2, y + 2.2, 0.9))
    return shapes


def _flip_marks(cluster: Cluster, x: float, words: Words) -> list[Shape]:
    """A black-framed word on the line of every group that is flipped before the cluster."""
    shapes: list[Shape] = []
    for i in cluster.flips:
        y = 4.6 * i
        shapes += [
            Rect(x, y, FLIP_W - 1.2, 4.4, 0.5),
            Text(x + (FLIP_W - 1.2) / 2, y + 3.3, words.text("flip mark"), 8.5, "middle", True),
        ]
    return shapes


def _pauses(desk: Desk, words: Words, row: TickRow, piece: int) -> list[tuple[int, str]]:
    """Session ends within this row: pick of this piece, and what is said of it."""
    before = piece * desk.plan.turning.picks
    found = []
    for i, pause in enumerate(desk.plan.pauses):
        pick = pause.picks - before
        over = i and desk.plan.pauses[i - 1].done
        if over or not row.first < pick <= row.last:
            continue
        if pause.done and pause.used < pause.lasts - 0.5:
            used = desk.time(pause.used)
            found.append((pick, words.text("all woven", used=used, session=pause.name)))
        else:
            found.append((pick, words.text("session ends", session=pause.name)))
    return found
