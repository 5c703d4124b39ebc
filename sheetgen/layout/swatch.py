"""Swatches: takes a yarn's use, gives the fill and letter that stand for it everywhere."""

from __future__ import annotations

import re

from sheetgen.layout.shapes import PATTERNS, Fill, Rect, Shape, Text
from sheetgen.plan.materials import YarnUse

_HEX = re.compile(r"#([0-9A-Fa-f]{6})\b")
_NAMED = {
    "red": "c0392b", "madder": "b5432e", "crimson": "a3193a", "pink": "e59aa5",
    "orange": "e08a2c", "yellow": "e8c93a", "weld": "dcc63c", "gold": "d9b23c",
    "green": "4f8a4b", "blue": "3f6ea8", "indigo": "37508f", "woad": "5b82ad",
    "purple": "7b4a8a", "violet": "7b4a8a", "brown": "7d5a3c", "walnut": "6e4f38",
    "black": "3a3a3a", "grey": "8c8c8c", "gray": "8c8c8c", "white": "ffffff",
    "cream": "f3ead0", "natural": "efe6cc", "undyed": "efe6cc", "buff": "dfc79a",
}  # fmt: skip
LIGHTEN = 0.62
"""Share of white mixed in, so that black letters and patterns stay readable on any colour."""


def tint_of(colour: str | None) -> str | None:
    """A light tint (hex) for a colour in words or ending in #rrggbb; None if it is not known.

    >>> tint_of("white"), tint_of(None)
    ('#ffffff', None)
    """
    if colour is None:
        return None
    found = _HEX.search(colour)
    if found:
        return _lightened(found[1])
    words = re.findall(r"[a-z]+", colour.casefold())
    known = [_NAMED[w] for w in words if w in _NAMED]
    return _lightened(known[-1]) if known else None


def _lightened(digits: str) -> str:
    channels = [int(digits[i : i + 2], 16) for i in (0, 2, 4)]
    light = [round(c + (255 - c) * LIGHTEN) for c in channels]
    return "#" + "".join(f"{c:02x}" for c in light)


def fill_of(use: YarnUse) -> Fill:
    """The fill of a yarn: its pattern by its place among the yarns, over the tint of its colour."""
    return Fill(tint_of(use.figures.yarn.colour), PATTERNS[use.place % len(PATTERNS)])


def swatch(use: YarnUse, x: float, y: float, w: float, h: float, size: float) -> list[Shape]:
    """A filled cell with the yarn's letter in ``size`` points on a white patch."""
    return [
        Rect(x, y, w, h, 0.25, fill_of(use)),
        Text(x + w / 2, y + h / 2 + size * 0.127, use.letter, size, "middle", True, halo=True),
    ]
