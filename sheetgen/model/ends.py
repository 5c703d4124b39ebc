"""How the ends of the piece are finished: tassels, aglets."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry
from sheetgen.model.values import Price


@dataclass(frozen=True, slots=True)
class Tassels:
    """Tassels made from the tails of the cord and added strands. A lone number: ``number``."""

    SHORTHAND = "number"

    number: int = entry(
        "whole",
        "How many: 0, 1 or 2. A loop has one, where its ends meet; on any other piece one "
        "stands at an end of your choice, two at both. Where `tassels` is not written, there are "
        "none.",
        default=1,
        low=0,
        high=2,
    )
    skirt: float = entry(
        "length",
        "Length of the skirt below the neck.",
        default=60.0,
        low=5,
        high=500,
        example="60 mm",
    )
    thickness: float | None = entry(
        "length",
        "Thickness of the neck wanted; left out, the tails alone.",
        default=None,
        low=0.5,
        high=100,
    )
    neck_wraps: int = entry(
        "whole", "Wraps of the binding round the neck.", default=10, low=1, high=200
    )
    yarn: str | None = entry(
        "yarn", "Yarn of the added strands; left out, the first yarn.", default=None
    )
    binding: str | None = entry(
        "yarn", "Yarn of the binding; left out, as the added strands.", default=None
    )


@dataclass(frozen=True, slots=True)
class Aglets:
    """Metal ends of a lace. A lone number stands for ``number``."""

    SHORTHAND = "number"

    number: int = entry(
        "whole",
        "How many: 1 or 2, one at each end; not on a loop. Where `aglets` is not written, there "
        "are none.",
        default=2,
        low=1,
        high=2,
    )
    length: float = entry("length", "Length of one.", default=30.0, low=5, high=200)
    inside: float | None = entry(
        "length", "Inside diameter at the wide end.", default=None, low=0.3, high=50
    )
    material: str = entry("text", "What it is made of.", default="sheet brass")
    pack: int | None = entry(
        "whole", "How many are sold together.", default=None, low=1, high=10000
    )
    price: Price | None = entry("price", "Price of a pack.", default=None)
