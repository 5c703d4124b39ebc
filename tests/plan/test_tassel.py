"""Tassels: the neck's section filled by threads, worked by area."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.plan.tassel import added_ends, make_tassel, neck_thickness


@given(st.floats(2, 30), st.floats(0.1, 1), st.integers(0, 60))
def test_threads_fill_six_tenths_of_the_neck(thickness, diameter, tails):
    """Geometry by area: the neck holds 0.6 (common practice, no source) of its section in yarn."""
    added = added_ends(thickness, diameter, tails)
    yarn = (tails + added) * math.pi / 4 * diameter**2
    neck = math.pi / 4 * thickness**2
    if added:
        assert yarn / neck == pytest.approx(0.6)
    else:
        assert yarn / neck >= 0.6 - 1e-9
    assert neck_thickness(tails + added, diameter) >= thickness - 1e-9


@given(st.floats(2, 30), st.floats(0.2, 1), st.integers(1, 60), st.floats(0.2, 1))
def test_tails_of_another_thickness(thickness, diameter, tails, tail):
    tassel = make_tassel(tails, diameter, 60.0, thickness, 10, tail)
    yarn = math.pi / 4 * (tails * tail**2 + 2 * tassel.strands * diameter**2)
    assert yarn / (math.pi / 4 * tassel.neck**2) == pytest.approx(0.6)
    # folded strands come in twos: at most two threads more than are wanted
    if tassel.strands:
        assert thickness - 1e-9 <= tassel.neck
        more = 0.6 * (tassel.neck**2 - thickness**2) / diameter**2
        assert more <= 2 + 1e-6


def test_a_tassel_by_hand():
    # geometry: 6 mm of 0.5 mm threads: 0.6 x 144 = 86.4 ends, 24 are tails, 62.4 = 32 folded
    tassel = make_tassel(24, 0.5, 60.0, 6.0, 12)
    assert (tassel.strands, tassel.skirt_ends) == (32, 88)
    assert tassel.strand_length > 2 * 60
    around = 12 * math.pi * tassel.neck
    assert tassel.binding == pytest.approx(around + 300)  # two ends of 15 cm: common practice


def test_tails_alone():
    tassel = make_tassel(24, 0.5, 60.0, None, 10)
    assert (tassel.strands, tassel.skirt_ends) == (0, 24)
