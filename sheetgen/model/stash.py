"""The stash: yarns, beads and tools at hand, shared by all descriptions of one weaver."""

from __future__ import annotations

from dataclasses import dataclass, field

from sheetgen.model.beads import BeadKind
from sheetgen.model.schema import entry
from sheetgen.model.yarn import Yarn


@dataclass(frozen=True, slots=True)
class StashYarn(Yarn):
    """A yarn of the stash; ``name`` is its key. ``at hand`` is what is left of it."""

    cost: str | None = entry(
        "text", "What it cost, or costs to replace.", default=None, example="4.80 for 50 g"
    )
    period: str | None = entry(
        "text", "How far it stands for what was used in the period.", default=None
    )


@dataclass(frozen=True, slots=True)
class StashBead(BeadKind):
    """A kind of bead of the stash. A lone quantity stands for ``diameter``."""

    source: str | None = entry("text", "Where it comes from.", default=None)
    cost: str | None = entry(
        "text", "What it cost, or costs to replace.", default=None, example="0.30 each"
    )
    period: str | None = entry(
        "text", "How far it stands for what was used in the period.", default=None
    )


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool at hand; ``name`` is its key. A lone number stands for ``number``."""

    SHORTHAND = "number"

    name: str
    number: int = entry("whole", "How many there are.", default=1, low=0, high=10000)
    holes: int | None = entry("whole", "Of tablets: holes in each.", default=None, low=2, high=8)
    note: str | None = entry("text", "Size, material, where it is kept.", default=None)


@dataclass(frozen=True, slots=True)
class Booking:
    """One piece whose yarns and beads have been taken off what is at hand."""

    piece: str = entry("text", "The piece, with its number.", example="SW-014")
    mark: str = entry(
        "text", "Marks the record it was booked from; never booked again.", example="3f9a01c2"
    )
    taken: tuple[str, ...] = entry("texts", "What was taken off.", default=())


@dataclass(frozen=True, slots=True)
class Stash:
    """What is at hand: lengths in mm, masses in g, rates per mm."""

    stash: str = entry("text", "Whose stash, or where it is kept.", example="Oak chest")
    yarns: tuple[StashYarn, ...] = entry(
        "named parts",
        "Yarns by name.",
        default=(),
        part=StashYarn,
        example="{madder: {fibre: wool, count: 20/2 Nm, at hand: 35 g}}",
    )
    beads: tuple[StashBead, ...] = entry(
        "named parts",
        "Kinds of bead by name.",
        default=(),
        part=StashBead,
        example="{pear: {diameter: 9 mm, hole: 4 mm, at hand: 60}}",
    )
    tools: tuple[Tool, ...] = entry(
        "named parts", "Tools by name.", default=(), part=Tool, example="{card tablets: 24}"
    )
    booked: tuple[Booking, ...] = entry(
        "parts",
        "Pieces whose yarns and beads have been taken off; written by `choose --book-off`.",
        default=(),
        part=Booking,
    )
    digest: str = field(default="", compare=False)
    """First digits of the SHA-256 of the file's bytes."""

    def yarn(self, name: str) -> StashYarn | None:
        """The yarn of that name, if there is one."""
        return next((yarn for yarn in self.yarns if yarn.name == name), None)

    def bead(self, name: str) -> StashBead | None:
        """The kind of bead of that name, if there is one."""
        return next((kind for kind in self.beads if kind.name == name), None)
