"""Weaving: takes Size and length, gives spacing, picks, take-up, warp end, turning and twist."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sheetgen.amounts import length, plain, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import LOOM_WASTE, PICK_SPACING
from sheetgen.plan.cord import helix_radius, take_up
from sheetgen.plan.courses import by_course
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.learning import Learned
from sheetgen.plan.pack import Tablet
from sheetgen.plan.plan import StringPlan, TurningPlan
from sheetgen.plan.size import Size
from sheetgen.plan.turning import Stretch, turning_shares, unroll
from sheetgen.plan.twist import plan_turning
from sheetgen.plan.warp import WarpEnd, lay_out_end, length_to_cut, tails_made_of
from sheetgen.plan.words import counted


@dataclass(frozen=True, slots=True)
class Weaving:
    """Woven length (mm), picks, the warp end and the turning."""

    woven: float
    end: WarpEnd
    turning: TurningPlan


def plan_weaving(
    project: Project, size: Size, string: StringPlan | None, ledger: Ledger, told: list[Diagnostic]
) -> Weaving:
    """Work out everything that happens between the first pick and the last."""
    finished = string.cord if string else project.length
    assert finished is not None, "the reader asks cords and bands for a length"
    to_weave = _woven_length(project, finished, string is None, ledger)
    woven = to_weave.value
    spacing = _spacing(project, size, ledger)
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
    factor = _take_up(project, size, spacing, stretches, courses, ledger)
    end = _warp_end(project, to_weave, factor, ledger, told)
    turning = plan_turning(project, size, string, stretches, spacing.value, end, ledger, told)
    return Weaving(woven, end, turning)


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


def _spacing(project: Project, size: Size, ledger: Ledger) -> Figure:
    """Length of one pick: counted on a sample, else 2.8 yarn diameters."""
    over = project.sample.picks if project.sample else None
    if over is not None:
        value, origin = over.length / over.picks, "measured"
        between = (over.length / (over.picks + 0.5), over.length / (over.picks - 0.5))
        figure = ledger.enter(
            "pick_spacing",
            "length of one pick",
            value,
            "mm",
            "measured",
            f"{length(over.length)} / {counted(over.picks, 'pick')} on the sample",
            between=between,
        )
    elif lesson := ledger.learned("pick_spacing"):
        origin = "measured"
        figure = _learned_spacing(lesson, size.diameter.value, ledger)
    else:
        d = size.diameter.value
        assert PICK_SPACING.low is not None
        assert PICK_SPACING.high is not None
        origin = "rule of thumb"
        figure = ledger.enter(
            "pick_spacing",
            "length of one pick",
            PICK_SPACING.value * d,
            "mm",
            "rule of thumb",
            f"{PICK_SPACING.value} × {significant(d)} mm",
            between=(PICK_SPACING.low * d, PICK_SPACING.high * d),
            source=PICK_SPACING.source,
            next_measure="weave 5 cm and count the picks in it",
        )
    ledger.enter(
        "picks_per_length",
        "picks per length",
        1 / figure.value,
        "per mm",
        "measured" if origin == "measured" else "rule of thumb",
        f"1 / {significant(figure.value)} mm",
        between=(1 / figure.high, 1 / figure.low),
    )
    return figure


def _learned_spacing(lesson: Learned, d: float, ledger: Ledger) -> Figure:
    """Length of one pick as made before; ``d`` is the diameter of a warp end, mm."""
    assert PICK_SPACING.low is not None
    assert PICK_SPACING.high is not None
    return ledger.enter(
        "pick_spacing",
        "length of one pick",
        lesson.value * d,
        "mm",
        "measured",
        f"{significant(lesson.value)} × {significant(d)} mm, {lesson.said()}",
        between=lesson.between(d, (PICK_SPACING.low * d, PICK_SPACING.high * d)),
        next_measure="" if lesson.enough else "weave 5 cm and count the picks in it",
    )


def _take_up(
    project: Project,
    size: Size,
    spacing: Figure,
    stretches: Sequence[Stretch],
    courses: Sequence[str],
    ledger: Ledger,
) -> Figure:
    """Warp per woven length: measured, else that of the tablet that takes up most."""
    measured = project.sample.take_up if project.sample else None
    if measured is not None:
        return ledger.enter("take_up", "take-up", measured, "ratio", "measured", "on the sample")
    shares = dict(zip(courses, turning_shares(stretches), strict=True))

    def of(tablet: Tablet, step: float) -> float:
        diameter, share = size.tablet_diameter(tablet), shares[tablet.group]
        return take_up(diameter, tablet.ends, size.pack.holes, step, share)

    def most(step: float) -> float:
        return max(of(tablet, step) for tablet in size.pack.tablets)

    formula, usual = most(spacing.value), (most(spacing.high), most(spacing.low))
    if lesson := ledger.learned("take_up"):
        low, high = lesson.between(formula, usual)
        return ledger.enter(
            "take_up",
            "take-up",
            max(1.0, lesson.value * formula),
            "ratio",
            "measured",
            f"{significant(formula, 4)} by the helix × {significant(lesson.value, 4)}, "
            f"{lesson.said()}",
            between=(max(1.0, low), max(1.0, high)),
            next_measure="" if lesson.enough else "measure the warp left over at the end",
        )
    return ledger.enter(
        "take_up",
        "take-up",
        formula,
        "ratio",
        "computed",
        _helix_in_words(
            max(size.pack.tablets, key=lambda tablet: of(tablet, spacing.value)),
            size,
            spacing.value,
        ),
        between=usual,
        source="geometry of a helix",
        next_measure="measure the warp left over at the end",
        rests_on=(spacing.key,),
    )


def _helix_in_words(tablet: Tablet, size: Size, step: float) -> str:
    """The take-up of a tablet with its numbers: one turn in as many picks as it has holes."""
    radius = helix_radius(size.tablet_diameter(tablet), tablet.ends)
    return (
        f"√(1 + (2 × π × {significant(radius)} mm / ({size.pack.holes} × {significant(step)} "
        "mm))²), the helix of a tablet’s threads; picks without a turn take up nothing"
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
