"""Time and sessions, by arithmetic on the clock."""

from dataclasses import replace

from sheetgen.model.project import Session
from sheetgen.plan.planner import make_plan


def test_sessions_that_end_too_soon(project, told, codes):
    """Geometry: 224 mm at 1.12 mm (2.8 times 0.4 mm) are 200 picks, two pieces 400.

    At 4 a minute that is 100 min; an hour and a quarter weaves 300 and leaves 100, 25 min.
    """
    sessions = (Session("morning", 45.0), Session("noon", 30.0))
    piece = project(length=224.0, pieces=2, pace=4.0, sessions=sessions)
    found = told(piece, "sessions-too-short")
    assert (found.path, found.is_error) == (("sessions",), False)
    assert "25 min before" in found.message
    assert "100 of 400 picks" in found.message
    assert "pace" not in found.hint  # it is stated
    assert "pace" in told(replace(piece, pieces=4, pace=None), "sessions-too-short").hint
    enough = replace(piece, sessions=(*sessions, Session("night", 25.0)))
    assert codes(enough) == []
    assert codes(replace(piece, sessions=(Session("one", 600.0), Session("more", 60.0)))) == []
    assert codes(replace(piece, sessions=())) == []


def test_how_far_into_the_last_session(project):
    # geometry: 200 picks at 4 a minute are 50 min, 20 of them after the first half hour
    sessions = (Session("one", 30.0), Session("two", 60.0), Session("three", 60.0))
    plan = make_plan(project(length=224.0, pace=4.0, sessions=sessions)).plan
    assert [round(p.used, 6) for p in plan.pauses] == [30, 20, 0]
    assert [p.done for p in plan.pauses] == [False, True, True]


def test_the_time_rests_on_a_rule_unless_all_is_known(project):
    assert make_plan(project()).plan.figures["weaving_time"].rests_on_rule
    assert make_plan(project(pace=4.0)).plan.figures["weaving_time"].rests_on_rule  # its picks do
