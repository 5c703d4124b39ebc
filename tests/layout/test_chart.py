from collections.abc import Callable
from itertools import pairwise

import pytest

from sheetgen.layout.chart import (
    CELL_W,
    LABEL_W,
    RepeatRun,
    chart_rows,
    columns_that_fit,
    find_repeats,
    row_corners,
    slant,
)
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Picture, Text
from sheetgen.plan.plan import Plan

WIDE = """
piece: wide band
form: band
length: 30 cm
yarns: {red: {diameter: 0.5 mm, fibre: wool}, white: {diameter: 0.5 mm, fibre: wool}}
tablets:
  number: 61
  threaded: S Z
  draft: [red white red white, white white red red]
  except: [{tablets: 5, colours: {B: empty}}]
"""


def letters(picture: Picture, y_from: float, y_to: float) -> list[tuple[float, str]]:
    return sorted(
        (s.x, s.text)
        for s in picture.shapes
        if isinstance(s, Text) and y_from < s.y < y_to and s.anchor == "middle"
    )


def test_wide_packs_break_over_rows_with_numbers_repeated(
    plan_of: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    desk = desk_of(plan_of(WIDE))
    rows = chart_rows(desk, desk.width)
    # geometry: as many columns of 7.5 mm as fit beside the hole letters
    assert columns_that_fit(desk.width) == int((desk.width - LABEL_W) / CELL_W)
    assert [t.number for _, part in rows for t in part] == list(range(1, 62))
    for picture, part in rows:
        assert picture.width <= desk.width
        drawn = [s.text for s in picture.shapes if isinstance(s, Text)]
        assert all(str(t.number) in drawn for t in part)


def test_every_cell_carries_the_letter_of_its_yarn(
    plan_of: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    plan = plan_of(WIDE)
    picture, part = chart_rows(desk_of(plan), 184.0)[0]
    by_column = [
        [s.text for s in picture.shapes if isinstance(s, Text) and s.halo
         and LABEL_W + i * CELL_W < s.x < LABEL_W + (i + 1) * CELL_W]
        for i in range(len(part))
    ]  # fmt: skip
    r, w = plan.use("red").letter, plan.use("white").letter
    assert by_column[0] == [r, w, r, w]
    assert by_column[1] == [w, w, r, r]
    assert by_column[4] == [r, r, w], "hole B of tablet 5 is empty: three letters, not four"


def test_slant_is_the_middle_stroke_of_its_letter():
    # geometry, terms page: S runs from near right to far left; far is up, so on paper its upper
    # end lies to the left. Z is the mirror image.
    for threaded, upper_is_left in (("S", True), ("Z", False)):
        stroke = next(s for s in slant(10.0, 0.0, threaded) if isinstance(s, Line))
        (xu, _), (xl, _) = sorted([(stroke.x1, stroke.y1), (stroke.x2, stroke.y2)],
                                  key=lambda p: p[1])  # fmt: skip
        assert (xu < xl) is upper_is_left


def test_repeats():
    assert [(r.start, r.size, r.times) for r in find_repeats("aaaab")] == [(0, 1, 4)]
    assert [(r.start, r.size, r.times) for r in find_repeats("xyabcabcz")] == [(2, 3, 2)]
    assert find_repeats("abcdef") == []


@pytest.mark.parametrize("most", [5, 11, 22])
@pytest.mark.parametrize(
    ("start", "size", "times"), [(0, 2, 60), (7, 3, 20), (4, 11, 4), (3, 1, 90)]
)
def test_rows_cover_the_pack_and_repeats_are_broken_between_units(
    start: int, size: int, times: int, most: int
):
    run = RepeatRun(start, size, times)
    total = run.end + 5
    corners = row_corners(total, most, [run])
    assert corners[0] == 0
    assert corners[-1] == total
    assert all(0 < b - a <= most for a, b in pairwise(corners))
    inside = [c for c in corners if run.start < c < run.end]
    if size <= most and size * times >= 2 * most:
        assert all((c - run.start) % size == 0 for c in inside[:-1])
