"""Spirals against the reports: Henshall's rule, and what the flips of the terms page must give."""

import math

import pytest

from sheetgen.plan.interventions import CHANGE_SIDE, KEEP_SIDE, LET_OUT
from sheetgen.plan.looks import lengths_of_tube, spiral_angle, spiral_lead, tube_look, weft_hand
from sheetgen.plan.pack import Pack, Tablet
from sheetgen.plan.surface import turned_slant
from sheetgen.plan.turning import unroll


def pack_of(letters):
    return Pack(tuple(Tablet(i + 1, c, ("m",) * 4) for i, c in enumerate(letters)), 4)


def looks(letters, way, places=(40,), enters="right", returns="under", steps=()):
    pack = pack_of(letters)
    stretches = unroll(steps, list(pack.groups), 100)
    return lengths_of_tube(pack, stretches, places, way, enters, returns)


def test_the_reported_spiral():
    # published as a hobby report, 2024: Z-threaded, forward, in at the right, back under: spirals
    assert tube_look(turned_slant("Z", 1), weft_hand("right", "under")).startswith("spiral")
    (whole,) = looks("ZZZ", LET_OUT, places=())
    assert whole.look == "spiral S"  # both climb as S: the terms page


def helix_of_weft(enters, returns):
    """Geometry: the weft's way over the top, seen from above, as the work grows away."""
    # In at the right and back under: over the top it runs from right to left, and the pick before
    # lies nearer. So on the face it leans from near right to far left: the middle stroke of S.
    over_the_top_to_left = (enters == "right") == (returns == "under")
    return "S" if over_the_top_to_left else "Z"


@pytest.mark.parametrize("enters", ["right", "left"])
@pytest.mark.parametrize("returns", ["under", "over"])
@pytest.mark.parametrize("letter", ["S", "Z"])
def test_spirals_only_where_the_hands_agree(enters, returns, letter):
    (whole,) = looks(letter * 3, LET_OUT, (), enters, returns)
    cords = {"S": "Z", "Z": "S"}[letter]  # turned forward, the terms page
    if cords == helix_of_weft(enters, returns):
        assert whole.look == f"spiral {cords}"
    else:
        assert whole.look == "straight"


def test_flip_and_keep_the_side_alternates():
    first, second, third = looks("ZZ", KEEP_SIDE, (30, 60))
    assert [x.look for x in (first, second, third)] == ["spiral S", "straight", "spiral S"]
    assert {x.side for x in (first, second, third)} == {"right"}


def test_flip_and_change_the_side_makes_a_zigzag():
    found = looks("ZZ", CHANGE_SIDE, (30, 60))
    assert [x.look for x in found] == ["spiral S", "spiral Z", "spiral S"]
    assert [x.side for x in found] == ["right", "left", "right"]


def test_letting_out_makes_one_spiral():
    assert [x.look for x in looks("ZZ", LET_OUT, (30, 60))] == ["spiral S"] * 3


def test_lengths_follow_each_other():
    assert [(x.first, x.last) for x in looks("S", KEEP_SIDE, (30, 60))] == [
        (0, 30),
        (30, 60),
        (60, 100),
    ]


def test_what_cannot_be_told(turns):
    assert looks("SZ", LET_OUT, ())[0].look == "cannot tell"
    both_ways = (turns(4), turns(4, "backward"))
    assert looks("SS", LET_OUT, (), steps=both_ways)[0].look == "cannot tell"
    assert looks("SS", LET_OUT, (), steps=(turns(4), turns(4, "idle")))[0].look == "straight"


def test_spiral_by_unrolling_the_tube():
    """Geometry: on the unrolled tube the weft line rises one pick over the girth; a column is
    square to it, so walking up a column and along the weft by the same amount stays on both."""
    step, across = 1.3, 2.4
    girth = math.pi * across
    weft = (girth, step)
    angle = math.radians(spiral_angle(step, across))
    column = (-math.sin(angle), math.cos(angle))
    assert weft[0] * column[0] + weft[1] * column[1] == pytest.approx(0.0, abs=1e-12)
    # once round: the column has moved sideways by the whole girth
    assert spiral_lead(step, across) * math.tan(angle) == pytest.approx(girth)


def test_which_cords_twist_which_way_when_one_tablet_differs():
    """Henshall's cord 5: all tablets threaded alike but one (published, 1964)."""
    pack = pack_of("SSSSSSSZ")
    stretches = unroll((), list(pack.groups), 40)
    (length,) = lengths_of_tube(pack, stretches, (), "let out", "right", "under")
    assert length.look == "cannot tell"
    # terms page: S-threaded forward gives Z cords, Z-threaded forward gives S cords
    assert length.hands == ((8,), tuple(range(1, 8)), ())
