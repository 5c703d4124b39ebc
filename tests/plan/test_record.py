"""Find, plan and made held side by side; what cannot be; what departs without being said."""

from __future__ import annotations

import pytest

from sheetgen.model.values import UNKNOWN
from sheetgen.plan.made import carried_over, made_told
from sheetgen.plan.planner import make_plan
from sheetgen.plan.record import compare
from sheetgen.plan.told import Told, take_up_from_left_over
from sheetgen.read import read_description

CORD = """
piece: A cord
form: cord
find: {name: x, thickness: 2 mm, length: unknown}
length: 1 m
tablets: 4
yarns: {red: {diameter: 0.5 mm, count: 100 tex x 1}, blue: {diameter: 0.5 mm, count: 100 tex x 1}}
weft: blue
pace: 5
allowance: {near tail: 10 cm, far tail: 10 cm, loom waste: 20 cm}
"""


def planned(text: str):
    read = read_description(text.encode())
    assert read.project is not None, read.diagnostics
    return make_plan(read.project)


def rows(text: str):
    done = planned(text)
    assert not [d for d in done.diagnostics if d.is_error], done.diagnostics
    return {row.key: row for row in compare(done.plan)}


def test_nothing_made_leaves_every_last_column_empty():
    found = rows(CORD)
    assert all(row.made is None and row.from_plan is None for row in found.values())
    assert found["finished_length"].find is UNKNOWN
    assert found["thickness"].find == Told(2.0, 2.0, 2.0, "stated")


def test_measured_values_stand_as_measured_with_their_differences():
    found = rows(CORD + "made: {length: 1.1 m, thickness: 1.5 mm, picks woven: 800}\n")
    length, thick = found["finished_length"], found["thickness"]
    assert length.made == Told(1100.0, 1100.0, 1100.0, "measured")
    assert length.from_plan == pytest.approx(100)  # arithmetic: 1.1 m − 1 m
    assert thick.from_find == pytest.approx(-0.5)  # arithmetic: 1.5 mm − 2 mm
    assert thick.from_plan == pytest.approx(1.5 - thick.plan.value)
    assert found["picks"].made.value == 800
    assert found["pick_spacing"].made.value == pytest.approx(1100 / 800)
    assert found["pick_spacing"].made.origin == "computed"


def test_take_up_of_a_published_warp():
    # Handwoven, March/April 2011, pp. 52-53: 180 in of warp, 31 in loom waste, 4 × 34 in woven;
    # what is left, 13 in, is take-up, so 149 in of warp make 136 in.
    assert take_up_from_left_over(180, 31, 4 * 34) == pytest.approx((136 + 13) / 136)


def test_take_up_follows_from_the_left_over_warp_before_shrinkage():
    text = CORD + "shrinkage: 20 %\nmade: {length: 1 m, warp end: 180 cm, left-over warp: 45 cm}\n"
    # 20 % shrinkage: to end with 1 m weave 1.25 m (as 10 in from 12.5 in, published rule);
    # 180 − 45 = 135 cm of warp in 125 cm of weaving.
    assert rows(text)["take_up"].made.value == pytest.approx(1.08)


def test_take_up_of_several_pieces_on_one_warp():
    text = CORD + "pieces: 2\none warp: yes\n"
    text += "made: {length: 1 m, warp end: 270 cm, left-over warp: 60 cm}\n"
    assert rows(text)["take_up"].made.value == pytest.approx(210 / 200)


def test_a_stated_take_up_outranks_the_left_over_warp():
    made = "made: {length: 1 m, warp end: 150 cm, left-over warp: 45 cm, take-up: 1.07}\n"
    assert rows(CORD + made)["take_up"].made == Told(1.07, 1.07, 1.07, "measured")


def test_picks_over_a_length_tell_all_picks():
    found = rows(CORD + "made: {length: 1 m, picks: 40 in 5 cm}\n")
    assert found["picks"].made.value == pytest.approx(800)
    assert found["picks"].made.origin == "computed"
    assert found["pick_spacing"].made == Told(1.25, 1.25, 1.25, "measured")


def test_pace_is_that_of_the_sessions_whose_picks_were_counted():
    found = rows(CORD + "made: {time: {a: {took: 1 h, picks: 240}, b: 2 h}}\n")
    assert found["pace"].made.value == pytest.approx(4)
    assert found["weaving_time"].made.value == 180


def test_yarn_is_compared_in_the_unit_in_which_it_was_measured():
    found = rows(CORD + "made: {yarns used: {red: 4 g, blue: 6 m, black: 1 g}}\n")
    assert (found["yarn:red"].unit, found["yarn:red"].made.value) == ("g", 4)
    assert (found["yarn:blue"].unit, found["yarn:blue"].made.value) == ("mm", 6000)
    # geometry: tex is g a km, so the planned grams are 100 tex times the planned length
    by_length = rows(CORD + "made: {yarns used: {red: 4 m}}\n")["yarn:red"].plan.value
    assert found["yarn:red"].plan.value == pytest.approx(by_length / 1e6 * 100)
    assert found["yarn:black"].plan is None


@pytest.mark.parametrize(
    ("made", "code"),
    [
        ("length: 3 m", "longer-than-warp"),
        ("length: 1 m, left-over warp: 2 m", "more-left-than-warped"),
        ("length: 1 m, warp end: 1.4 m, left-over warp: 50 cm", "take-up-below-one"),
        ("length: 30 cm", "far-from-plan"),
        ("thickness: 15 mm", "far-from-plan"),
        ("length: 1 m, warp end: 2 m, left-over warp: 50 cm", "much-take-up"),
        ("take-up: 1.8", "much-take-up"),
        ("picks woven: 7", "far-from-plan"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(made, code):
    plan = planned(CORD + f"made: {{{made}}}\n").plan
    found = [d for d in made_told(plan) if d.code == code]
    assert found, made_told(plan)
    assert found[0].path[0] == "made"
    assert found[0].hint


def test_what_can_be_is_let_stand():
    made = "made: {length: 1.02 m, warp end: 1.45 m, left-over warp: 35 cm, picks woven: 700}\n"
    assert not made_told(planned(CORD + made).plan)


def test_a_size_beyond_the_find_is_carried_over():
    assert [c.kind for c in carried_over(planned(CORD + "made: {thickness: 1.5 mm}\n").plan)] == [
        "thickness"
    ]
    assert not carried_over(planned(CORD + "made: {thickness: 2 mm}\n").plan)


def test_substitutions_are_carried_over_with_their_reason():
    text = """
piece: A loop
form: loop
tablets: 3
yarns: {red: {diameter: 0.5 mm}}
beads:
  kinds: {small: {diameter: 6 mm, stands for: {name: jet, why: not to be had}}, large: 9 mm}
  order: [9 small, large]
made:
  beads used: {small: 9, horn: {number: 1, instead of: large, why: it split}}
  yarns used: {green: {amount: 3 g, instead of: red, why: too little}}
"""
    found = carried_over(planned(text).plan)
    assert [(c.kind, c.ours, c.theirs, c.why) for c in found] == [
        ("bead", "small", "jet", "not to be had"),
        ("bead used", "horn", "large", "it split"),
        ("yarn used", "green", "red", "too little"),
    ]
