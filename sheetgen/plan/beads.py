"""Beads: takes kinds and order, gives every bead at its place, the cord it needs, and the fit."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from sheetgen.model.beads import BeadKind, BeadRepeat, Beads, Gap, Knot, OrderItem, Strung
from sheetgen.plan.constants import (
    FINGER_ROOM_LEAST,
    FINGER_ROOM_SHARE,
    KNOT_LENGTH,
    KNOT_TAKES,
    PRESSED,
)

Verdict = Literal["passes", "tight", "will not pass", "not known"]
BARE_END = "bare end"
LOOP_OF_THREAD = "loop of thread"
STRANDS = {BARE_END: 1, LOOP_OF_THREAD: 2}


@dataclass(frozen=True, slots=True)
class Placed:
    """One bead, gap or knot on the string: start and length along the string, mm.

    ``number`` counts beads from 1 (0 for gaps and knots); ``kind`` is None for gaps and knots.
    """

    start: float
    length: float
    what: Literal["bead", "gap", "knot"]
    kind: BeadKind | None = None
    number: int = 0
    on_cord: float = 0.0
    """Start along the cord before any knot is tied, mm."""


@dataclass(frozen=True)
class BeadString:
    """Everything strung, in order, with its sums (mm)."""

    placed: tuple[Placed, ...]
    counts: dict[str, int]
    beads_length: float
    string_length: float
    """Beads, gaps and knots as they lie."""
    knots_take: float
    """Cord that knots use beyond their length along the string."""

    @property
    def beads(self) -> tuple[Placed, ...]:
        """The beads alone."""
        return tuple(p for p in self.placed if p.what == "bead")


def bead_length(kind: BeadKind) -> float:
    """Length along the string, mm; the diameter where no length is stated."""
    return kind.length if kind.length is not None else kind.diameter


def string_up(beads: Beads, cord: float) -> BeadString:
    """Lay beads, gaps and knots one after the other on a cord ``cord`` mm thick."""
    kinds = {kind.name: kind for kind in beads.kinds}
    knot_length, knot_takes = knot_size(beads, cord)
    extra = max(knot_takes - knot_length, 0.0)
    placed: list[Placed] = []
    at, number, knots = 0.0, 0, 0
    for item in _flat(beads.order):
        if isinstance(item, Strung):
            kind = kinds[item.kind]
            for _ in range(item.count):
                number += 1
                on_cord = at + knots * extra
                placed.append(Placed(at, bead_length(kind), "bead", kind, number, on_cord))
                at += bead_length(kind)
        elif isinstance(item, Gap):
            placed.append(Placed(at, item.length, "gap"))
            at += item.length
        else:
            placed.append(Placed(at, knot_length, "knot"))
            at, knots = at + knot_length, knots + 1
    strung = [p for p in placed if p.kind is not None]
    return BeadString(
        tuple(placed),
        dict(Counter(p.kind.name for p in strung if p.kind)),
        math.fsum(p.length for p in strung),
        at,
        knots * extra,
    )


def knot_size(beads: Beads, cord: float) -> tuple[float, float]:
    """Length of a knot along the string and the cord it takes, mm: stated, else by the cord."""
    stated = beads.knots
    length = stated.length if stated and stated.length is not None else KNOT_LENGTH.value * cord
    takes = stated.takes if stated and stated.takes is not None else KNOT_TAKES.value * cord
    return length, takes


def _flat(items: Sequence[OrderItem]) -> Iterator[Strung | Gap | Knot]:
    for item in items:
        if isinstance(item, BeadRepeat):
            for _ in range(item.times):
                yield from _flat(item.items)
        else:
            yield item


def finger_room(beads_length: float) -> float:
    """Bare cord (mm) left so that beads can be moved: 6 % of them, at least 12 mm."""
    return max(FINGER_ROOM_SHARE.value * beads_length, FINGER_ROOM_LEAST.value)


def hole_verdict(hole: float | None, cord: float, strands: int) -> Verdict:
    """Tell whether ``strands`` strands of cord (mm thick) go through a hole of ``hole`` mm at once.

    It passes as it is, or tight if only when pressed to 0.85 of its thickness. Two strands side
    by side need a hole twice as wide.

    >>> hole_verdict(2.0, 1.0, 2), hole_verdict(1.8, 1.0, 2), hole_verdict(1.6, 1.0, 2)
    ('passes', 'tight', 'will not pass')
    """
    if hole is None:
        return "not known"
    if hole >= strands * cord:
        return "passes"
    return "tight" if hole >= smallest_hole(cord, strands) else "will not pass"


def smallest_hole(cord: float, strands: int) -> float:
    """Smallest hole (mm) that the pressed cord still passes."""
    return strands * PRESSED.value * cord


def largest_cord(hole: float, strands: int) -> float:
    """Thickest cord (mm) that still passes a hole of ``hole`` mm when pressed."""
    return hole / (strands * PRESSED.value)


def choose_stringing(beads: Beads, cord: float) -> str:
    """As stated, else a loop of thread if every known hole strung takes the folded cord.

    Else a bare end.
    """
    if beads.strung:
        return beads.strung
    strung = {item.kind for item in _flat(beads.order) if isinstance(item, Strung)}
    holes = [kind.hole for kind in beads.kinds if kind.name in strung]
    folds = all(hole_verdict(h, cord, 2) != "will not pass" for h in holes)
    return LOOP_OF_THREAD if folds else BARE_END
