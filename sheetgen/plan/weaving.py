"""Weaving: takes Size and length, gives the picks, what is turned when, and the warp end."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.amounts import length, plain, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import LOOM_WASTE
from sheetgen.plan.courses import by_course
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.plan import StringPlan
from sheetgen.plan.size import Size
from sheetgen.plan.spacing import enter_spacing, enter_take_up
from sheetgen.plan.turning import Stretch, unroll
from sheetgen.plan.warp import WarpEnd, lay_out_end, length_to_cut, tails_made_of


@dataclass(frozen=True, slots=True)
class Weaving:
    """Woven length and length of a pick (mm), picks, what is turned when, the warp end."""

    woven: float
    spacing: float
    picks: int
    stretches: tuple[Stretch, ...]
    end: WarpEnd


def plan_weaving(
    project: Project, size: Size, string: StringPlan | None, ledger: Ledger, told: list[Diagnostic]
) -> Weaving:
    """Work out how long and how dense it is woven, and what that takes of the warp."""
    finished = string.cord if string else project.length
    assert finished is not None, "the reader asks cords and bands for a length"
    to_weave = _woven_length(project, finished, string is None, ledger)
    woven = to_weave.value
    spacing = enter_spacing(project, size, ledger)
    picks = max(1, round(woven / spacing.value))
    ledger.enter(
        "picks",
        "picks",
        picks,
        "picks",
        "computed",
        f"{length(woven)} / {significant(spacing.value)} mm",
        between=(min(picks, woven / spacing.high), max(picks, woven / spacing.low)),
        next_measure=spacing.next_measure,
        rests_on=(to_weave.key, spacing.key),
    )
    courses = tuple(size.pack.groups)
    _, steps = by_course(project.tablets, project.turning, len(size.pack.tablets))
    stretches = unroll(steps, courses, picks)
    factor = enter_take_up(project, size, spacing, stretches, courses, ledger)
    end = _warp_end(project, to_weave, factor, ledger, told)
    return Weaving(woven, spacing.value, picks, stretches, end)


def _woven_length(project: Project, finished: float, stated: bool, ledger: Ledger) -> Figure:
    """Finished length before shrinkage; enters the finished length if it is the stated one."""
    if stated:
        done = ledger.enter(
            "finished_length", "finished length", finished, "mm", "stated", "as described"
        )
    else:
        done = ledger["cord_length"]
    if not project.shrinkage:
        return done
    share = plain(project.shrinkage * 100, 1)
    return ledger.enter(
        "woven_length",
        "length to weave",
        finished / (1 - project.shrinkage),
        "mm",
        "computed",
        f"{length(finished)} / (1 − {share} % shrinkage)",
        rests_on=(done.key,),
    )


def _warp_end(
    project: Project, woven: Figure, factor: Figure, ledger: Ledger, told: list[Diagnostic]
) -> WarpEnd:
    """One end from knot to knot, its parts entered one by one."""
    end = lay_out_end(project, woven.value, factor.value)
    if end.loom_waste < 0:
        told.append(
            Diagnostic(
                "allowance-too-small",
                "error",
                f"the allowance is {length(-end.loom_waste)} less than the two tails need",
                ("allowance",),
                allowed=f"at least {length(end.near_tail + end.far_tail + LOOM_WASTE.value)} "
                "with the usual loom waste",
                hint="state “near tail”, “far tail” and “loom waste” one by one",
            )
        )
    _enter_parts(project, end, woven, factor, ledger)
    _enter_end(end, factor, ledger)
    return end


def _enter_end(end: WarpEnd, factor: Figure, ledger: Ledger) -> None:
    """The whole end, with the range that the take-up gives it, and the length at which to cut."""
    in_all = end.pieces * end.woven
    least, most = in_all * (factor.value - factor.low), in_all * (factor.high - factor.value)
    covered = ", which the loom waste covers" if most <= end.loom_waste else ""
    spread = f"; the range is the take-up’s{covered}" if factor.has_range else ""
    pieces = f"{end.pieces} × (" if end.pieces > 1 else ""
    ledger.enter(
        "warp_end",
        "length of a warp end",
        end.length,
        "mm",
        "computed",
        f"{pieces}{length(end.near_tail)} + {length(end.in_weave)} + {length(end.far_tail)}"
        f"{')' if pieces else ''} + {length(end.loom_waste)}{spread}",
        between=(end.length - least, end.length + most),
        rests_on=("near_tail", "in_weave", "far_tail", "loom_waste"),
    )
    ledger.enter(
        "cut_length",
        "length to cut an end",
        length_to_cut(end.length),
        "mm",
        "computed",
        f"{length(end.length)} to the next 5 mm",
        rests_on=("warp_end",),
    )


def _enter_parts(
    project: Project, end: WarpEnd, woven: Figure, factor: Figure, ledger: Ledger
) -> None:
    """Tails, warp in the weave and loom waste, each with where it comes from."""
    stated = project.allowance
    near, far = tails_made_of(project)

    def tail(key: str, name: str, value: float, given: float | None, why: str) -> None:
        origin: Origin = "rule of thumb" if given is None else "stated"
        ledger.enter(key, name, value, "mm", origin, why if given is None else "as described")

    tail("near_tail", "near tail", end.near_tail, stated.near_tail, near)
    ledger.enter(
        "in_weave",
        "warp in the weave",
        end.in_weave,
        "mm",
        "computed",
        f"{length(end.woven)} × {significant(factor.value, 4)}",
        between=(end.woven * factor.low, end.woven * factor.high),
        rests_on=(woven.key, factor.key),
    )
    tail("far_tail", "far tail", end.far_tail, stated.far_tail, far)
    waste = "as described"
    if stated.whole is not None:
        waste = f"{length(stated.whole)} allowed less the tails"
    elif stated.loom_waste is None:
        waste = LOOM_WASTE.source
    ledger.enter("loom_waste", "loom waste", end.loom_waste, "mm", end.waste_origin, waste)
