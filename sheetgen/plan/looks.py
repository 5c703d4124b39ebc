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
    """A length between interventions: picks ``first`` to ``last``, its weft side and look.

    ``hands`` are the tablets whose cords twist S throughout, Z throughout, and both ways in turn
    (or not at all).
    """

    first: int
    last: int
    side: str
    look: Look
    hands: tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]] = ((), (), ())


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
        hands = _hands(pack, stretches, first, last, flipped)
        look = tube_look(_common(hands), weft_hand(side, returns))
        found.append(Length(first, last, side, look, hands))
    return tuple(found)


def _common(hands: tuple[tuple[int, ...], ...]) -> str | None:
    """S or Z if all cords have that hand throughout, else None."""
    only_s, only_z, both = (bool(numbers) for numbers in hands)
    if both or only_s == only_z:
        return None
    return "S" if only_s else "Z"


def _hands(
    pack: Pack, stretches: Sequence[Stretch], first: int, last: int, flipped: bool
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """Tablets by the hand of their cords in these picks: S, Z, and both or neither."""
    ways = _ways(stretches, len(pack.groups), first, last, flipped)
    by_course = dict(zip(pack.groups, ways, strict=True))
    found: dict[str, list[int]] = {"S": [], "Z": [], "both": []}
    for tablet in pack.tablets:
        hands = {turned_slant(tablet.threaded, turn) for turn in by_course[tablet.group]}
        hands.discard("none")
        found[hands.pop() if len(hands) == 1 else "both"].append(tablet.number)
    return tuple(found["S"]), tuple(found["Z"]), tuple(found["both"])


def _ways(
    stretches: Sequence[Stretch], courses: int, first: int, last: int, flipped: bool
) -> list[set[int]]:
    """The ways (+1, -1, 0) that each course turns in these picks, flips included."""
    ways: list[set[int]] = [set() for _ in range(courses)]
    signs = [-1 if flipped else 1] * courses
    seen = set[tuple[tuple[str, ...], tuple[int, ...]]]()
    for stretch in stretches:
        for course in stretch.flips:
            signs[course] = -signs[course]
        if stretch.last <= first or stretch.first >= last:
            continue
        if (state := (stretch.motions, tuple(signs))) in seen:
            continue
        seen.add(state)
        for way, motion, sign in zip(ways, stretch.motions, signs, strict=True):
            way.add(sign * SIGN[motion])
    return ways


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
