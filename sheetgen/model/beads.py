"""Beads: kinds, order along the cord, finial."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry
from sheetgen.model.values import Price

SHAPES = ("round", "barrel", "cylinder", "ring", "disc")


@dataclass(frozen=True, slots=True)
class StandsFor:
    """What the find has in this bead's place. A lone line stands for ``name``."""

    SHORTHAND = "name"

    name: str = entry("text", "What the find has.", example="a bead of jet")
    length: float | None = entry(
        "length", "Its length along the string.", default=None, low=0.5, high=200
    )
    diameter: float | None = entry("length", "Its diameter.", default=None, low=0.5, high=200)
    why: str | None = entry("text", "Why it was replaced.", default=None)


@dataclass(frozen=True, slots=True)
class BeadKind:
    """One kind of bead; ``name`` is its key. A lone quantity stands for ``diameter``."""

    SHORTHAND = "diameter"

    name: str
    diameter: float = entry(
        "length", "Diameter across the string.", low=0.5, high=200, example="6 mm"
    )
    length: float | None = entry(
        "length",
        "Length along the string; left out, the diameter.",
        default=None,
        low=0.3,
        high=200,
    )
    hole: float | None = entry("length", "Diameter of the hole.", default=None, low=0.1, high=100)
    shape: str = entry("choice", "Outline.", default="round", choices=SHAPES)
    material: str | None = entry("text", "What it is made of.", default=None)
    colour: str | None = entry("text", "Colour in words.", default=None)
    at_hand: int | None = entry("whole", "How many there are.", default=None, low=0, high=100000)
    pack: int | None = entry(
        "whole", "How many are sold together.", default=None, low=1, high=100000
    )
    price: Price | None = entry("price", "Price of a pack.", default=None)
    in_stash: str | None = entry(
        "text", "Its name in the stash; left out, the name it has here.", default=None
    )
    divider: bool = entry(
        "yes-no", "Parts the string into groups (drawn with a heavier line).", default=False
    )
    stands_for: StandsFor | None = entry(
        "part", "What the find has in its place.", default=None, part=StandsFor
    )


@dataclass(frozen=True, slots=True)
class Strung:
    """``count`` beads of one kind in a row."""

    kind: str
    count: int


@dataclass(frozen=True, slots=True)
class Gap:
    """Bare cord of a stated length, mm."""

    length: float


@dataclass(frozen=True, slots=True)
class Knot:
    """A knot tied in the cord."""


@dataclass(frozen=True, slots=True)
class BeadRepeat:
    """Items strung ``times`` times."""

    times: int
    items: tuple[OrderItem, ...]


OrderItem = Strung | Gap | Knot | BeadRepeat


@dataclass(frozen=True, slots=True)
class Finial:
    """What hangs where a loop's ends meet, or at a string's end. A lone line: ``name``."""

    SHORTHAND = "name"

    name: str = entry("text", "What it is.", example="bone drop")
    length: float | None = entry("length", "Its length.", default=None, low=0.5, high=500)
    diameter: float | None = entry("length", "Its width.", default=None, low=0.5, high=200)
    hole: float | None = entry("length", "Diameter of its hole.", default=None, low=0.1, high=100)
    takes: float | None = entry(
        "length",
        "Cord that runs through it and cannot be seen: so much of each of the ends that go in; "
        "left out, its length.",
        default=None,
        low=0,
        high=500,
    )
    shape: str = entry("choice", "Outline.", default="round", choices=SHAPES)
    material: str | None = entry("text", "What it is made of.", default=None)
    pack: int | None = entry(
        "whole", "How many are sold together.", default=None, low=1, high=10000
    )
    price: Price | None = entry("price", "Price of a pack.", default=None)


@dataclass(frozen=True, slots=True)
class KnotSize:
    """Size of a knot tied in the cord. A lone quantity stands for ``length``."""

    SHORTHAND = "length"

    length: float | None = entry(
        "length", "Length along the string.", default=None, low=0.1, high=100
    )
    takes: float | None = entry("length", "Cord it uses up.", default=None, low=0.1, high=500)


@dataclass(frozen=True, slots=True)
class Beads:
    """The beads of a string."""

    kinds: tuple[BeadKind, ...] = entry(
        "named parts", "Kinds of bead by name.", part=BeadKind, example="{small: 6 mm}"
    )
    order: tuple[OrderItem, ...] = entry(
        "order",
        "Along the cord: “10 small”, “large”, “gap 3 mm”, “knot”, {repeat: 5, of: [...]}.",
        example="[10 small, large]",
    )
    strung: str | None = entry(
        "choice",
        "How a bead goes on: over a bare end, or with the cord folded over a loop of thread.",
        default=None,
        choices=("bare end", "loop of thread"),
    )
    finger_room: float | None = entry(
        "length", "Bare cord left so that the beads can be moved.", default=None, low=0, high=2000
    )
    finial: Finial | None = entry(
        "part",
        "Finial: what hangs where the ends of a loop meet, or at the end strung last of a straight "
        "string.",
        default=None,
        part=Finial,
    )
    join: float | None = entry(
        "length", "Cord used at each end by the join or end knot.", default=None, low=0, high=500
    )
    knots: KnotSize | None = entry(
        "part", "Size of the knots in the order.", default=None, part=KnotSize
    )
