"""What a drawing is made of: plain frozen shapes in millimetres.

x runs to the right and y *down* from the top left corner of the drawing. Line widths are mm, text
sizes points. Nothing here knows how a shape gets onto paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Pattern = Literal[
    "plain", "rising", "falling", "level", "upright", "dots", "crossed", "grid", "bricks", "solid"
]
PATTERNS: tuple[Pattern, ...] = (
    "plain",
    "rising",
    "dots",
    "level",
    "crossed",
    "falling",
    "upright",
    "grid",
    "bricks",
    "solid",
)
"""Fill patterns in the order in which yarns are given them; ``solid`` is a mid grey."""

Anchor = Literal["start", "middle", "end"]
BLACK = "#000000"
WHITE = "#ffffff"


@dataclass(frozen=True, slots=True)
class Fill:
    """A tint (hex, drawn first) and a black pattern of fine lines over it."""

    tint: str | None = None
    pattern: Pattern = "plain"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float = 0.25
    dash: tuple[float, ...] = ()
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle; ``width`` 0 draws no outline; ``round`` is a corner radius."""

    x: float
    y: float
    w: float
    h: float
    width: float = 0.25
    fill: Fill | None = None
    round: float = 0.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    cx: float
    cy: float
    r: float
    width: float = 0.25
    fill: Fill | None = None


@dataclass(frozen=True, slots=True)
class Path:
    """Pen moves: ``("M", x, y)``, ``("L", x, y)``, ``("C", x1, y1, x2, y2, x, y)``, ``("Z",)``."""

    moves: tuple[tuple[str | float, ...], ...]
    width: float = 0.25
    fill: Fill | None = None
    dash: tuple[float, ...] = ()
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text on its base line at (x, y); ``halo`` puts a white patch behind it."""

    x: float
    y: float
    text: str
    size: float = 9.0
    anchor: Anchor = "start"
    bold: bool = False
    halo: bool = False
    turn: float = 0.0
    """Degrees, anticlockwise."""


@dataclass(frozen=True, slots=True)
class Raster:
    """A photograph as it goes into the file: the bytes of a JPEG or PNG, grey or RGB.

    ``width`` and ``height`` are pixels. The bytes have no turning left to do, no see-through
    parts, 8 bits a channel.
    """

    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Photo:
    """A raster in a box; its sides should be as those of the raster."""

    x: float
    y: float
    w: float
    h: float
    raster: Raster


Shape = Line | Rect | Circle | Path | Text | Photo


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing ``width`` by ``height`` mm, never scaled and never split.

    ``true_scale`` says that something in it measures what it shows, so that the page carries the
    scale bar.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...]
    true_scale: bool = False
    name: str = ""


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape, ``dx`` to the right and ``dy`` down."""
    match shape:
        case Line(x1, y1, x2, y2, width, dash, colour):
            return Line(x1 + dx, y1 + dy, x2 + dx, y2 + dy, width, dash, colour)
        case Rect(x, y, w, h, width, fill, corner, dash):
            return Rect(x + dx, y + dy, w, h, width, fill, corner, dash)
        case Circle(cx, cy, r, width, fill):
            return Circle(cx + dx, cy + dy, r, width, fill)
        case Path(moves, width, fill, dash, colour):
            return Path(tuple(_moved(m, dx, dy) for m in moves), width, fill, dash, colour)
        case Text(x, y, text, size, anchor, bold, halo, turn):
            return Text(x + dx, y + dy, text, size, anchor, bold, halo, turn)
        case Photo(x, y, w, h, raster):
            return Photo(x + dx, y + dy, w, h, raster)


def _moved(move: tuple[str | float, ...], dx: float, dy: float) -> tuple[str | float, ...]:
    pen, *numbers = move
    shifted = [float(n) + (dy if i % 2 else dx) for i, n in enumerate(numbers)]
    return (pen, *shifted)
