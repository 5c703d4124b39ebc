"""Shortfall: takes what is used of a yarn and what is at hand, gives what is said of too little."""

from __future__ import annotations

import math

from sheetgen.amounts import length, mass, plain
from sheetgen.diagnostics import Diagnostic, Path
from sheetgen.model.project import Project
from sheetgen.plan.materials import YarnUse


def shortfall(project: Project, use: YarnUse) -> list[Diagnostic]:
    """Not enough at hand: an error with what would fit; a warning if the reserve alone is short.

    Also a warning only where mass at hand became length by a linear density that is a rule of
    thumb.
    """
    have = use.at_hand
    if have is None or have >= use.wanted:
        return []
    path = ("yarns", use.name, "at hand")
    grams = mass(use.mass_of(have))
    if have >= use.used:
        left = plain(100 * (have / use.used - 1), 0)
        text = f"the {use.name} at hand is enough with {left} % to spare, less than the reserve"
        return [Diagnostic("reserve-short", "warning", text, path)]
    if use.guessed:
        return [_perhaps_short(use, have, path)]
    share = math.floor(100 * have / use.used)
    less = "fewer pieces, " if project.pieces > 1 else ""
    return [
        Diagnostic(
            "not-enough-yarn",
            "error",
            f"{length(use.used)} ({mass(use.mass_of(use.used))}) of {use.name} are used, "
            f"{length(use.used - have)} ({mass(use.mass_of(use.used - have))}) more than "
            "are at hand",
            path,
            given=f"{length(have)} ({grams})",
            allowed=f"at least {length(use.used)}, {length(use.wanted)} with the reserve",
            hint=f"what is at hand makes {share} % of it: {less}a shorter piece, fewer ends of "
            f"{use.name}, or another yarn for some of them",
        )
    ]


def _perhaps_short(use: YarnUse, have: float, path: Path) -> Diagnostic:
    """A shortfall by a mass that nobody has weighed."""
    tex = use.figures.tex
    low, high = (have * tex.value / t for t in (tex.high, tex.low))
    return Diagnostic(
        "perhaps-not-enough-yarn",
        "warning",
        f"{length(use.used)} of {use.name} are used; what is at hand is perhaps {length(have)}, "
        f"from {length(low)} if the yarn is firm to {length(high)} if it is soft",
        path,
        given=mass(use.mass_of(have)),
        hint="weigh a measured length and state it as “put-up”: the mass was worked out from the "
        "yarn’s thickness, which is a rough guess",
    )
