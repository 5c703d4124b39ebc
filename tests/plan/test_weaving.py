"""Picks, weft and time of whole pieces, by arithmetic."""

import math

import pytest

from sheetgen.model.pack import Group, Tablets
from sheetgen.model.project import Sample, Session
from sheetgen.model.turning import Move, Turns
from sheetgen.model.values import PicksOver
from sheetgen.plan.planner import make_plan


def test_picks_from_a_sample(project):
    plan = make_plan(project(sample=Sample(picks=PicksOver(32, 50.0)))).plan
    assert plan.turning.picks == 179  # geometry: 280 x 32 / 50 = 179.2
    spacing = plan.figures["pick_spacing"]
    assert spacing.origin == "measured"
    assert spacing.low < 50 / 32 < spacing.high


def test_picks_from_the_rule(project):
    figures = make_plan(project()).plan.figures
    # common practice, no source: 2.8 yarn diameters, 2.2 to 3.5
    assert figures["pick_spacing"].value == pytest.approx(2.8 * 0.4)
    assert figures["picks"].value == 250  # geometry: 280 / 1.12
    assert figures["picks"].low == pytest.approx(280 / (3.5 * 0.4))
    assert figures["picks"].high == pytest.approx(280 / (2.2 * 0.4))


def test_picks_of_almost_nothing(project, yarn):
    plan = make_plan(project(length=5.0, yarns=(yarn(diameter=5.0),))).plan
    assert plan.turning.picks == 1
    assert plan.figures["picks"].low <= 1 <= plan.figures["picks"].high


def test_weft_of_a_tube_and_of_a_band(project):
    tube = make_plan(project()).plan
    # published, Specht: R(12) and R(4); geometry: round the middles of the tablets' cords
    per_pick = math.pi * 0.4 * (4.029602 - 2.414214)
    assert tube.figures["weft_per_pick"].value == pytest.approx(per_pick)
    # common practice, no source: two tails of 15 cm
    assert tube.figures["weft"].value == pytest.approx(250 * per_pick + 300)
    assert dict(tube.use("madder").by_use)["weft"] == pytest.approx(250 * per_pick + 300)
    band = make_plan(project(form="band")).plan
    assert band.figures["weft_per_pick"].value == pytest.approx(1.05 * band.width)


def test_idle_tablets_take_less_up(project):
    groups = (Group("edge", (1,)),)
    step = Turns(4, (Move("edge", "idle"), Move("rest", "forward")))
    idle = Turns(4, (Move("edge", "idle"), Move("rest", "idle")))
    whole, half = (
        make_plan(project(tablets=Tablets(number=3, groups=groups), turning=s)).plan.figures
        for s in ((step,), (step, idle))
    )
    # geometry: turning half of the picks (126 of 250, the last pass being cut short)
    share = (half["take_up"].value - 1) / (whole["take_up"].value - 1)
    assert share == pytest.approx(0.5, abs=0.005)


def test_time_and_sessions(project):
    plan = make_plan(
        project(pace=5.0, sessions=(Session("one", 30.0), Session("two", 60.0)), pieces=2)
    ).plan
    assert plan.figures["weaving_time"].value == pytest.approx(100)  # geometry: 2 x 250 / 5
    assert [(p.picks, p.done) for p in plan.pauses] == [(150, False), (450, False)]  # geometry


def test_a_tubes_weft_enters_on_one_side(project):
    """Common practice, no source: always the same side, one pass and one turn a pick."""
    plan = make_plan(project(length=900.0)).plan
    assert plan.turning.way == "flip and keep the side"
    assert {x.side for x in plan.turning.lengths} == {"right"}
    assert {(i.side_before, i.side_after) for i in plan.turning.interventions} == {
        ("right", "right")
    }
    assert sum(s.picks for s in plan.turning.stretches) == plan.turning.picks
    assert plan.figures["weft"].value - 300 == pytest.approx(  # one pass a pick
        plan.turning.picks * plan.figures["weft_per_pick"].value
    )
