"""Candidates: what is looked for in a yarn, and one yarn of the stash in its place in the piece."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.stash import StashYarn
from sheetgen.plan.figure import Figure
from sheetgen.plan.plan import Plan, SizeVerdict

PLAIN_FIGURE = 0.10
"""How far off a plain figure of the find still counts as within: as much as “about” means."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing said of a candidate: ``code`` for programs and templates, ``words`` for people."""

    code: str
    words: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked for. ``basis`` says whether it was read off the find or is as described.

    ``diameter`` (low, value, high, mm) is there when thickness and tablets are both known.
    """

    target: str
    fibre: str | None
    fibre_basis: str
    spin: str | None
    spin_basis: str
    colour: str | None
    diameter: tuple[float, float, float] | None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A yarn of the stash in its place in the piece: mm, g.

    ``failures`` are what keeps it from being used, ``remarks`` what speaks against or for it.
    ``plan`` is None for a yarn that was not planned to the end.
    """

    yarn: StashYarn
    diameter: Figure
    predicted: Figure
    verdict: SizeVerdict | None
    tablets: int
    ends: int
    fibre_as: bool | None
    spin_as: bool | None
    colour_as: bool | None
    failures: tuple[Reason, ...]
    remarks: tuple[Reason, ...]
    used: float | None = None
    wanted: float | None = None
    at_hand: float | None = None
    plan: Plan | None = None

    @property
    def meets(self) -> bool:
        """True when the size lies within what was read; of a plain figure, within 10 % of it."""
        v = self.verdict
        if v is None:
            return True
        return v.within or (v.high <= v.low and abs(v.share) <= PLAIN_FIGURE)

    @property
    def short(self) -> float:
        """Length by which what is left is too little, mm; 0 where it is enough or not known."""
        if self.used is None or self.at_hand is None:
            return 0.0
        return max(0.0, self.used - self.at_hand)
