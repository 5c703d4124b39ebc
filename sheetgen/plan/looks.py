"""Looks: takes hands of cords and weft, gives whether a length of a tube spirals or lies straight.

A tube spirals where its cords and its weft climb with the same hand and lies straight where they
differ: observation of Henshall, "Five tablet-woven seal-tags", Archaeological Journal 121, 1964,
as reported by weavers who reproduced the cords.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from sheetgen.plan.interventions import CHANGE_SIDE, LET_OUT
from sheetgen.plan.pack import Pack
from sheetgen.plan.surface import turned_slant
from sheetgen.plan.turning import SIGN, Stretch

Look = Literal["spiral S", "spiral Z", "straight", "cannot tell", "flat"]
OTHER_SIDE = {"right": "left", "left": "right"}


def weft_hand(enters: str, returns: str) -> str:
    """Hand of the weft's helix: in at the right, back under: S; each reversal changes it."""
    return "S" if (enters == "right") == (returns == "under") else "Z"


def tube_look(cords: str | None, weft: str) -> Look:
    """Look of a length whose cords all have the hand ``cords`` (None if they differ)."""
    if cords is None:
        return "cannot tell"
    if cords != weft:
        return "straight"
    return "spiral S" if cords == "S" else "spiral Z"


@dataclass(frozen=True, slots=True)
class Length:
    """A length between interventions: picks ``first`` to ``last``, its weft side and look."""

    first: int
    last: int
    side: str
    look: Look


def lengths_of_tube(
    pack: Pack,
    stretches: Sequence[Stretch],
    places: Sequence[int],
    way: str,
    enters: str,
    returns: str,
) -> tuple[Length, ...]:
    """The lengths between interventions, each with its weft side and predicted look."""
    corners = [0, *places, stretches[-1].last]
    side, flipped, found = enters, False, list[Length]()
    for number, (first, last) in enumerate(pairwise(corners)):
        if number and way != LET_OUT:
            flipped = not flipped
            side = OTHER_SIDE[side] if way == CHANGE_SIDE else side
        cords = _common_hand(pack, stretches, first, last, flipped)
        found.append(Length(first, last, side, tube_look(cords, weft_hand(side, returns))))
    return tuple(found)


def _common_hand(
    pack: Pack, stretches: Sequence[Stretch], first: int, last: int, flipped: bool
) -> str | None:
    """The hand of all cords in these picks, or None if they differ or turn both ways."""
    hands, seen = set[str](), set[tuple[tuple[str, ...], tuple[int, ...]]]()
    threaded = [{t.threaded for t in pack.tablets if t.group == name} for name in pack.groups]
    signs = [-1 if flipped else 1] * len(threaded)
    for stretch in stretches:
        for course in stretch.flips:
            signs[course] = -signs[course]
        if stretch.last <= first or stretch.first >= last:
            continue
        if (state := (stretch.motions, tuple(signs))) in seen:
            continue
        seen.add(state)
        for letters, motion, sign in zip(threaded, stretch.motions, signs, strict=True):
            hands |= {turned_slant(letter, sign * SIGN[motion]) for letter in letters}
        if len(hands - {"none"}) > 1:
            return None
    hands.discard("none")
    return hands.pop() if len(hands) == 1 else None


def spiral_lead(spacing: float, thickness: float) -> float:
    """Length (mm) in which the columns of a spiralling tube go once round it.

    The weft climbs one pick (``spacing``, mm) in one round of the girth pi D (``thickness`` D,
    mm). Columns that cross it squarely lean by as much from the axis: atan(spacing / (pi D)), so
    they are once round after (pi D)^2 / spacing. Geometry, with the square crossing a rule of
    thumb.
    """
    return (math.pi * thickness) ** 2 / spacing


def spiral_angle(spacing: float, thickness: float) -> float:
    """Angle (degrees) between the columns of a spiralling tube and its axis; see above."""
    return math.degrees(math.atan(spacing / (math.pi * thickness)))
