"""Fits: takes beads and the cord's thickness, gives what passes which hole and what is short."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.amounts import length
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.beads import BeadKind, Beads
from sheetgen.model.project import Project
from sheetgen.plan.beads import (
    BARE_END,
    STRANDS,
    BeadString,
    bead_length,
    hole_verdict,
    largest_cord,
    smallest_hole,
)
from sheetgen.plan.plan import HoleFit


def hole_fits(project: Project, beads: Beads, stringing: str, cord: float) -> tuple[HoleFit, ...]:
    """What goes through each kind of bead, and through the finial last."""
    strands = STRANDS[stringing]
    found = [_fit(kind.name, kind.hole, cord, strands) for kind in beads.kinds]
    if beads.finial:
        both = 2 if project.form == "loop" else 1
        found.append(_fit("finial", beads.finial.hole, cord, both))
    return tuple(found)


def _fit(name: str, hole: float | None, cord: float, strands: int) -> HoleFit:
    return HoleFit(
        name,
        hole,
        strands,
        hole_verdict(hole, cord, strands),
        smallest_hole(cord, strands),
        None if hole is None else largest_cord(hole, strands),
    )


def fits_told(
    beads: Beads, string: BeadString, fits: Sequence[HoleFit], cord: float, stringing: str
) -> list[Diagnostic]:
    """An error for every hole that the cord does not pass; kinds that are not strung pass over."""
    found = []
    for place, fit in enumerate(fits):
        if fit.verdict != "will not pass" or fit.hole is None or fit.largest_cord is None:
            continue
        is_finial = place == len(beads.kinds)
        if not is_finial and fit.name not in string.counts:
            continue
        folded = not is_finial and stringing != BARE_END
        how = "folded in two" if folded else "both ends together" if fit.strands == 2 else ""
        other = "string it over a bare end, " if folded else ""
        found.append(
            Diagnostic(
                "hole-too-small",
                "error",
                f"the cord of {length(cord)}{', ' + how + ',' if how else ''} does not pass the "
                f"hole of {fit.name}: {length(fit.smallest - fit.hole)} too small",
                ("beads", "finial", "hole") if is_finial else ("beads", "kinds", fit.name, "hole"),
                given=length(fit.hole),
                allowed=f"at least {length(fit.smallest)} for the pressed cord",
                hint=f"{other}use beads with wider holes, or a cord of at most "
                f"{length(fit.largest_cord)} (fewer tablets or a finer yarn)",
            )
        )
    return found


def shortage_told(beads: Beads, string: BeadString, pieces: int) -> list[Diagnostic]:
    """Too few of a kind at hand for all pieces: how many, and which other kind is nearest."""
    found = []
    for kind in beads.kinds:
        wanted = pieces * string.counts.get(kind.name, 0)
        if kind.at_hand is None or kind.at_hand >= wanted:
            continue
        short = wanted - kind.at_hand
        others = [
            k
            for k in beads.kinds
            if k is not kind
            and (k.at_hand is None or k.at_hand - pieces * string.counts.get(k.name, 0) >= short)
        ]
        hint = "string fewer, or describe another kind in its place with “stands for”"
        if others:
            near = min(others, key=lambda k: _unlikeness(k, kind))
            change = short * (bead_length(near) - bead_length(kind))
            longer = "longer" if change >= 0 else "shorter"
            hint = (
                f"the nearest in size is {near.name}: {short} of them make the string "
                f"{length(abs(change))} {longer}"
            )
        found.append(
            Diagnostic(
                "too-few-beads",
                "error",
                f"{wanted} of {kind.name} are strung, {short} more than are at hand",
                ("beads", "kinds", kind.name, "at hand"),
                given=str(kind.at_hand),
                allowed=f"at least {wanted}",
                hint=hint,
            )
        )
    return found


def _unlikeness(a: BeadKind, b: BeadKind) -> float:
    return abs(bead_length(a) - bead_length(b)) + abs(a.diameter - b.diameter)
