"""The planner: takes a Project, calls the families of calculations in order, gives the Plan."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sheetgen.amounts import plain, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.aglets import check_aglets
from sheetgen.plan.courses import singled_out
from sheetgen.plan.facts import facts_told
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.hours import plan_time
from sheetgen.plan.learning import Learning, version_of
from sheetgen.plan.made import made_told
from sheetgen.plan.pack import beyond_pack, in_words
from sheetgen.plan.plan import Plan
from sheetgen.plan.size import Size, size_up
from sheetgen.plan.stringing import plan_string
from sheetgen.plan.supplies import plan_tassel, plan_weft, plan_yarns
from sheetgen.plan.twist import plan_turning
from sheetgen.plan.verdict import far_from_find
from sheetgen.plan.weaving import plan_weaving
from sheetgen.plan.winding import plan_winding

CUT_AND_BOUGHT = {
    "thickness": 2.0,
    "width": 1.0,
    "diameter": 1.0,
    "warp_diameter": 1.0,
    "pick_spacing": 1.0,
    "picks": 1.0,
    "take_up": 1.0,
    "tex": 1.0,
}
"""Kind of figure -> how much of what is cut and bought is out when it is out by one part.

The tablets, and so the warp ends, that a cord needs go with the square of its thickness
(geometry); weft goes with the picks, a warp end with its take-up, mass with linear density. A
yarn's diameter tells mostly by way of these, so it does not outrank them.
"""


@dataclass(frozen=True, slots=True)
class Planned:
    """The plan and what is worth saying about it. A plan with errors must not be printed."""

    plan: Plan
    diagnostics: tuple[Diagnostic, ...]


def make_plan(project: Project, learning: Learning | None = None) -> Planned:
    """Work out the whole piece. Pure: the same project and the same learning give the same plan.

    What was learned and taken is part of the plan's version: ``1a2b3c4d+5e6f``.
    """
    ledger, told = Ledger(learning), list[Diagnostic]()
    size = size_up(project, ledger)
    told.extend(_pack_told(project, size))
    stated = project.tablets.number is not None
    told.extend(far_from_find(size.verdict, size.pack, ledger, stated))
    string = plan_string(project, size.thickness, ledger, told)
    weaving = plan_weaving(project, size, string, ledger, told)
    turning = plan_turning(
        project, size, string, weaving.stretches, weaving.spacing, weaving.end, ledger, told
    )
    winding = plan_winding(project, size.pack, weaving.end.length, ledger, told)
    weft = plan_weft(project, size, weaving, ledger)
    tassel = plan_tassel(project, size, ledger)
    check_aglets(project, size, ledger, told)
    yarns = plan_yarns(project, size, weaving, weft, tassel, ledger, told)
    told.extend((*facts_told(project), *_soft_yarns(project, size)))
    pauses = plan_time(project, weaving.picks, ledger, told)
    plan = Plan(
        _with_version(project, ledger),
        ledger,
        yarns,
        size.pack,
        turning,
        weaving.end,
        winding,
        size.thickness.value,
        size.width.value if size.width else None,
        string,
        tassel,
        size.verdict,
        pauses,
        dict(ledger.lessons),
    )
    return Planned(plan, (*told, *made_told(plan)))


def _with_version(project: Project, ledger: Ledger) -> Project:
    """The project with what was learned and taken in its version."""
    taken = version_of(ledger.lessons)
    return replace(project, digest=f"{project.digest}+{taken}") if taken else project


def _pack_told(project: Project, size: Size) -> list[Diagnostic]:
    """Tablets without a thread, and tablets that are named but not in a pack that was computed."""
    found = []
    number = len(size.pack.tablets)
    if empty := [t.number for t in size.pack.tablets if not t.ends]:
        found.append(
            Diagnostic(
                "tablet-without-thread",
                "error",
                f"no hole of tablet {in_words(empty)} has a thread",
                ("tablets",),
                hint="thread at least one hole, or take the tablet out of the pack",
            )
        )
    if beyond := beyond_pack(project.tablets, number, list(singled_out(project.turning))):
        found.append(
            Diagnostic(
                "no-such-tablet",
                "error",
                f"the find and the yarn make {number} tablets: there is no tablet "
                f"{in_words(beyond)}",
                ("tablets",),
                allowed=f"1 to {number}",
                hint="say how many tablets there are, or name others",
            )
        )
    return found


def _soft_yarns(project: Project, size: Size) -> list[Diagnostic]:
    return [
        Diagnostic(
            "soft-yarn",
            "warning",
            f"“{yarn.name}” is soft: it may cling in the shed and fray at the tablets",
            ("yarns", yarn.name, "soft"),
            hint="try a sample first; turn gently and clear every shed by hand",
        )
        for yarn in project.yarns
        if yarn.soft and yarn.name in size.pack.ends_by_yarn
    ]


def surest_figure(plan: Plan) -> Figure | None:
    """The worst figure that measuring would tighten; None if there is none.

    The worst is the figure whose doubt changes most of what is cut and bought: half its range as
    a share of its value, times the weight in :data:`CUT_AND_BOUGHT`. Any other figure comes after
    those, the pace last of all, and only where sessions are stated, since it changes nothing but
    the time. How a spiral leans changes nothing and never comes.
    """

    def effect(figure: Figure) -> tuple[int, float]:
        kind = figure.key.partition(":")[0]
        tier = 2 if kind in CUT_AND_BOUGHT else 0 if kind == "pace" else 1
        return tier, figure.spread * CUT_AND_BOUGHT.get(kind, 1.0)

    never = {"spiral_angle", "spiral_lead"} | (set() if plan.project.sessions else {"pace"})
    open_figures = [
        f for f in plan.figures.values() if f.next_measure and f.has_range and f.key not in never
    ]
    return max(open_figures, key=effect, default=None)


def surest_next(plan: Plan) -> str:
    """What to measure next to tighten the worst figure, in words; empty if nothing would."""
    worst = surest_figure(plan)
    if worst is None:
        return ""
    doubt = f"± {plain(worst.spread * 100, 0)} %"
    if worst.spread > 0.5:  # such a range lies on both sides by different shares
        doubt = f"{significant(worst.low)} to {significant(worst.high)} {worst.unit}"
    return f"{worst.name} ({doubt}): {worst.next_measure}"
