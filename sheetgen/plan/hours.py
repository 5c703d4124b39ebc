"""Hours: takes the picks and the pace, gives the time and where the work is at every break."""

from __future__ import annotations

import math

from sheetgen.amounts import minutes, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import GUEST_SLOWER, PACE
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.materials import Pause, fit_sessions
from sheetgen.plan.words import counted


def plan_time(
    project: Project, picks: int, ledger: Ledger, told: list[Diagnostic]
) -> tuple[Pause, ...]:
    """Pace, weaving time, and where the work is at the end of each session.

    ``picks`` are those of one piece; the time is that of all pieces.
    """
    figure = _pace(project, ledger)
    pace, slow, fast = figure.value, figure.low, figure.high
    in_all = picks * project.pieces
    ledger.enter(
        "weaving_time",
        "time to weave",
        in_all / pace,
        "min",
        "computed",
        f"{counted(in_all, 'pick')} / {significant(pace)} a minute",
        between=(in_all / fast, in_all / slow),
        rests_on=("picks", "pace"),
    )
    pauses = fit_sessions([(s.name, s.lasts) for s in project.sessions], in_all, pace)
    told.extend(_too_short(pauses, in_all, pace, figure.origin == "rule of thumb"))
    return pauses


def _pace(project: Project, ledger: Ledger) -> Figure:
    """Picks a minute: as stated, else that of pieces made before, else the rule of thumb.

    In a kit's piece it is that of a guest: so many times slower, if it is not stated.
    """
    assert PACE.low is not None
    assert PACE.high is not None
    origin: Origin = "rule of thumb"
    pace, between, working = PACE.value, (PACE.low, PACE.high), PACE.source
    then = "time twenty picks"
    if project.pace is not None:
        pace, between, working = project.pace, (project.pace, project.pace), "as described"
        origin, then = "stated", ""
    elif lesson := ledger.learned("pace"):
        pace, between, working = lesson.value, lesson.between(1.0, between), lesson.said()
        origin, then = "measured", "" if lesson.enough else then
    if project.slower is not None:
        times, least, most = _slower(project.slower)
        working = f"{significant(pace)} a minute / {significant(times)}, for a guest"
        pace, between = pace / times, (between[0] / most, between[1] / least)
        sure = origin != "rule of thumb" and project.slower
        origin, then = ("computed", "") if sure else ("rule of thumb", "time a guest’s first picks")
    return ledger.enter(
        "pace", "pace", pace, "picks per min", origin, working, between=between, next_measure=then
    )


def _slower(stated: float) -> tuple[float, float, float]:
    """How many times slower a guest is, at least and at most; 0 for what is not stated."""
    if stated:
        return stated, stated, stated
    assert GUEST_SLOWER.low is not None
    assert GUEST_SLOWER.high is not None
    return GUEST_SLOWER.value, GUEST_SLOWER.low, GUEST_SLOWER.high


def _too_short(
    pauses: tuple[Pause, ...], picks: int, pace: float, by_rule: bool
) -> list[Diagnostic]:
    """A warning when the last session ends before the work does; none where there is no session."""
    if not pauses or pauses[-1].done:
        return []
    lasts = math.fsum(pause.lasts for pause in pauses)
    left = picks - pauses[-1].picks
    own = "time your own pace, " if by_rule else ""
    return [
        Diagnostic(
            "sessions-too-short",
            "warning",
            f"the sessions end {minutes(picks / pace - lasts)} before the work does: "
            f"{left} of {counted(picks, 'pick')} are then still to be woven",
            ("sessions",),
            given=minutes(lasts),
            allowed=f"at least {minutes(picks / pace)} at {significant(pace)} picks a minute",
            hint=f"{own}add a session, or plan a shorter piece",
        )
    ]
