"""The plan: everything that was worked out for one piece, frozen, in mm, g, tex and min."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from sheetgen.model.beads import BeadKind, Finial
from sheetgen.model.project import Project
from sheetgen.plan.beads import BeadString, Verdict
from sheetgen.plan.figure import Figure
from sheetgen.plan.interventions import Load
from sheetgen.plan.learning import Learned
from sheetgen.plan.looks import Length
from sheetgen.plan.materials import Pause, YarnUse
from sheetgen.plan.pack import Pack
from sheetgen.plan.tassel import Tassel
from sheetgen.plan.turning import Stretch, turns_both_ways
from sheetgen.plan.warp import WarpEnd, Winding


@dataclass(frozen=True, slots=True)
class Intervention:
    """One intervention once ``pick`` picks are woven, ``at`` mm along the woven length.

    ``turns`` are the full turns that stand beyond the tablets when it is reached, of all courses
    the greatest, before anything is let out or flipped. ``bead`` is the number of the bead that
    will hide it, or 0.
    """

    number: int
    pick: int
    at: float
    side_before: str
    side_after: str
    turns: float
    bead: int = 0


@dataclass(frozen=True, slots=True)
class TurningPlan:
    """What is turned when, and what becomes of the twist.

    ``load`` is the twist nearest to (or farthest above) what the free warp bears, ``most`` the
    greatest number of full turns anywhere; ``limit`` is full turns per mm.
    """

    courses: tuple[str, ...]
    stretches: tuple[Stretch, ...]
    picks: int
    spacing: float
    way: str
    interventions: tuple[Intervention, ...]
    load: Load
    most: Load
    limit: float
    lengths: tuple[Length, ...]

    @property
    def patterned(self) -> bool:
        """True when any course changes its motion or is flipped by the described steps."""
        return turns_both_ways(self.stretches)

    @property
    def flips_at(self) -> tuple[int, ...]:
        """Picks after which the whole pack is flipped."""
        return () if self.way == "let out" else tuple(i.pick for i in self.interventions)


@dataclass(frozen=True, slots=True)
class HoleFit:
    """How the cord goes through the hole of a bead kind (or of the finial), if it does."""

    name: str
    hole: float | None
    strands: int
    verdict: Verdict
    smallest: float
    largest_cord: float | None


@dataclass(frozen=True, slots=True)
class Substitution:
    """``count`` beads of a kind stand for ``original``; ``change`` of the string's length, mm."""

    kind: str
    count: int
    original: str
    change: float | None
    why: str


@dataclass(frozen=True, slots=True)
class StringPlan:
    """The beads on their cord: the woven cord of ``cord`` mm and how its length is used."""

    string: BeadString
    kinds: tuple[BeadKind, ...]
    cord: float
    start: float
    """Cord before the first bead, mm."""
    room: float
    """Bare cord left for fingers, mm."""
    ends_take: float
    stringing: str
    fits: tuple[HoleFit, ...]
    finial: Finial | None
    substitutions: tuple[Substitution, ...]


@dataclass(frozen=True, slots=True)
class SizeVerdict:
    """Predicted against wanted thickness (or a band's width), mm, and the nearest whole pack.

    ``best_size`` is what ``best_tablets`` come to, scaled by the sample where one was measured.
    """

    what: Literal["thickness", "width"]
    wanted: float
    low: float
    high: float
    predicted: float
    best_tablets: int
    best_size: float

    @property
    def difference(self) -> float:
        """Predicted less wanted, mm."""
        return self.predicted - self.wanted

    @property
    def share(self) -> float:
        """The difference as a share of what is wanted."""
        return self.difference / self.wanted

    @property
    def within(self) -> bool:
        """True when the prediction lies in the range read off the find."""
        return self.low - 1e-9 <= self.predicted <= self.high + 1e-9


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that was worked out. ``figures`` are all printed figures by key."""

    project: Project
    figures: Mapping[str, Figure]
    yarns: tuple[YarnUse, ...]
    pack: Pack
    turning: TurningPlan
    warp: WarpEnd
    winding: Winding
    thickness: float
    width: float | None
    string: StringPlan | None
    tassel: Tassel | None
    verdict: SizeVerdict | None
    pauses: tuple[Pause, ...]
    lessons: Mapping[str, Learned] = field(default_factory=dict)
    """What pieces made before taught of this one, by what it is."""

    def use(self, name: str) -> YarnUse:
        """What is used of the yarn ``name``; KeyError if the plan does not use it (a bug)."""
        for use in self.yarns:
            if use.name == name:
                return use
        raise KeyError(name)
