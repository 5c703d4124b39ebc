"""The pack of tablets: holes, threading, colours, groups."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry

HOLE_LETTERS = "ABCDEFGH"
EMPTY = "empty"
"""Written instead of a yarn for a hole with no thread."""
EVERY_HOLE = "*"

Selection = tuple[int, ...]
"""Tablet numbers, from 1, in the order written."""


@dataclass(frozen=True, slots=True)
class HoleColour:
    """One yarn (its name, or :data:`EMPTY`) in one hole (letter, or :data:`EVERY_HOLE`)."""

    hole: str
    yarn: str


Colours = tuple[HoleColour, ...]


@dataclass(frozen=True, slots=True)
class DraftLine:
    """One tablet of a repeat: ``threaded`` S, Z or None (as the pack), and its colours."""

    threaded: str | None
    colours: Colours


@dataclass(frozen=True, slots=True)
class Group:
    """A named group of tablets."""

    name: str
    tablets: Selection


@dataclass(frozen=True, slots=True)
class Exceptional:
    """Tablets that differ from the rest of the pack; later ones outrank earlier ones."""

    tablets: Selection = entry("selection", "Which tablets.", example="1-2, 19-20")
    threaded: tuple[str, ...] = entry(
        "letters", "S or Z, or a run repeated along these tablets.", default=(), example="Z"
    )
    colours: Colours = entry(
        "colours", "One yarn, one for each hole in order, or by hole letter.", default=()
    )
    draft: tuple[DraftLine, ...] = entry(
        "draft",
        "A line a tablet, repeated along these tablets: S or Z if it differs, then hole by hole.",
        default=(),
        example="[S red red white white, Z white white red red]",
    )


@dataclass(frozen=True, slots=True)
class Tablets:
    """The pack. A lone number stands for ``number``."""

    SHORTHAND = "number"

    number: int | None = entry(
        "whole",
        "How many; left out, it follows from the find's thickness and the yarn.",
        default=None,
        low=1,
        high=300,
    )
    holes: int = entry("whole", "Holes in a tablet.", default=4, low=2, high=8)
    threaded: tuple[str, ...] = entry(
        "letters",
        "S or Z for all, or a run repeated along the pack.",
        default=("S",),
        example="S Z",
    )
    colours: Colours = entry(
        "colours",
        "One yarn, one for each hole in order, or by hole letter; left out, the first yarn.",
        default=(),
        example="[red, red, white, white]",
    )
    draft: tuple[DraftLine, ...] = entry(
        "draft", "A line a tablet, repeated along the pack.", default=()
    )
    except_: tuple[Exceptional, ...] = entry(
        "parts", "Tablets that differ.", default=(), part=Exceptional
    )
    groups: tuple[Group, ...] = entry(
        "selections",
        "Names for tablets that turn together.",
        default=(),
        example="{border: '1-2, 19-20'}",
    )
