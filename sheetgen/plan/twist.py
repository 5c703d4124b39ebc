"""Twist: takes the turning, gives what is done about the twist, where, and how the lengths look."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.amounts import plain
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.beads import Placed
from sheetgen.plan.constants import TWIST_LIMIT
from sheetgen.plan.figure import Ledger, Origin
from sheetgen.plan.interventions import (
    CHANGE_SIDE,
    KEEP_SIDE,
    LEAST,
    LET_OUT,
    FreeWarp,
    Load,
    place_between_passes,
    place_evenly,
    worst_load,
)
from sheetgen.plan.looks import OTHER_SIDE, Length, lengths_of_tube
from sheetgen.plan.plan import Intervention, StringPlan, TurningPlan
from sheetgen.plan.size import Size
from sheetgen.plan.turning import Stretch, Trace, traces
from sheetgen.plan.warp import WarpEnd


def plan_turning(
    project: Project,
    size: Size,
    string: StringPlan | None,
    stretches: tuple[Stretch, ...],
    spacing: float,
    end: WarpEnd,
    ledger: Ledger,
    told: list[Diagnostic],
) -> TurningPlan:
    """The turning with its interventions, their load, and the look of every length."""
    courses, pack, picks = tuple(size.pack.groups), size.pack, stretches[-1].last
    limit = project.twist.limit or TWIST_LIMIT.value
    patterned = len(stretches) > 1
    way = project.twist.way or (LET_OUT if patterned else KEEP_SIDE)
    traced = traces(stretches, len(courses))

    def free(pick: float) -> float:
        """Warp beyond the tablets once ``pick`` picks of the last piece are woven, mm."""
        return end.far_tail + end.loom_waste + (picks - pick) * spacing * end.take_up

    if patterned:
        places = place_between_passes(traced, stretches, pack.holes, way, free, limit)
    else:
        whole_turns = 1 if pack.one_colour_a_tablet else pack.holes
        placing = project.twist.placing
        places = place_evenly(traced, picks, pack.holes, way, placing, free, limit, whole_turns)
    hidden: dict[int, int] = {}
    if project.twist.under_beads and string and places:
        places, hidden = _under_beads(
            string, traced, pack.holes, places, way, free, limit, spacing, told
        )
    load = worst_load(traced, pack.holes, places, way == LET_OUT, free, limit)
    told.extend(_twist_told(project, patterned, way, load))
    enters = project.weft.enters
    lengths: tuple[Length, ...] = ()
    if project.is_tube:
        lengths = lengths_of_tube(pack, stretches, places, way, enters, project.weft.returns)
    done = _interventions(places, spacing, way, enters if project.is_tube else "", hidden)
    return TurningPlan(courses, stretches, picks, spacing, way, done, load, limit, lengths)


def _interventions(
    places: Sequence[int], spacing: float, way: str, enters: str, hidden: dict[int, int]
) -> tuple[Intervention, ...]:
    side, found = enters, list[Intervention]()
    for number, pick in enumerate(places, start=1):
        after = OTHER_SIDE.get(side, "") if way == CHANGE_SIDE else side
        bead = hidden.get(pick, 0)
        found.append(Intervention(number, pick, pick * spacing, side, after, bead))
        side = after
    return tuple(found)


def _under_beads(
    string: StringPlan,
    traced: Sequence[Trace],
    holes: int,
    places: tuple[int, ...],
    way: str,
    free: FreeWarp,
    limit: float,
    spacing: float,
    told: list[Diagnostic],
) -> tuple[tuple[int, ...], dict[int, int]]:
    """Move every place to the middle of the nearest bead, unless the twist would pass the limit."""
    beads = string.string.beads

    def middle(bead: Placed) -> float:
        return string.start + bead.on_cord + bead.length / 2

    hidden: dict[int, int] = {}
    moved = list(places)
    before = worst_load(traced, holes, places, way == LET_OUT, free, limit)
    for i, pick in enumerate(places):
        bead = min(beads, key=lambda b: abs(middle(b) - pick * spacing))
        candidate = round(middle(bead) / spacing)
        attempt = sorted({*moved[:i], candidate, *moved[i + 1 :]})
        load = worst_load(traced, holes, attempt, way == LET_OUT, free, limit)
        if len(attempt) == len(moved) and load.share <= max(1.0, before.share):
            moved, hidden[candidate] = attempt, bead.number
    after = worst_load(traced, holes, moved, way == LET_OUT, free, limit)
    if after.turns > before.turns + 0.05:
        told.append(
            Diagnostic(
                "twist-price",
                "warning",
                f"hiding the reversals under beads raises the greatest twist from "
                f"{plain(before.turns, 1)} to {plain(after.turns, 1)} full turns",
                ("twist", "under beads"),
            )
        )
    return tuple(moved), hidden


def _twist_told(project: Project, patterned: bool, way: str, load: Load) -> list[Diagnostic]:
    found = []
    if load.share > 1:
        found.append(
            Diagnostic(
                "too-much-twist",
                "warning",
                f"{plain(load.turns, 1)} full turns gather beyond the tablets at pick {load.pick}, "
                f"{plain(load.share, 1)} times what the free warp is said to bear",
                ("turning",) if project.turning else ("twist",),
                hint="turn back more often, leave more loom waste, or raise the limit "
                "under “twist” if your yarn bears it",
            )
        )
    if patterned and way != LET_OUT and project.twist.way:
        found.append(
            Diagnostic(
                "flip-in-pattern",
                "warning",
                "flipping the whole pack between repeats turns the pattern over from there on",
                ("twist", "way"),
                hint="“let out” keeps the pattern as it is",
            )
        )
    if not patterned and project.twist.placing != LEAST and way == LET_OUT:
        found.append(
            Diagnostic(
                "placing-unused",
                "warning",
                "“placing” says where flips go; letting the twist out leaves none anyway",
                ("twist", "placing"),
            )
        )
    return found


def _enter_twist(turning: TurningPlan, size: Size, ledger: Ledger) -> None:
    stated: Origin = "rule of thumb" if turning.limit == TWIST_LIMIT.value else "stated"
    ledger.enter(
        "twist_limit",
        "twist the free warp bears",
        turning.limit,
        "turns per mm",
        stated,
        TWIST_LIMIT.source if stated == "rule of thumb" else "as described",
    )
    ledger.enter(
        "interventions",
        "times the twist is dealt with",
        len(turning.interventions),
        "times",
        "computed",
        f"the fewest that keep the twist within {plain(turning.limit * 1000, 0)} turns per metre",
    )
    ledger.enter(
        "worst_twist",
        "most twist beyond the tablets",
        turning.load.turns,
        "turns",
        "computed",
        f"at pick {turning.load.pick}, {plain(turning.load.share * 100, 0)} % of what is borne; "
        f"one full turn for {size.pack.holes} turns one way",
    )
