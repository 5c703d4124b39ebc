from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Circle
from sheetgen.layout.strip import Piece, pieces_of, rows_of, strip_pictures
from sheetgen.plan.plan import Plan

PIECES = st.lists(
    st.tuples(st.sampled_from(["bead", "knot", "gap", "room"]), st.floats(0.3, 120.0)),
    min_size=1,
    max_size=60,
)


def laid(kinds: list[tuple[str, float]]) -> list[Piece]:
    at, found = 0.0, []
    for what, length in kinds:
        found.append(Piece(at, length, what))
        at += length
    return found


@given(PIECES, st.floats(40.0, 180.0))
def test_rows_keep_every_millimetre_and_cut_no_bead(kinds: list[tuple[str, float]], room: float):
    pieces = laid(kinds)
    rows = rows_of(pieces, room)
    flat = [p for row in rows for p in row]
    assert sum(p.length for p in flat) == pytest.approx(sum(p.length for p in pieces))
    whole = [(p.start, p.length) for p in pieces if p.what in ("bead", "knot")]
    assert [(p.start, p.length) for p in flat if p.what in ("bead", "knot")] == whole
    for row in rows:
        assert sum(p.length for p in row) <= room + 1e-6 or len(row) == 1
    for before, after in pairwise(flat):
        assert after.start == pytest.approx(before.start + before.length)


def test_beads_on_the_strip_are_those_of_the_plan(
    example_plan: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    plan = example_plan("mill-race-loop")
    desk = desk_of(plan)
    pictures = strip_pictures(desk, desk.words("bead strip"))
    circles = [s for p in pictures for s in p.shapes if isinstance(s, Circle)]
    # the example strings 30 round beads of 9 mm
    assert len(circles) == 30
    assert {c.r for c in circles} == {4.5}
    assert all(p.true_scale for p in pictures)


def test_finger_room_is_drawn_as_the_gap_it_is(
    example_plan: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    plan = example_plan("ferry-cross-string")
    room = [p for p in pieces_of(desk_of(plan)) if p.what == "room"]
    # as described: finger room 3 cm; the cord is rounded up to the next whole millimetre
    assert 30.0 <= sum(p.length for p in room) < 31.0
