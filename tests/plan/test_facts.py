"""Statements of one yarn that contradict: both figures told, worked here."""

from dataclasses import replace

import pytest

from sheetgen.model.values import Count, PutUp, Reading
from sheetgen.plan.planner import make_plan

NM_16_2 = Count("16/2 Nm", 125.0, "Nm", 2)  # published, ASTM D2260: tex x Nm = 1000, two plies
CODE = "yarn-facts-disagree"


@pytest.fixture
def facts(project, yarn):
    """Plan a cord of one yarn and give what is said of its facts."""

    def said(**known):
        known.setdefault("diameter", None)
        rough = known["diameter"] if isinstance(known["diameter"], Reading) else None
        one = yarn(**(known | {"diameter": None})) if rough else yarn(**known)
        plan = make_plan(project(yarns=(replace(one, diameter=rough) if rough else one,)))
        return [d for d in plan.diagnostics if d.code == CODE]

    return said


def test_count_against_put_up(facts):
    (found,) = facts(count=NM_16_2, put_up=PutUp(50.0, 100_000.0))  # geometry: 500 g per km
    assert found.path == ("yarns", "madder", "put-up")
    assert "125 tex" in found.message
    assert "500 tex" in found.message
    assert not found.is_error
    assert facts(count=NM_16_2, put_up=PutUp(50.0, 400_000.0)) == []
    assert facts(count=NM_16_2, put_up=PutUp(50.0, 275_000.0)) == []  # 182 tex: 1.45 times


def test_diameter_against_wraps(facts):
    (found,) = facts(diameter=1.0, wraps=2.0)  # geometry: 1 / 2 mm
    assert found.path == ("yarns", "madder", "wraps")
    assert "1 mm" in found.message
    assert "0.5 mm" in found.message
    assert facts(diameter=0.7, wraps=2.0) == []
    rough = Reading(1.0, 0.7, 1.3, sure=False)
    assert facts(diameter=rough, wraps=2.0) == []  # 0.7 of 1.3 is near enough


def test_thickness_against_count(facts):
    # published, Ashenhurst, k = 0.90 worsted: 125 tex are 3968 yd/lb, 56.7 in an inch, 0.448 mm
    (found,) = facts(wraps=1.0, count=NM_16_2)
    assert found.path == ("yarns", "madder", "count")
    assert "1 mm" in found.message
    assert "0.45 mm" in found.message
    assert facts(wraps=1 / 0.75, count=NM_16_2) == []  # soft: 1.7 times as thick
    (thin,) = facts(diameter=0.25, count=NM_16_2)  # no yarn is so firm
    assert "0.25 mm" in thin.message


def test_a_ball_of_soft_wool_may_wrap_thick(facts):
    # from memory: 300 m per 100 g wrap to about 14 an inch; firm it would be 0.73 mm
    ball = PutUp(100.0, 300_000.0)
    assert facts(wraps=14 / 25.4, put_up=ball) == []
    (found,) = facts(wraps=4 / 10, put_up=ball)  # 2.5 / 0.73: 3.4 times
    assert found.path == ("yarns", "madder", "put-up")
    assert "2.5 mm" in found.message


def test_every_pair_is_held_together(facts):
    assert len(facts(diameter=1.0, wraps=0.4, count=NM_16_2, put_up=PutUp(50.0, 100_000.0))) == 3
    assert facts(count=NM_16_2) == facts(diameter=0.5) == facts(wraps=2.0) == []
