"""Beads laid along the cord, and holes, against a seller's chart and a worked necklace."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.beads import BeadKind, BeadRepeat, Gap, Knot, KnotSize, Strung
from sheetgen.plan.beads import (
    BARE_END,
    LOOP_OF_THREAD,
    choose_stringing,
    finger_room,
    hole_verdict,
    knot_size,
    largest_cord,
    smallest_hole,
    string_up,
)


@pytest.mark.parametrize(("size", "count"), [(4, 101.6), (6, 67.7), (8, 50.8), (10, 40.6)])
def test_beads_in_a_strand(beads, size, count):
    # published: a bead seller's chart, beads per 16-inch strand, to one decimal
    ten_strands = beads((Strung("one", round(10 * count)),), (BeadKind("one", float(size)),))
    length = string_up(ten_strands, 1.0).beads_length
    assert length == pytest.approx(10 * 16 * 25.4, abs=size)


def test_a_necklace_of_repeats(beads):
    # published as a worked example: unit 7 + 5 + 2 x 3 = 18 mm, 23 units make 414 mm
    kinds = (BeadKind("a", 7.0), BeadKind("b", 5.0), BeadKind("c", 3.0))
    unit = (Strung("a", 1), Strung("c", 1), Strung("b", 1), Strung("c", 1))
    string = string_up(beads((BeadRepeat(23, unit),), kinds), 1.0)
    assert string.beads_length == pytest.approx(414)
    assert string.counts == {"a": 23, "c": 46, "b": 23}
    assert pytest.approx(22.22, abs=0.005) == 400 / 18


ITEMS = st.recursive(
    st.one_of(
        st.builds(Strung, st.sampled_from(["small", "large"]), st.integers(1, 5)),
        st.builds(Gap, st.floats(0.1, 20)),
        st.just(Knot()),
    ),
    lambda inner: st.builds(
        BeadRepeat, st.integers(1, 3), st.lists(inner, min_size=1, max_size=3).map(tuple)
    ),
    max_leaves=8,
)


@given(st.lists(ITEMS, min_size=1, max_size=5), st.floats(0.5, 4))
def test_everything_lies_end_to_end(beads, order, cord):
    string = string_up(beads(order), cord)
    for one, other in zip(string.placed, string.placed[1:], strict=False):
        assert other.start == pytest.approx(one.start + one.length)
    total = sum(p.length for p in string.placed)
    assert string.string_length == pytest.approx(total)
    assert string.beads_length == pytest.approx(sum(p.length for p in string.beads))
    assert [b.number for b in string.beads] == list(range(1, len(string.beads) + 1))
    assert sum(string.counts.values()) == len(string.beads)
    knots = sum(p.what == "knot" for p in string.placed)
    length, takes = knot_size(beads(), cord)
    assert string.knots_take == pytest.approx(knots * (takes - length))
    for bead in string.beads:  # where it lies before the knots ahead of it are tied
        before = sum(p.what == "knot" for p in string.placed if p.start < bead.start - 1e-9)
        assert bead.on_cord == pytest.approx(bead.start + before * (takes - length))


def test_stated_knots(beads):
    sized = beads(knots=KnotSize(length=3.0, takes=20.0))
    assert knot_size(sized, 1.5) == (3.0, 20.0)
    length, takes = knot_size(beads(), 1.5)
    assert takes > length > 1.5


def test_length_along_the_string_may_differ_from_the_diameter(beads):
    discs = beads((Strung("disc", 10),), (BeadKind("disc", 12.0, length=3.0),))
    assert string_up(discs, 1.0).beads_length == 30  # geometry


def test_finger_room():
    assert finger_room(264) == pytest.approx(0.06 * 264)  # common practice: 6 %
    assert finger_room(50) == 12  # common practice: at least 12 mm


@given(st.floats(0.2, 10), st.floats(0.2, 10), st.integers(1, 2))
def test_verdicts_agree_with_the_limits_they_tell(hole, cord, strands):
    verdict = hole_verdict(hole, cord, strands)
    assert (verdict != "will not pass") == (hole >= smallest_hole(cord, strands))
    if abs(hole - smallest_hole(cord, strands)) > 1e-9:
        assert (verdict != "will not pass") == (cord <= largest_cord(hole, strands))
    # geometry: circles side by side lie in a circle as wide as both together
    assert (verdict == "passes") == (hole >= strands * cord)


def test_a_hole_not_measured():
    assert hole_verdict(None, 1.0, 2) == "not known"


def test_stringing_by_what_is_strung(beads):
    narrow = (BeadKind("small", 10.0, hole=3.0), BeadKind("large", 12.0, hole=1.2))
    assert choose_stringing(beads(None, narrow), 1.4) == LOOP_OF_THREAD  # "large" is not strung
    both = (Strung("small", 3), BeadRepeat(2, (Strung("large", 1),)))
    assert choose_stringing(beads(both, narrow), 1.4) == BARE_END
    assert choose_stringing(beads(None, narrow, strung=BARE_END), 0.5) == BARE_END
    assert math.isclose(smallest_hole(1.4, 2), 2.38)  # common practice: 0.85 of twice 1.4
