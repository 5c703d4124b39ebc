from collections.abc import Callable

import pytest

from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Rect
from sheetgen.layout.ticks import BOX, boxes_in, picks_in_box, row_picture, tick_rows
from sheetgen.plan.plan import Plan

GIRDLE = """
piece: girdle cord
form: cord
length: 3 m
yarns: {red: {diameter: 0.45 mm, fibre: wool}}
tablets: 6
sessions: {one: 2 h, two: 3 h}
pace: 6
"""


def test_every_pick_has_its_box_once(
    example: str, example_plan: Callable[[str], Plan], desk_of: Callable[..., Desk], paper: str
):
    desk = desk_of(example_plan(example), paper)
    rows = tick_rows(desk)
    woven = 0
    for row in rows:
        for cluster in row.clusters:
            assert cluster.first == woven
            woven = cluster.last
            assert boxes_in(cluster, row.per_box) * row.per_box >= cluster.last - cluster.first
    assert woven == desk.plan.turning.picks


def test_a_row_ends_at_every_intervention(
    example: str, example_plan: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    desk = desk_of(example_plan(example))
    stops = [(row.last, i.pick) for row in tick_rows(desk) for i in row.after]
    assert [pick for _, pick in stops] == [i.pick for i in desk.plan.turning.interventions]
    assert all(last == pick for last, pick in stops)


def test_boxes_are_at_least_5_mm_and_inside_the_frame(
    example: str, example_plan: Callable[[str], Plan], desk_of: Callable[..., Desk], paper: str
):
    desk = desk_of(example_plan(example), paper)
    words = desk.words("turning")
    for row in tick_rows(desk):
        picture = row_picture(desk, row, words, 0)
        boxes = [s for s in picture.shapes if isinstance(s, Rect)]
        assert len(boxes) == sum(boxes_in(c, row.per_box) for c in row.clusters)
        assert all(b.w >= 5 <= b.h and b.x + b.w <= desk.width for b in boxes)
        assert pytest.approx(5) == BOX


def test_a_long_cord_has_a_box_for_a_full_turn(
    plan_of: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    plan = plan_of(GIRDLE)
    desk = desk_of(plan)
    # rule of thumb: 2.8 diameters a pick, so 3000 / (2.8 * 0.45) = 2381 picks
    assert plan.turning.picks == pytest.approx(3000 / (2.8 * 0.45), abs=1)
    assert picks_in_box(desk) == 4
    assert [i.pick for row in tick_rows(desk) for i in row.after] == [
        i.pick for i in plan.turning.interventions
    ]
