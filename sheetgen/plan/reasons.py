"""Reasons: takes a candidate, gives in words what keeps it out and what speaks against it."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.amounts import length, mass, percent, plain
from sheetgen.model.project import Project
from sheetgen.model.stash import StashYarn, Tool
from sheetgen.plan.candidate import PLAIN_FIGURE, Candidate, Reason, Wanted
from sheetgen.plan.constants import FAR_FROM_FIND, STRETCHING
from sheetgen.plan.figure import Figure
from sheetgen.plan.plan import Plan
from sheetgen.plan.words import counted

Reasons = tuple[Reason, ...]


def thickness_reasons(project: Project, c: Candidate) -> tuple[Reasons, Reasons]:
    """Failures and remarks about the size against the find."""
    verdict = c.verdict
    if verdict is None or c.meets:
        return (), ()
    best = verdict.best_tablets
    off_best = abs(verdict.best_size - verdict.wanted)
    met = verdict.low - 1e-9 <= verdict.best_size <= verdict.high + 1e-9
    met = met or off_best <= PLAIN_FIGURE * verdict.wanted
    spread = c.predicted.spread
    apart = off_best > FAR_FROM_FIND.value * verdict.wanted and (
        verdict.best_size * (1 + spread) < verdict.low
        or verdict.best_size * (1 - spread) > verdict.high
    )
    what = f"{length(abs(verdict.difference))} ({percent(verdict.share)})"
    how = {"thickness": ("thinner", "thicker"), "width": ("narrower", "wider")}[verdict.what]
    off = f"{what} {how[verdict.difference > 0]} than the find"
    number = counted(best, "tablet")
    if apart:
        words = f"{off}; even {number} would make {length(verdict.best_size)}"
        return (Reason("no-tablets-meet", words),), ()
    if met and best != c.tablets:
        words = f"{off}; {number} in place of {c.tablets} would make {length(verdict.best_size)}"
        return (), (Reason("other-tablets", words),)
    return (), (Reason("off-find", off),)


def handling_reasons(yarn: StashYarn, wanted: Wanted) -> Reasons:
    """Remarks of the trade: soft yarn, fibre that gives, fibre and spin that differ."""
    found = []
    if wanted.fibre and yarn.fibre and yarn.fibre != wanted.fibre:
        basis = f"{wanted.fibre_basis} has {wanted.fibre}"
        found.append(Reason("other-fibre", f"{yarn.fibre}, where {basis}"))
    if wanted.spin and yarn.spin and yarn.spin != wanted.spin:
        basis = f"{wanted.spin_basis} has {wanted.spin}"
        found.append(Reason("other-spin", f"spun {yarn.spin}, where {basis}"))
    if yarn.soft or yarn.preparation in ("woollen", "tow"):
        words = "soft or fuzzy: may cling in the shed, and snap or fray at the tablets"
        found.append(Reason("soft", words))
    if yarn.fibre in STRETCHING and yarn.fibre != wanted.fibre:
        words = f"{yarn.fibre} stretches under tension and draws in when it is cut off"
        found.append(Reason("stretches", words))
    return tuple(found)


def amount_reasons(c: Candidate, tex: Figure) -> tuple[Reasons, Reasons]:
    """Failures and remarks about what is left of the yarn."""
    if c.used is None or c.wanted is None:
        return (), ()
    if c.at_hand is None:
        return (), (Reason("amount-unknown", f"nobody has said how much is left; "
                           f"{length(c.wanted)} is wanted with the reserve"),)  # fmt: skip
    if c.at_hand >= c.wanted:
        return (), ()
    if c.at_hand >= c.used:
        spare = plain(100 * (c.at_hand / c.used - 1), 0)
        return (), (Reason("reserve-short", f"enough with {spare} % to spare, less than the "
                           "reserve"),)  # fmt: skip
    grams = mass(c.short / 1e6 * tex.value)
    words = f"{length(c.short)} ({grams}) short: {length(c.used)} are used"
    left = c.yarn.at_hand
    if left is not None and left.length is None and tex.origin == "rule of thumb":
        most = c.at_hand * tex.value / tex.low
        if most >= c.used:
            why = "its mass was worked out from its thickness; weigh a measured length"
            return (), (Reason("perhaps-short", f"perhaps {words}; {why}"),)
    return (Reason("short", words),), ()


def tool_reasons(project: Project, c: Candidate, tools: Sequence[Tool]) -> Reasons:
    """A remark where fewer tablets of the right holes are at hand than the pack has."""
    holes = project.tablets.holes
    there = [tool.number for tool in tools if tool.holes is not None and tool.holes >= holes]
    if not any(tool.holes is not None for tool in tools) or sum(there) >= c.tablets:
        return ()
    wanted = counted(c.tablets, "tablet")
    words = f"{wanted} with {holes} holes are wanted, {sum(there)} are at hand"
    return (Reason("few-tablets", words),)


def tight_holes(plan: Plan) -> Reasons:
    """A remark for the beads whose holes the cord passes only when pressed."""
    if plan.string is None:
        return ()
    there = {*plan.string.string.counts, "finial"}
    tight = [f.name for f in plan.string.fits if f.verdict == "tight" and f.name in there]
    return (Reason("tight-holes", f"tight in the hole of {', '.join(tight)}"),) if tight else ()
