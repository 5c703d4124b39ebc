"""What became of the piece, as measured and noted; where it departs from its find."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry
from sheetgen.model.values import Amount, PicksOver, Reading

GROUNDS = ("choice", "need")
"""Why a piece departs from its find: it was wanted so, or could not be had otherwise."""


@dataclass(frozen=True, slots=True)
class Departure:
    """Something that is otherwise than on the find. A lone line stands for ``what``."""

    SHORTHAND = "what"

    what: str = entry(
        "text", "What is otherwise than on the find.", example="wool in place of silk"
    )
    reason: str | None = entry("text", "Why.", default=None)
    by: str | None = entry(
        "choice",
        "Whether it was wanted so (choice) or could not be had otherwise (need).",
        default=None,
        choices=GROUNDS,
    )


@dataclass(frozen=True, slots=True)
class DoneAtPick:
    """One intervention as it was woven."""

    pick: int = entry(
        "whole", "Picks woven when it was done.", low=0, high=1_000_000, example="120"
    )
    done: str = entry("text", "What was done.", example="pack flipped, weft side kept")


@dataclass(frozen=True, slots=True)
class BeadsUsed:
    """How many beads of one kind were strung; ``name`` is its key. A lone number: ``number``."""

    SHORTHAND = "number"

    name: str
    number: int = entry("whole", "How many were strung.", low=0, high=100_000, example="60")
    instead_of: str | None = entry(
        "text", "The planned kind in whose place they were strung.", default=None
    )
    why: str | None = entry("text", "Why it was replaced.", default=None)


@dataclass(frozen=True, slots=True)
class YarnUsed:
    """How much of one yarn was used; ``name`` is its key. A lone amount stands for ``amount``."""

    SHORTHAND = "amount"

    name: str
    amount: Amount = entry(
        "amount", "How much was used, thrums and trimmings included.", example="12 g"
    )
    instead_of: str | None = entry(
        "text", "The planned yarn in whose place it was used.", default=None
    )
    why: str | None = entry("text", "Why it was replaced.", default=None)


@dataclass(frozen=True, slots=True)
class TimeTaken:
    """Time of one session or task; ``name`` is its key. A lone time stands for ``took``."""

    SHORTHAND = "took"

    name: str
    took: float = entry("time", "How long it took.", low=0, high=60_000, example="1 h 50 min")
    picks: int | None = entry(
        "whole", "Picks woven in that time.", default=None, low=0, high=1_000_000
    )


@dataclass(frozen=True, slots=True)
class Photograph:
    """A picture of the piece. A lone name stands for ``file``."""

    SHORTHAND = "file"

    file: str = entry(
        "file", "JPEG, PNG or TIFF in or below the description's folder.", example="loop.jpg"
    )
    caption: str | None = entry("text", "What it shows, and how large.", default=None)


@dataclass(frozen=True, slots=True)
class Made:
    """The piece as it was made. Lengths in mm, times in min; all is of one piece unless it says so.

    Of several pieces alike ``length``, ``width``, ``thickness`` and ``picks_woven`` are those of
    one; ``yarns_used``, ``beads_used`` and the times are those of all together.
    """

    begun: str | None = entry("date", "Day the warp was made.", default=None, example="2026-05-02")
    finished: str | None = entry("date", "Day the piece was done.", default=None)
    place: str | None = entry("text", "Where it was made.", default=None)
    kept: str | None = entry("text", "Where the piece is kept now.", default=None)
    length: Reading | None = entry(
        "reading",
        "Length as measured, relaxed; of a string of beads, the woven cord.",
        default=None,
        low=1,
        high=100_000,
        example="412 mm",
    )
    width: Reading | None = entry(
        "reading", "Width of the band as measured.", default=None, low=0.5, high=1000
    )
    thickness: Reading | None = entry(
        "reading",
        "Thickness of the cord or band as measured.",
        default=None,
        low=0.1,
        high=100,
        example="3.1 mm",
    )
    picks_woven: int | None = entry(
        "whole", "All picks of one piece.", default=None, low=1, high=1_000_000, example="262"
    )
    picks: PicksOver | None = entry(
        "picks", "Picks counted over a length of the piece.", default=None, example="33 in 5 cm"
    )
    take_up: float | None = entry(
        "number", "Warp used divided by length woven, as measured.", default=None, low=1, high=2
    )
    warp_end: Reading | None = entry(
        "reading",
        "Length of one warp end from tip to tip, as it was cut; left out, as planned.",
        default=None,
        low=10,
        high=1_000_000,
    )
    left_over_warp: Reading | None = entry(
        "reading",
        "What of one warp end is not in the weave: from the work to the tips at both ends, and "
        "between pieces, together, before anything is trimmed. Take-up = (warp end less left-over "
        "warp) / length woven.",
        default=None,
        low=0,
        high=1_000_000,
        example="56 cm",
    )
    interventions: tuple[DoneAtPick, ...] = entry(
        "parts", "Interventions as woven.", default=(), part=DoneAtPick
    )
    beads_used: tuple[BeadsUsed, ...] = entry(
        "named parts",
        "Beads strung, by kind; kinds that were not planned may stand here too.",
        default=(),
        part=BeadsUsed,
        example="{small: 50, amber: 1}",
    )
    yarns_used: tuple[YarnUsed, ...] = entry(
        "named parts",
        "Yarn used, by name; yarns that were not planned may stand here too.",
        default=(),
        part=YarnUsed,
        example="{red: 12 g}",
    )
    time: tuple[TimeTaken, ...] = entry(
        "named parts",
        "Weaving time by session.",
        default=(),
        part=TimeTaken,
        example="{Saturday morning: 1 h 50 min}",
    )
    other_time: tuple[TimeTaken, ...] = entry(
        "named parts",
        "Time for all else, by task.",
        default=(),
        part=TimeTaken,
        example="{warping: 45 min}",
    )
    notes: tuple[str, ...] = entry("texts", "Working notes, printed as they are.", default=())
    photographs: tuple[Photograph, ...] = entry(
        "parts", "Photographs of the piece.", default=(), part=Photograph
    )
    differently: tuple[str, ...] = entry(
        "texts", "What would be done differently next time.", default=()
    )
