"""Twist: takes the turning, gives what is done about the twist, where, and how the lengths look."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.amounts import plain
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import TWIST_LIMIT
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.hiding import beads_in_picks, price_of_hiding, under_beads
from sheetgen.plan.interventions import (
    CHANGE_SIDE,
    KEEP_SIDE,
    LEAST,
    LET_OUT,
    Load,
    most_load,
    turns_at,
    with_interventions,
    worst_load,
)
from sheetgen.plan.looks import OTHER_SIDE, Length, lengths_of_tube, spiral_angle, spiral_lead
from sheetgen.plan.placing import place_between_passes, place_evenly
from sheetgen.plan.plan import Intervention, StringPlan, TurningPlan
from sheetgen.plan.size import Size
from sheetgen.plan.turning import Stretch, Trace, traces, turns_both_ways
from sheetgen.plan.warp import WarpEnd
from sheetgen.plan.words import counted


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
    whole_turns = 1 if pack.one_colour_a_tablet else pack.holes
    limit = project.twist.limit or TWIST_LIMIT.value
    patterned = turns_both_ways(stretches)
    way = project.twist.way or (LET_OUT if patterned else KEEP_SIDE)
    traced = tuple({id(t): t for t in traces(stretches, len(courses))}.values())

    def free(pick: float) -> float:
        """Warp beyond the tablets once ``pick`` picks of the last piece are woven, mm."""
        return end.far_tail + end.loom_waste + (picks - pick) * spacing * end.take_up

    if patterned:
        places = place_between_passes(traced, stretches, pack.holes, way, free, limit)
    else:
        placing = project.twist.placing
        places = place_evenly(traced, picks, pack.holes, way, placing, free, limit, whole_turns)
    hidden: dict[int, int] = {}
    if project.twist.under_beads and string and not patterned:
        unhidden = places
        places, hidden = under_beads(
            beads_in_picks(string, picks), traced, pack.holes, places, way, free, limit, whole_turns
        )
        told.extend(price_of_hiding(traced, pack.holes, unhidden, places, way, free, limit))
    lets_out = way == LET_OUT
    load = worst_load(traced, pack.holes, places, lets_out, free, limit)
    most = most_load(traced, pack.holes, places, lets_out, free, limit)
    told.extend(_twist_told(project, patterned, way, places, load))
    told.extend(_left_between_pieces(project, traced, pack.holes, places, way))
    enters = project.weft.enters
    lengths: tuple[Length, ...] = ()
    if project.is_tube:
        lengths = lengths_of_tube(pack, stretches, places, way, enters, project.weft.returns)
    standing = turns_at(traced, pack.holes, places, lets_out)
    done = _interventions(standing, spacing, way, enters if project.is_tube else "", hidden)
    plan = TurningPlan(courses, stretches, picks, spacing, way, done, load, most, limit, lengths)
    _enter_twist(project, plan, patterned, size, ledger)
    _enter_spiral(plan, size.thickness, ledger)
    return plan


def _interventions(
    standing: dict[int, float], spacing: float, way: str, enters: str, hidden: dict[int, int]
) -> tuple[Intervention, ...]:
    """The interventions at the picks of ``standing``, the full turns that stand there."""
    side, found = enters, list[Intervention]()
    for number, (pick, turns) in enumerate(standing.items(), start=1):
        after = OTHER_SIDE.get(side, "") if way == CHANGE_SIDE else side
        bead = hidden.get(pick, 0)
        found.append(Intervention(number, pick, pick * spacing, side, after, turns, bead))
        side = after
    return tuple(found)


def _left_between_pieces(
    project: Project, traced: Sequence[Trace], holes: int, places: Sequence[int], way: str
) -> list[Diagnostic]:
    """Twist that stands beyond the tablets when a piece is done and the next begins on the warp."""
    if not project.one_warp or project.pieces < 2:
        return []
    ends = [with_interventions(trace, places, way == LET_OUT)[-1][1] for trace in traced]
    left = max(abs(twist) for twist in ends) / holes
    if left < 1:
        return []
    return [
        Diagnostic(
            "twist-left",
            "warning",
            f"a twist of {counted(left, 'full turn', 1)} stands beyond the tablets when a piece is "
            "done",
            ("one warp",),
            hint="let it out before the next piece is begun: its plan starts without twist",
        )
    ]


def _twist_told(
    project: Project, patterned: bool, way: str, places: Sequence[int], load: Load
) -> list[Diagnostic]:
    found = []
    if load.share > 1 + 1e-6:
        found.append(
            Diagnostic(
                "too-much-twist",
                "warning",
                f"a twist of {counted(load.turns, 'full turn', 1)} gathers beyond the tablets at "
                f"pick {load.pick}, {plain(load.share, 1)} times what the free warp is said to "
                "bear",
                ("turning",) if project.turning else ("twist",),
                hint="turn back more often, leave more loom waste, or raise the limit "
                "under “twist” if your yarn bears it",
            )
        )
    if patterned and way != LET_OUT and places:
        found.append(
            Diagnostic(
                "flip-in-pattern",
                "error",
                f"flipping the whole pack after pick {places[0]} would turn the pattern over "
                "from there on",
                ("twist", "way"),
                given=way,
                allowed=LET_OUT,
                hint="“let out” keeps the pattern; or write the flips into the turning steps",
            )
        )
    if project.twist.under_beads and patterned:
        found.append(
            Diagnostic(
                "under-beads-unused",
                "warning",
                "in a pattern the twist is dealt with where the steps begin again, not under beads",
                ("twist", "under beads"),
            )
        )
    if project.twist.placing != LEAST and (patterned or way == LET_OUT):
        why = (
            "in a pattern they go where the steps begin again"
            if patterned
            else "letting the twist out leaves none anyway"
        )
        found.append(
            Diagnostic(
                "placing-unused",
                "warning",
                f"“placing” says where flips go; {why}",
                ("twist", "placing"),
            )
        )
    return found


def _enter_twist(
    project: Project, turning: TurningPlan, patterned: bool, size: Size, ledger: Ledger
) -> None:
    """The figures of the twist: what is borne, how often it is dealt with, the most of it."""
    stated = project.twist.limit is not None
    ledger.enter(
        "twist_limit",
        "twist the free warp bears",
        turning.limit,
        "turns per mm",
        "stated" if stated else "rule of thumb",
        "as described" if stated else TWIST_LIMIT.source,
    )
    why = f"keep within {counted(turning.limit * 1000, 'turn')} per metre of free warp"
    ledger.enter(
        "interventions",
        "times the twist is dealt with",
        len(turning.interventions),
        "times",
        "computed",
        f"only between repeats, to {why}" if patterned else f"the fewest that {why}",
        rests_on=("twist_limit", "picks", "warp_end"),
    )
    ledger.enter(
        "worst_twist",
        "most twist beyond the tablets",
        turning.most.turns,
        "turns",
        "computed",
        f"at pick {turning.most.pick}, one full turn for {size.pack.holes} turns one way; at most "
        f"{plain(turning.load.share * 100, 0)} % of what is borne, at pick {turning.load.pick}",
        rests_on=("interventions", "picks"),
    )


def _enter_spiral(turning: TurningPlan, thickness: Figure, ledger: Ledger) -> None:
    """Where a length of the tube spirals: how its columns lean and how soon they are once round."""
    if not any(length.look.startswith("spiral") for length in turning.lengths):
        return
    step, across = turning.spacing, thickness.value
    angle, lead = spiral_angle(step, across), spiral_lead(step, across)
    ledger.enter(
        "spiral_angle",
        "lean of the columns where it spirals",
        angle,
        "degrees",
        "rule of thumb",
        f"arctan({plain(step, 2)} mm / (π × {plain(across, 2)} mm)), square to the weft",
        between=(angle / 2, angle * 1.5),
    )
    ledger.enter(
        "spiral_lead",
        "length in which a spiral goes once round",
        lead,
        "mm",
        "rule of thumb",
        f"(π × {plain(across, 2)} mm)² / {plain(step, 2)} mm",
        between=(lead / 1.5, lead * 2),
    )
