"""Verdict: takes the predicted size, holds it against what was read off the find."""

from __future__ import annotations

from sheetgen.amounts import length, percent, plain
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.plan.constants import FINGER_TEST, SPECHT
from sheetgen.plan.cord import cord_thickness, tablets_for_thickness
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.pack import Pack
from sheetgen.plan.plan import SizeVerdict


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
        threads = max(1, round(pack.ends / len(pack.tablets)))
        best = tablets_for_thickness(thick.value, diameter.value, threads)
        size = cord_thickness(diameter.value, best * threads)
        _enter_best(best, f"{best} × {threads} ends press to {length(size)}", ledger)
        return SizeVerdict("thickness", thick.value, thick.low, thick.high, thickness.value,
                           best, size)  # fmt: skip
    if wide is not None and width is not None:
        each = width.value / len(pack.tablets)
        best = max(1, round(wide.value / each))
        _enter_best(best, f"{length(wide.value)} / {plain(each, 2)} mm a tablet", ledger)
        return SizeVerdict("width", wide.value, wide.low, wide.high, width.value,
                           best, best * each)  # fmt: skip
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
        "read off the find",
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


def _enter_best(best: int, working: str, ledger: Ledger) -> None:
    ledger.enter(
        "tablets_for_find",
        "tablets that would come nearest to the find",
        best,
        "tablets",
        "computed",
        working,
        source=SPECHT,
        next_measure=FINGER_TEST,
    )
