"""Hiding: takes beads and interventions, gives interventions moved under beads, and the price."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.amounts import plain
from sheetgen.diagnostics import Diagnostic
from sheetgen.plan.interventions import LET_OUT, FreeWarp, worst_load
from sheetgen.plan.plan import StringPlan
from sheetgen.plan.turning import Trace


def beads_in_picks(string: StringPlan, picks: int) -> list[tuple[int, float, float]]:
    """Number, first and last pick of every bead; the woven length may shrink to the cord."""
    scale = picks / string.cord
    starts = [(b, string.start + b.on_cord) for b in string.string.beads]
    return [(b.number, at * scale, (at + b.length) * scale) for b, at in starts]


def under_beads(
    beads: Sequence[tuple[int, float, float]],
    traced: Sequence[Trace],
    holes: int,
    places: tuple[int, ...],
    way: str,
    free: FreeWarp,
    limit: float,
    step: int,
) -> tuple[tuple[int, ...], dict[int, int]]:
    """Move every place into the middle half of a near bead, unless the twist passes the limit.

    Places stay multiples of ``step`` picks; one that no multiple inside a bead can hide stays.
    """
    hidden: dict[int, int] = {}
    moved, picks = list(places), traced[0].picks[-1]
    worst = worst_load(traced, holes, places, way == LET_OUT, free, limit).share
    for i, pick in enumerate(places):
        for number, first, last in sorted(beads, key=lambda b: abs(b[1] + b[2] - 2 * pick))[:2]:
            edge = (last - first) / 4
            candidate = step * round(max(first + edge, min(pick, last - edge)) / step)
            attempt = sorted({*moved[:i], candidate, *moved[i + 1 :]})
            hides = first < candidate < last and 0 < candidate < picks
            if not hides or len(attempt) < len(moved):
                continue
            if worst_load(traced, holes, attempt, way == LET_OUT, free, limit).share <= max(
                1.0, worst
            ):
                moved, hidden[candidate] = attempt, number
                break
    return tuple(moved), hidden


def price_of_hiding(
    traced: Sequence[Trace],
    holes: int,
    before: Sequence[int],
    after: Sequence[int],
    way: str,
    free: FreeWarp,
    limit: float,
) -> list[Diagnostic]:
    """What hiding the reversals costs in twist, if anything."""
    old, new = (worst_load(traced, holes, p, way == LET_OUT, free, limit) for p in (before, after))
    if new.share <= old.share + 0.05:
        return []
    return [
        Diagnostic(
            "twist-price",
            "warning",
            "hiding the reversals under beads raises the greatest twist from "
            f"{plain(old.share * 100, 0)} % to {plain(new.share * 100, 0)} % of what is borne",
            ("twist", "under beads"),
        )
    ]
