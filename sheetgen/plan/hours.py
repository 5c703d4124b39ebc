"""Hours: takes the picks and the pace, gives the time and where the work is at every break."""

from __future__ import annotations

from sheetgen.amounts import minutes, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import PACE
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.materials import Pause, fit_sessions
from sheetgen.plan.words import counted


def plan_time(
    project: Project, picks: int, ledger: Ledger, told: list[Diagnostic]
) -> tuple[Pause, ...]:
    """Pace, weaving time, and where the work is at the end of each session.

    ``picks`` are those of one piece; the time is that of all pieces.
    """
    figure = _pace(project.pace, ledger)
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


def _pace(stated: float | None, ledger: Ledger) -> Figure:
    """Picks a minute: as stated, else that of pieces made before, else the rule of thumb."""
    assert PACE.low is not None
    assert PACE.high is not None
    origin: Origin = "rule of thumb"
    pace, between, working = PACE.value, (PACE.low, PACE.high), PACE.source
    then = "time twenty picks"
    if stated is not None:
        pace, between, working = stated, (stated, stated), "as described"
        origin, then = "stated", ""
    elif lesson := ledger.learned("pace"):
        pace, between, working = lesson.value, lesson.between(1.0, between), lesson.said()
        origin, then = "measured", "" if lesson.enough else then
    return ledger.enter(
        "pace", "pace", pace, "picks per min", origin, working, between=between, next_measure=then
    )


def _too_short(
    pauses: tuple[Pause, ...], picks: int, pace: float, by_rule: bool
) -> list[Diagnostic]:
    """A warning when the last session ends before the work does; none where there is no session."""
    if not pauses or pauses[-1].done:
        return []
    lasts = sum(pause.lasts for pause in pauses)
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
