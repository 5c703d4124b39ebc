"""Verdict: takes the predicted thickness, holds it against what was read off the find."""

from __future__ import annotations

from sheetgen.amounts import length, percent
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.plan.constants import FINGER_TEST, SPECHT
from sheetgen.plan.cord import cord_thickness, tablets_for_thickness
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.pack import Pack
from sheetgen.plan.plan import ThicknessVerdict


def hold_against_find(
    project: Project, pack: Pack, diameter: Figure, thickness: Figure, ledger: Ledger
) -> ThicknessVerdict | None:
    """Predicted against the find's thickness; the number of tablets that comes nearest to it."""
    find = project.find
    if find is None or not isinstance(find.thickness, Reading):
        return None
    wanted = find.thickness
    ledger.enter(
        "find_thickness",
        "thickness of the find",
        wanted.value,
        "mm",
        "stated",
        "read off the find",
        between=(wanted.low, wanted.high),
    )
    threads = max(1, round(pack.ends / len(pack.tablets)))
    if project.is_tube:
        best = tablets_for_thickness(wanted.value, diameter.value, threads)
        best_thickness = cord_thickness(diameter.value, best * threads)
    else:
        best, best_thickness = len(pack.tablets), thickness.value
    verdict = ThicknessVerdict(
        wanted.value, wanted.low, wanted.high, thickness.value, best, best_thickness
    )
    ledger.enter(
        "thickness_difference",
        "thickness against the find",
        verdict.difference,
        "mm",
        "computed",
        f"{length(thickness.value)} − {length(wanted.value)} = {percent(verdict.share)}",
        between=(thickness.low - wanted.value, thickness.high - wanted.value),
    )
    if project.is_tube:
        ledger.enter(
            "tablets_for_find",
            "tablets that would come nearest to the find",
            best,
            "tablets",
            "computed",
            f"{best} × {threads} ends press to {length(best_thickness)}",
            source=SPECHT,
            next_measure=FINGER_TEST,
        )
    return verdict
