"""Kits: what is laid over the piece for guests, how many there are, and what each is given."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.event import Session
from sheetgen.model.schema import entry
from sheetgen.model.values import Price

COILS, CUT = "coils", "cut ends"
"""How the warp is handed out."""


@dataclass(frozen=True, slots=True)
class Cards:
    """Cards that the tablets are cut from. A lone number stands for ``pack``."""

    SHORTHAND = "pack"

    pack: int | None = entry("whole", "Cards in a pack as sold.", default=None, low=1, high=10000)
    price: Price | None = entry("price", "Price of a pack.", default=None)
    tablets: int = entry("whole", "Tablets cut from a card.", default=1, low=1, high=20)


@dataclass(frozen=True, slots=True)
class Thing:
    """Something else that is needed; ``name`` is its key. A lone number stands for ``each``."""

    SHORTHAND = "each"

    name: str
    each: int = entry("whole", "How many go into a bag.", default=0, low=0, high=1000, example="1")
    lent: int = entry(
        "whole",
        "How many lie ready for all to share; counted back in.",
        default=0,
        low=0,
        high=10000,
    )
    pack: int | None = entry(
        "whole", "How many are sold together.", default=None, low=1, high=10000
    )
    price: Price | None = entry("price", "Price of a pack.", default=None)
    at_hand: int = entry("whole", "How many there are already.", default=0, low=0, high=100000)


@dataclass(frozen=True, slots=True)
class Kit:
    """Kits for guests; the kit's piece itself is the Project that ``differs`` makes of the piece.

    ``differs`` holds the keys that were laid over the piece.
    """

    differs: tuple[str, ...] = entry(
        "differences",
        "What differs from the piece: keys of this description, laid over it.",
        default=(),
        example="{length: 25 cm, tassels: none}",
    )
    people: int | None = entry(
        "whole", "Guests; --people outranks it.", default=None, low=1, high=5000, example="12"
    )
    spares: int = entry("whole", "Bags beyond one a guest.", default=0, low=0, high=500)
    names: tuple[str, ...] = entry("texts", "Names of guests, for the labels.", default=())
    handed_out: str = entry(
        "choice",
        "The warp: wound in a coil for each guest to cut, or cut into ends.",
        default=COILS,
        choices=(COILS, CUT),
    )
    sessions: tuple[Session, ...] = entry(
        "named parts",
        "Sessions with the guests, in order.",
        default=(),
        part=Session,
        example="{morning: 90 min}",
    )
    set_aside: float = entry(
        "time", "Of each session, for all but weaving.", default=0.0, low=0, high=1440
    )
    pace: float | None = entry(
        "number", "Picks a minute of a guest.", default=None, low=0.1, high=60, example="2"
    )
    times_slower: float | None = entry(
        "number",
        "How many times slower than the maker a guest weaves; left out, 3.",
        default=None,
        low=1,
        high=20,
    )
    reserve: float | None = entry(
        "percent",
        "Yarn, beads, cards and fittings beyond what is used; left out, that of the piece.",
        default=None,
        low=0,
        high=200,
    )
    cards: Cards = entry("part", "Cards for tablets.", default=Cards(), part=Cards)
    things: tuple[Thing, ...] = entry(
        "named parts",
        "What else goes into a bag or lies ready.",
        default=(),
        part=Thing,
        example="{safety pin: 2, scissors: {lent: 4}}",
    )
