"""Materials: takes lengths by yarn and use, gives what to have, to buy, and what is short."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sheetgen.plan.yarn import YarnFigures

USES = ("warp", "weft", "tassel", "binding")


@dataclass(frozen=True, slots=True)
class YarnUse:
    """One yarn: mm by use for all pieces, and what follows.

    ``letter`` and ``place`` (for its fill pattern) stand for it on the charts.
    """

    figures: YarnFigures
    letter: str
    place: int
    by_use: tuple[tuple[str, float], ...]
    reserve: float

    @property
    def name(self) -> str:
        """The yarn's name in the description."""
        return self.figures.name

    @property
    def used(self) -> float:
        """Length used, mm, without reserve."""
        return math.fsum(mm for _, mm in self.by_use)

    @property
    def wanted(self) -> float:
        """Length to have, mm, with reserve."""
        return self.used * (1 + self.reserve)

    @property
    def mass_wanted(self) -> float:
        """Mass to have, g, with reserve."""
        return self.mass_of(self.wanted)

    def mass_of(self, length: float) -> float:
        """Mass (g) of ``length`` mm: tex is grams per kilometre."""
        return length / 1e6 * self.figures.tex.value

    @property
    def put_ups(self) -> int | None:
        """Balls, hanks or cones to buy, or None if it is not said how it is sold."""
        sold = self.figures.yarn.put_up
        return None if sold is None else math.ceil(self.wanted / sold.length - 1e-9)

    @property
    def at_hand(self) -> float | None:
        """Length at hand, mm, or None if it is not said."""
        amount = self.figures.yarn.at_hand
        if amount is None:
            return None
        if amount.length is not None:
            return amount.length
        assert amount.mass is not None, "an amount is a mass or a length"
        return amount.mass / self.figures.tex.value * 1e6

    @property
    def guessed(self) -> bool:
        """True when the length at hand was worked out from a mass by a rule of thumb."""
        amount = self.figures.yarn.at_hand
        by_mass = amount is not None and amount.length is None
        return by_mass and self.figures.tex.origin == "rule of thumb"


def give_letters(names: list[str], stated: dict[str, str], taken: str) -> dict[str, str]:
    """One or two letters for every yarn: stated, else the first of its name, else two of them.

    Letters in ``taken`` (the hole letters in use) are left to the holes: brown is Br where B is a
    hole. Beyond that a number is added.
    """
    letters = dict(stated)
    for name in names:
        if name in letters:
            continue
        used = {letter.casefold() for letter in (*letters.values(), *taken)}
        own = [c for c in name if c.isalpha()] or ["y"]
        first = own[0].upper()
        pairs = [
            first,
            *(first + c.lower() for c in own[1:]),
            *(f"{first}{n}" for n in range(2, 99)),
        ]
        letters[name] = next(c for c in pairs if c.casefold() not in used)
    return letters


@dataclass(frozen=True, slots=True)
class Pause:
    """Where the work is at the end of a session that ``lasts`` so many min: picks woven in all.

    ``used`` are the minutes of the session until the work is ``done``: all of them before that,
    none in a session after it.
    """

    name: str
    lasts: float
    picks: int
    done: bool
    used: float


def fit_sessions(sessions: list[tuple[str, float]], picks: int, pace: float) -> tuple[Pause, ...]:
    """Picks woven at the end of each session (name, min) at ``pace`` picks a minute."""
    woven, found = 0.0, list[Pause]()
    for name, lasts in sessions:
        used = min(lasts, max(0.0, (picks - woven) / pace))
        woven += lasts * pace
        reached = min(picks, math.floor(woven + 1e-9))
        found.append(Pause(name, lasts, reached, reached >= picks, used))
    return tuple(found)
