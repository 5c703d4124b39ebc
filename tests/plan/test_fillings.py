"""Fillings of a string from beads at hand, held against a search through every possibility."""

from __future__ import annotations

import time
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


def whole_cost(runs, wanted, hand, names):
    """What orders the fillings, from the definition in words, of a bead for each place."""
    at, runs_off, total, mixed, exact, unlike = 0, 0.0, 0.0, 0, 0, 0.0
    for run in runs:
        of, here = wanted[run.kind], names[at : at + run.count]
        at += run.count
        beads = [hand[name] for name in here if name]
        off = sum(b.length - of.length for b in beads)
        runs_off, total = runs_off + abs(off), total + off
        mixed += len({b.name for b in beads}) > 1
        exact += sum(
            abs(b.length - of.length) <= 0.25 and abs(b.diameter - of.diameter) <= 0.25
            for b in beads
        )
        unlike += sum(abs(b.diameter - of.diameter) for b in beads)
    return (
        names.count(""), -exact, round(runs_off, 6), round(abs(total), 6), mixed, round(unlike, 6)
    )  # fmt: skip


def all_fillings(runs, hand, left):
    """Every bead in every place, no kind in the place of two wanted ones, none more than left."""
    kinds = [run.kind for run in runs for _ in range(run.count)]
    for names in product(["", *hand], repeat=len(kinds)):
        owners = {(name, kind) for name, kind in zip(names, kinds, strict=True) if name}
        if len({name for name, _ in owners}) < len(owners):
            continue
        if all(left[n] is None or names.count(n) <= left[n] for n in hand):
            yield names


@settings(max_examples=60)
@given(
    st.lists(st.sampled_from(["small", "large", None]), min_size=2, max_size=5).filter(any),
    st.lists(
        st.tuples(
            st.sampled_from([5.0, 5.5, 6.0, 6.2, 6.5, 7.0]),
            st.sampled_from([5.5, 6.0, 6.5]),
            st.sampled_from([None, 0, 1, 2, 3]),
        ),
        max_size=4,
    ),
)
def test_whole_strings_are_filled_as_well_as_can_be(order, found):
    wanted = {
        "small": BeadKind("small", 6.0, length=6.0),
        "large": BeadKind("large", 6.5, length=6.5),
    }
    hand = [
        BeadKind(f"h{n}", width, length=long, at_hand=left)
        for n, (long, width, left) in enumerate(found)
    ]
    strung = string(*((name, 1) if name else None for name in order), kinds=tuple(wanted.values()))
    runs, by_name = runs_of(strung), {b.name: b for b in hand}
    left = {b.name: b.at_hand for b in hand}
    best = min(
        whole_cost(runs, wanted, by_name, names) for names in all_fillings(runs, by_name, left)
    )
    *_, mixed = fillings(strung, tuple(wanted.values()), hand, 0.0, 1)
    names = tuple(name for row in mixed.runs for name, n in row for _ in range(n))
    assert not mixed.left_out
    assert whole_cost(runs, wanted, by_name, names) == best


def test_kinds_that_there_was_no_time_for_are_told():
    kinds = tuple(BeadKind(f"k{n}", 6.0 + n / 10) for n in range(6))
    strung = string(*((k.name, 12) for k in kinds for _ in range(3)), kinds=kinds)
    hand = tuple(BeadKind(f"h{n}", 5.0 + n / 10, at_hand=30) for n in range(25))
    began = time.process_time()
    _, nearest, mixed = fillings(strung, kinds, hand, 1.0, 1)
    assert time.process_time() - began < 10
    assert mixed.left_out
    assert (mixed.wanting, nearest.wanting) == (0, 36)  # 750 are there; 30 of each kind for 36


def test_of_equal_runs_the_whole_length_decides():
    # geometry: half a millimetre more and half a millimetre less, 15 mm in all
    kinds = (BeadKind("a", 6.0), BeadKind("b", 9.0))
    strung = string(("a", 1), ("b", 1), kinds=kinds)
    hand = tuple(BeadKind(f"h{n}", d) for n, d in enumerate((5.5, 6.5, 8.5, 9.5)))
    for filling in fillings(strung, kinds, hand, 1.0, 1)[1:]:
        assert (filling.runs_off, filling.total_off) == (1.0, 0.0)
