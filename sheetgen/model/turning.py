"""Turning steps, and what is done about the twist."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sheetgen.model.pack import Selection
from sheetgen.model.schema import entry

Motion = Literal["forward", "backward", "idle"]
MOTIONS: tuple[Motion, ...] = ("forward", "backward", "idle")
WHOLE_PACK = ""
REST = "rest"
"""Written instead of a group for all tablets that the step does not name."""


@dataclass(frozen=True, slots=True)
class Move:
    """What one group (its name, :data:`WHOLE_PACK` or :data:`REST`) does.

    With ``tablets`` these tablets are meant, whatever their group, and ``group`` is how they were
    written.
    """

    group: str
    motion: Motion
    tablets: Selection = ()


@dataclass(frozen=True, slots=True)
class Turns:
    """``picks`` picks, each with a turn of every group as its move says."""

    picks: int
    moves: tuple[Move, ...]


@dataclass(frozen=True, slots=True)
class Flip:
    """Turn tablets about their upright axis; no pick. The whole pack if none are named."""

    groups: tuple[str, ...] = ()
    tablets: Selection = ()


@dataclass(frozen=True, slots=True)
class Repeat:
    """Steps done ``times`` times."""

    times: int
    steps: tuple[Step, ...]


Step = Turns | Flip | Repeat

WAYS = ("flip and keep the side", "flip and change the side", "let out")
PLACINGS = ("least twist", "ends untwisted")


@dataclass(frozen=True, slots=True)
class Twist:
    """What to do about the twist that gathers beyond the tablets."""

    SHORTHAND = "way"

    way: str | None = entry(
        "choice",
        "Flip the pack (weft side kept or changed) or let the twist out at the far end.",
        default=None,
        choices=WAYS,
    )
    placing: str = entry(
        "choice",
        "Where the flips go: so that the twist stays least, or so that none is left at the end.",
        default="least twist",
        choices=PLACINGS,
    )
    limit: float | None = entry(
        "rate",
        "Full turns of twist that the free warp bears.",
        default=None,
        low=0.001,
        high=1.0,
        example="40 per m",
    )
    under_beads: bool = entry(
        "yes-no", "Move each intervention under a bead where one lies near.", default=False
    )


@dataclass(frozen=True, slots=True)
class Weft:
    """The weft. A lone word stands for ``yarn``."""

    SHORTHAND = "yarn"

    yarn: str | None = entry(
        "yarn", "Which yarn; left out, the first yarn of the warp.", default=None
    )
    enters: str = entry(
        "choice",
        "Tube: the side on which the weft always enters.",
        default="right",
        choices=("right", "left"),
    )
    returns: str = entry(
        "choice",
        "Tube: whether it goes back under or over the work.",
        default="under",
        choices=("under", "over"),
    )
