"""Spacing: takes Size and what was measured or learned, gives length of a pick and take-up."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sheetgen.amounts import length, significant
from sheetgen.model.project import Project
from sheetgen.model.values import PicksOver
from sheetgen.plan.constants import PICK_SPACING
from sheetgen.plan.cord import helix_radius, take_up
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.learning import Learned
from sheetgen.plan.pack import Tablet
from sheetgen.plan.size import Size
from sheetgen.plan.turning import Stretch, turning_shares
from sheetgen.plan.words import counted

COUNT_PICKS = "weave 5 cm and count the picks in it"
MEASURE_WARP = "measure the warp left over at the end"


def enter_spacing(project: Project, size: Size, ledger: Ledger) -> Figure:
    """Length of one pick: counted on a sample, else as made before, else 2.8 yarn diameters."""
    over, d = project.sample.picks if project.sample else None, size.diameter.value
    if over is not None:
        figure = _counted_spacing(over, ledger)
    elif lesson := ledger.learned("pick_spacing"):
        figure = _learned_spacing(lesson, d, ledger)
    else:
        figure = _usual_spacing(d, ledger)
    ledger.enter(
        "picks_per_length",
        "picks per length",
        1 / figure.value,
        "per mm",
        figure.origin,
        f"1 / {significant(figure.value)} mm",
        between=(1 / figure.high, 1 / figure.low),
    )
    return figure


def _counted_spacing(over: PicksOver, ledger: Ledger) -> Figure:
    """Length of one pick from those counted on the sample, half a pick more or fewer."""
    return ledger.enter(
        "pick_spacing",
        "length of one pick",
        over.length / over.picks,
        "mm",
        "measured",
        f"{length(over.length)} / {counted(over.picks, 'pick')} on the sample",
        between=(over.length / (over.picks + 0.5), over.length / (over.picks - 0.5)),
    )


def _learned_spacing(lesson: Learned, d: float, ledger: Ledger) -> Figure:
    """Length of one pick as made before; ``d`` is the diameter of a warp end, mm."""
    return ledger.enter(
        "pick_spacing",
        "length of one pick",
        lesson.value * d,
        "mm",
        "measured",
        f"{significant(lesson.value)} × {significant(d)} mm, {lesson.said()}",
        between=lesson.between(d, _usual_range(d)),
        next_measure="" if lesson.enough else COUNT_PICKS,
    )


def _usual_spacing(d: float, ledger: Ledger) -> Figure:
    """Length of one pick by the rule of thumb; ``d`` is the diameter of a warp end, mm."""
    return ledger.enter(
        "pick_spacing",
        "length of one pick",
        PICK_SPACING.value * d,
        "mm",
        "rule of thumb",
        f"{PICK_SPACING.value} × {significant(d)} mm",
        between=_usual_range(d),
        source=PICK_SPACING.source,
        next_measure=COUNT_PICKS,
    )


def _usual_range(d: float) -> tuple[float, float]:
    assert PICK_SPACING.low is not None
    assert PICK_SPACING.high is not None
    return PICK_SPACING.low * d, PICK_SPACING.high * d


def enter_take_up(
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
    of = _take_up_of(size, dict(zip(courses, turning_shares(stretches), strict=True)))

    def most(step: float) -> float:
        return max(of(tablet, step) for tablet in size.pack.tablets)

    formula, usual = most(spacing.value), (most(spacing.high), most(spacing.low))
    if lesson := ledger.learned("take_up"):
        return _learned_take_up(lesson, formula, usual, ledger)
    worst = max(size.pack.tablets, key=lambda tablet: of(tablet, spacing.value))
    return ledger.enter(
        "take_up",
        "take-up",
        formula,
        "ratio",
        "computed",
        _helix_in_words(worst, size, spacing.value),
        between=usual,
        source="geometry of a helix",
        next_measure=MEASURE_WARP,
        rests_on=(spacing.key,),
    )


def _take_up_of(size: Size, shares: dict[str, float]) -> Callable[[Tablet, float], float]:
    """The take-up of a tablet at a pick spacing (mm); ``shares`` are the picks that turn it."""

    def of(tablet: Tablet, step: float) -> float:
        diameter, share = size.tablet_diameter(tablet), shares[tablet.group]
        return take_up(diameter, tablet.ends, size.pack.holes, step, share)

    return of


def _learned_take_up(
    lesson: Learned, formula: float, usual: tuple[float, float], ledger: Ledger
) -> Figure:
    """The helix's take-up as many times as pieces made before had it; never less than 1."""
    low, high = lesson.between(formula, usual)
    return ledger.enter(
        "take_up",
        "take-up",
        max(1.0, lesson.value * formula),
        "ratio",
        "measured",
        f"{significant(formula, 4)} by the helix × {significant(lesson.value, 4)}, {lesson.said()}",
        between=(max(1.0, low), max(1.0, high)),
        next_measure="" if lesson.enough else MEASURE_WARP,
    )


def _helix_in_words(tablet: Tablet, size: Size, step: float) -> str:
    """The take-up of a tablet with its numbers: one turn in as many picks as it has holes."""
    radius = helix_radius(size.tablet_diameter(tablet), tablet.ends)
    return (
        f"√(1 + (2 × π × {significant(radius)} mm / ({size.pack.holes} × {significant(step)} "
        "mm))²), the helix of a tablet’s threads; picks without a turn take up nothing"
    )
