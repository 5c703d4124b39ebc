"""Verdict: takes the predicted size, holds it against what was read off the find."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.amounts import length, percent, plain
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.plan.constants import FAR_FROM_FIND, FINGER_TEST, SPECHT
from sheetgen.plan.cord import cord_thickness, tablets_for_thickness
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.pack import Pack
from sheetgen.plan.plan import SizeVerdict
from sheetgen.plan.words import counted


def hold_against_find(
    project: Project,
    pack: Pack,
    diameter: Figure,
    thickness: Figure,
    width: Figure | None,
    ledger: Ledger,
) -> SizeVerdict | None:
    """Predicted against the find: thickness, and for a band its width, which then decides.

    None if the find has neither. Also enters the number of tablets that comes nearest.
    """
    find = project.find
    if find is None:
        return None
    keys = ("find_thickness", "thickness_difference", "thickness")
    thick = _against(keys, find.thickness, thickness, ledger)
    keys = ("find_width", "width_difference", "width")
    wide = _against(keys, find.width, width, ledger) if width else None
    if project.is_tube and thick is not None:
        best, size = _best_of_tube(pack, thick.value, diameter, thickness, ledger)
        return SizeVerdict("thickness", thick.value, thick.low, thick.high, thickness.value,
                           best, size)  # fmt: skip
    if wide is not None and width is not None:
        best, size = _best_of_band(pack, wide.value, width, ledger)
        return SizeVerdict("width", wide.value, wide.low, wide.high, width.value,
                           best, size)  # fmt: skip
    if thick is not None:
        count = len(pack.tablets)
        return SizeVerdict("thickness", thick.value, thick.low, thick.high, thickness.value,
                           count, thickness.value)  # fmt: skip
    return None


def _against(
    keys: tuple[str, str, str], wanted: object, predicted: Figure, ledger: Ledger
) -> Reading | None:
    """Enter what was read and the difference; None where nothing was read."""
    read_key, difference_key, what = keys
    if not isinstance(wanted, Reading):
        return None
    between = (wanted.low, wanted.high)
    ledger.enter(
        read_key,
        f"{what} of the find",
        wanted.value,
        "mm",
        "stated",
        wanted.how or "read off the find",
        between=between,
    )
    difference = predicted.value - wanted.value
    share = percent(difference / wanted.value)
    ledger.enter(
        difference_key,
        f"{what} against the find",
        difference,
        "mm",
        "computed",
        f"{length(predicted.value)} − {length(wanted.value)} = {share}",
        between=(predicted.low - wanted.value, predicted.high - wanted.value),
    )
    return wanted


def _best_of_tube(
    pack: Pack, wanted: float, diameter: Figure, thickness: Figure, ledger: Ledger
) -> tuple[int, float]:
    """Tablets whose cord comes nearest to ``wanted`` (mm), and its thickness (mm).

    A measured sample outranks the formula: what it came out thicker than d R(N), a cord of any
    other number of tablets is taken to come out thicker too.
    """
    threads = max(1, round(pack.ends / len(pack.tablets)))
    formula = cord_thickness(diameter.value, max(1, pack.ends))
    measured = thickness.origin == "measured"
    scale = formula / thickness.value if measured else 1.0
    best = tablets_for_thickness(wanted * scale, diameter.value, threads)
    size = cord_thickness(diameter.value, best * threads) / scale
    working = f"{best} × {counted(threads, 'end')} press to {length(size)}"
    if measured:
        before = "cord_thickness" in ledger.lessons
        which = "made before, the pack would be" if before else "the sample is"
        working += (
            f", as {which} {length(thickness.value)} thick where {length(formula)} is "
            f"worked out for its {counted(pack.ends, 'end')}"
        )
    _enter_best(best, working, measured, ledger)
    return best, size


def _best_of_band(pack: Pack, wanted: float, width: Figure, ledger: Ledger) -> tuple[int, float]:
    """Tablets whose band comes nearest to ``wanted`` (mm), and its width (mm).

    A tablet's width is the band's by their number: that of the sample where it was measured.
    """
    each = width.value / len(pack.tablets)
    best = max(1, round(wanted / each))
    measured = width.origin == "measured"
    where = " as made before" if "band_width" in ledger.lessons else " on the sample"
    where = where if measured else ""
    _enter_best(best, f"{length(wanted)} / {plain(each, 2)} mm a tablet{where}", measured, ledger)
    return best, best * each


def _enter_best(best: int, working: str, measured: bool, ledger: Ledger) -> None:
    ledger.enter(
        "tablets_for_find",
        "tablets that would come nearest to the find",
        best,
        "tablets",
        "computed",
        working,
        source=f"{'pieces made before' if ledger.lessons else 'the sample'}; {SPECHT}"
        if measured
        else SPECHT,
        next_measure="" if measured else FINGER_TEST,
    )


def far_from_find(
    verdict: SizeVerdict | None, pack: Pack, figures: Mapping[str, Figure], stated: bool
) -> list[Diagnostic]:
    """A warning for each size that is out by more than 30 % while the ranges do not meet.

    ``stated`` is True where the description says the number of tablets, which is then pointed at
    if another number would come nearer.
    """
    found = []
    for what in ("thickness", "width"):
        read, predicted = figures.get(f"find_{what}"), figures.get(what)
        if verdict is None or read is None or predicted is None:
            continue
        off = predicted.value - read.value
        apart = predicted.low > read.high or predicted.high < read.low
        if not apart or abs(off) <= FAR_FROM_FIND.value * read.value:
            continue
        more = off > 0
        how = {"thickness": ("thinner", "thicker"), "width": ("narrower", "wider")}[what][more]
        other = verdict.what == what and verdict.best_tablets != len(pack.tablets)
        yarn = "a finer yarn" if more else "a thicker yarn"
        nearest = counted(verdict.best_tablets, "tablet")
        comes = "comes" if verdict.best_tablets == 1 else "come"
        hint = f"{nearest} {comes} nearest, at {length(verdict.best_size)}; or take {yarn}"
        found.append(
            Diagnostic(
                "far-from-find",
                "warning",
                f"the work comes out {length(abs(off))} ({plain(abs(off) / read.value * 100, 0)} %)"
                f" {how} than the find",
                ("tablets",) if other and stated else ("find", what),
                given=f"{length(predicted.value)} for a find of {length(read.value)}",
                allowed=f"{length(read.low)} to {length(read.high)}"
                if read.low < read.high
                else "",
                hint=hint if other else f"take {yarn}",
            )
        )
    return found
