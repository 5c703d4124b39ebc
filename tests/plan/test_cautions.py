"""Beads and cords against the published rules, by routes of their own."""

from __future__ import annotations

import math

import numpy as np
import pytest

from sheetgen.model.beads import BeadKind
from sheetgen.plan.cautions import cautions_of, fits_cylinder, is_small_ball, is_small_part
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description

# published: 16 CFR 1501.4: 31.7 mm wide, 25.4 to 57.1 mm deep; so the bottom slants by 45 degrees
WIDE, SHALLOW, DEEP = 31.7, 25.4, 57.1


def bead(diameter, length=None, shape="round"):
    return BeadKind("b", diameter, length, shape=shape)


def plan_of(text):
    read = read_description(text.encode())
    assert read.project is not None, read.diagnostics
    return make_plan(read.project).plan


@pytest.mark.parametrize("diameter", [0.5, 4, 12, 25, 31.6, 31.8, 40, 60])
def test_a_ball_fits_if_it_is_no_wider_than_the_cylinder(diameter):
    # geometry: a ball of radius r on the deep side touches lid and bottom of 45 degrees when
    # r (2 + sqrt 2) = 57.1, so r = 16.72 > 15.85: only the width can keep it out
    assert DEEP / (2 + math.sqrt(2)) > WIDE / 2
    assert is_small_part(bead(diameter)) == (diameter <= WIDE)


@pytest.mark.parametrize(
    ("length", "fits"), [(math.hypot(WIDE, DEEP) - 1, True), (math.hypot(WIDE, DEEP) + 0.5, False)]
)
def test_the_longest_thread_lies_from_the_deep_edge_to_the_lid_opposite(length, fits):
    # geometry: the farthest two points are 31.7 mm apart across and 57.1 mm down: 65.3 mm
    assert is_small_part(bead(0.1, length, "cylinder")) is fits


def fits_upright_by_volume(diameter, length):
    """A cylinder standing on the deep side, by points all through it (geometry)."""
    r = WIDE / 2
    grid = np.linspace(-diameter / 2, diameter / 2, 61)
    x, y = np.meshgrid(grid, grid)
    inside = x**2 + y**2 <= (diameter / 2) ** 2
    x = x + r - diameter / 2
    depth = SHALLOW + (DEEP - SHALLOW) * (x + r) / WIDE
    return bool(((depth >= length) | ~inside).all() and diameter <= WIDE)


@pytest.mark.parametrize(("diameter", "length"), [(10, 46), (20, 36), (31, 25), (31.7, 25.3)])
def test_what_fits_upright_fits(diameter, length):
    assert fits_upright_by_volume(diameter, length)
    assert is_small_part(bead(diameter, length, "cylinder"))


@pytest.mark.parametrize(("diameter", "length"), [(33, 3), (33, 33), (31, 57.2), (20, 66)])
def test_what_is_too_large_any_way_does_not(diameter, length):
    # geometry: a round plate wider than 31.7 mm is so wide across, however it is tilted; 57.1 mm
    # and 66 mm are more than what is left of the depth, or of the longest line, beside the body
    assert not is_small_part(bead(diameter, length, "cylinder"))


def test_a_barrel_is_judged_as_the_cylinder_around_it():
    assert fits_cylinder(((-5, 6), (5, 6)))
    assert is_small_part(bead(12, 10, "barrel"))


def test_balls_up_to_44_4_mm_have_a_rule_of_their_own():
    # published: CPSC, small balls: 1.75 inch, 44.4 mm
    assert abs(1.75 * 25.4 - 44.4) < 0.06
    assert is_small_ball(bead(44))
    assert not is_small_ball(bead(45))
    assert not is_small_ball(bead(20, 20, "cylinder"))


LOOP = (
    "piece: Q\nform: loop\nyarns: {a: {diameter: 0.5 mm}}\ntablets: 4\n"
    "beads: {kinds: {small: 8 mm, great: 40 mm}, order: [20 small, great]}"
)


def test_a_loop_of_beads_names_its_beads_and_its_loop():
    plan = plan_of(LOOP)
    found = {c.key: c for c in cautions_of(plan)}
    assert found["small parts"].names == ("small",)
    assert found["small balls"].names == ("great",)
    assert found["small parts"].rule == "16 CFR 1501.4"
    # geometry: the beads alone take 20 x 8 + 40 = 200 mm; EN 71-1 (edition seen): 380 mm around
    assert ("loop" in found) == (plan.string.cord > 380)


@pytest.mark.parametrize(("length", "told"), [("21 cm", False), ("23 cm", True), ("3 m", True)])
def test_a_free_cord_is_held_against_220_mm(length, told):
    text = f"piece: Q\nform: cord\nyarns: {{a: {{diameter: 0.5 mm}}}}\ntablets: 4\nlength: {length}"
    found = {c.key: c for c in cautions_of(plan_of(text))}
    assert ("free cord" in found) is told
    assert set(found) <= {"free cord"}
