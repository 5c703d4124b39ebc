"""Cutting lengths from balls: held against every way of sharing small cases out."""

import itertools
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.plan.cutting import best_fit, cut_from_balls, least_balls


def fewest_by_all_ways(lengths, whole):
    """Every assignment of lengths to balls, the next empty ball being the only new choice."""
    best = len(lengths)
    rooms = []

    def place(i):
        nonlocal best
        if len(rooms) >= best:
            return
        if i == len(lengths):
            best = len(rooms)
            return
        for at in range(len(rooms)):
            if rooms[at] >= lengths[i]:
                rooms[at] -= lengths[i]
                place(i + 1)
                rooms[at] += lengths[i]
        rooms.append(whole - lengths[i])
        place(i + 1)
        rooms.pop()

    place(0)
    return best


@settings(max_examples=150, deadline=None)
@given(st.lists(st.integers(1, 60), min_size=1, max_size=9))
def test_no_way_needs_fewer_balls(lengths):
    cutting = cut_from_balls([(mm, 1) for mm in lengths], 60)
    assert cutting.proven
    assert len(cutting.balls) == cutting.least == fewest_by_all_ways(lengths, 60)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.integers(50, 400), st.integers(1, 30)), min_size=1, max_size=4),
    st.integers(400, 900),
)
def test_everything_is_cut_once_and_no_ball_is_overrun(wanted, whole):
    cutting = cut_from_balls(wanted, whole)
    for mm in set(dict(wanted)):
        kind = cutting.lengths.index(mm)
        assert sum(b.counts[kind] for b in cutting.balls) == sum(n for w, n in wanted if w == mm)
    for ball in cutting.balls:
        held = sum(n * mm for n, mm in zip(ball.counts, cutting.lengths, strict=True))
        assert held + ball.left == whole
        assert ball.left >= 0
    total = sum(mm * n for mm, n in wanted)
    assert math.ceil(total / whole) <= cutting.least <= len(cutting.balls)
    assert cutting.left == len(cutting.balls) * whole - total


def test_longest_first_can_miss_what_the_search_finds():
    # worked by hand: 5+3+2, 4+3+3 and 4+4+2 fill three balls of 10; any rule that puts the longest
    # first pairs 5 with 4 and runs out of room
    wanted = [(5, 1), (4, 3), (3, 3), (2, 2)]
    lengths, demand = (5, 4, 3, 2), (1, 3, 3, 2)
    assert sum(mm * n for mm, n in wanted) == 30
    assert len(best_fit(lengths, demand, 10)) == 4
    cutting = cut_from_balls(wanted, 10)
    assert (len(cutting.balls), cutting.left, cutting.proven) == (3, 0, True)


def test_the_bound_counts_lengths_that_cannot_share_a_ball():
    # geometry: two lengths of 6 never share a ball of 10, whatever the sum says
    assert least_balls((6,), (5,), 10) == 5
    assert least_balls((6, 5), (5, 2), 10) == 6


def test_many_bags_are_shared_out_at_once_and_the_bound_is_told():
    rng = random.Random(7)
    for n in (100, 500):
        wanted = [(rng.randrange(2000, 9000, 10), n) for _ in range(4)]
        cutting = cut_from_balls(wanted, 34000)
        # geometry: of balls filled in turn, no two can both be less than half full
        total = sum(mm * many for mm, many in wanted)
        assert cutting.least <= len(cutting.balls) <= 2 * total / 34000 + 1
        assert cutting.proven == (len(cutting.balls) == cutting.least)


def test_nothing_is_cut_from_too_short_a_ball():
    with pytest.raises(ValueError, match="cannot be cut"):
        cut_from_balls([(11, 1)], 10)
    assert cut_from_balls([], 10).balls == ()


def test_the_order_in_which_lengths_are_named_changes_nothing():
    wanted = [(70, 3), (45, 4), (30, 5)]
    found = {len(cut_from_balls(order, 100).balls) for order in itertools.permutations(wanted)}
    assert len(found) == 1
