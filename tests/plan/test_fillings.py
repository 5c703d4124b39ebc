"""Fillings of a string from beads at hand, held against a search through every possibility."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.model.beads import BeadKind, Beads, Knot, Strung
from sheetgen.plan.beads import string_up
from sheetgen.plan.filler import Option, solve
from sheetgen.plan.fillings import fillings, runs_of


def string(*items: tuple[str, int] | None, kinds: tuple[BeadKind, ...]):
    order = tuple(Strung(*item) if item else Knot() for item in items)
    return string_up(Beads(kinds, order), 1.0)


def cost_of(counts: list[int], options: list[Option], picked: tuple[Option, ...]):
    """The cost of a filling bead by bead, worked out from its definition."""
    at, runs_off, mixed = 0, 0, 0
    for count in counts:
        run = picked[at : at + count]
        runs_off += abs(sum(o.off for o in run))
        mixed += len({o.name for o in run if o.name}) > 1
        at += count
    return (
        sum(not o.name for o in picked),
        sum(not o.exact for o in picked),
        runs_off,
        abs(sum(o.off for o in picked)),
        mixed,
        sum(o.unlike for o in picked),
    )


OPTIONS = st.lists(
    st.builds(
        Option,
        name=st.sampled_from("abc"),
        off=st.sampled_from([-100, -50, -30, 0, 40, 50, 100]),
        exact=st.booleans(),
        unlike=st.integers(0, 3),
        left=st.one_of(st.none(), st.integers(0, 4)),
    ),
    max_size=3,
    unique_by=lambda o: o.name,
)


@settings(max_examples=60)
@given(st.lists(st.integers(1, 3), min_size=1, max_size=3).filter(lambda c: sum(c) <= 6), OPTIONS)
def test_no_other_filling_is_better(counts: list[int], options: list[Option]):
    total = sum(counts)
    nobody = Option("", 0, False, 0, None)
    possible = [
        cost_of(counts, options, picked)
        for picked in product([*options, nobody], repeat=total)
        if all(o.left is None or sum(p is o for p in picked) <= o.left for o in options)
    ]
    found = [(*s.cost[:3], abs(off), *s.cost[3:]) for off, s in solve(counts, options).items()]
    assert min(found) == min(possible)


SMALL = BeadKind("small", 6.0)
LARGE = BeadKind("large", 9.0)


def test_runs_are_parted_by_other_kinds_and_knots():
    strung = string(("small", 3), None, ("small", 2), ("large", 1), kinds=(SMALL, LARGE))
    assert [(r.kind, r.count) for r in runs_of(strung)] == [
        ("small", 3),
        ("small", 2),
        ("large", 1),
    ]


def test_longer_and_shorter_beads_mixed_keep_the_length():
    # geometry: five of 5.5 mm and five of 6.5 mm are as long as ten of 6 mm
    strung = string(("small", 10), kinds=(SMALL,))
    hand = (BeadKind("short", 6.0, length=5.5), BeadKind("long", 6.0, length=6.5))
    exact, nearest, mixed = fillings(strung, (SMALL,), hand, 1.0, 1)
    assert (exact.wanting, exact.exact) == (10, 0)
    assert abs(nearest.total_off) == pytest.approx(5.0)
    assert (mixed.total_off, mixed.wanting) == (0, 0)
    assert mixed.counts == {"short": 5, "long": 5}


def test_exact_beads_are_taken_as_far_as_they_go():
    strung = string(("small", 4), ("large", 1), ("small", 4), kinds=(SMALL, LARGE))
    hand = (BeadKind("six", 6.0, at_hand=6), BeadKind("seven", 7.0), BeadKind("nine", 9.0))
    exact, nearest, mixed = fillings(strung, (SMALL, LARGE), hand, 1.0, 1)
    assert (exact.wanting, exact.exact) == (2, 7)
    assert (nearest.wanting, nearest.counts) == (0, {"seven": 8, "nine": 1})
    assert (mixed.exact, mixed.counts) == (7, {"six": 6, "seven": 2, "nine": 1})
    assert mixed.total_off == pytest.approx(2.0)
    assert mixed.mixed == 1  # the two of 7 mm stand in one run, so one run stays as it was


def test_a_kind_at_hand_stands_for_one_wanted_kind_only():
    strung = string(("small", 2), ("large", 1), kinds=(SMALL, BeadKind("large", 7.0)))
    hand = (BeadKind("six", 6.0), BeadKind("eight", 8.0))
    _, nearest, mixed = fillings(strung, (SMALL, BeadKind("large", 7.0)), hand, 1.0, 1)
    for filling in (nearest, mixed):
        assert filling.wanting == 0
        assert filling.counts == {"six": 2, "eight": 1}


def test_holes_that_the_cord_does_not_pass_and_beads_for_several_pieces():
    strung = string(("small", 4), kinds=(SMALL,))
    narrow, wide = BeadKind("narrow", 6.0, hole=1.0), BeadKind("wide", 6.0, hole=3.0, at_hand=6)
    exact, _, _ = fillings(strung, (SMALL,), (narrow, wide), 2.0, 1, 2)
    assert exact.counts == {"wide": 3}  # six for two pieces
    assert exact.wanting == 1


def test_nothing_at_hand_leaves_all_wanting():
    strung = string(("small", 4), kinds=(SMALL,))
    assert [f.wanting for f in fillings(strung, (SMALL,), (), 1.0, 1)] == [4, 4, 4]
