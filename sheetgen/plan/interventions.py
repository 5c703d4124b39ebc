"""Interventions: takes places where the twist is dealt with, gives the twist that is left.

Three ways: flip the pack and keep the weft's side, flip it and change the side, or let the twist
out at the far end. A flip reverses the gathering of twist, letting out sets it to nought.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sheetgen.plan.constants import TWIST_ALWAYS_BORNE
from sheetgen.plan.turning import Trace

LET_OUT = "let out"
KEEP_SIDE = "flip and keep the side"
CHANGE_SIDE = "flip and change the side"
LEAST = "least twist"
UNTWISTED = "ends untwisted"

FreeWarp = Callable[[float], float]
"""Picks woven -> warp still free beyond the tablets, mm."""


def least_twist_places(length: float, count: int) -> tuple[float, ...]:
    """Flips that keep the greatest twist least: first at L/(2k+1), then every 2L/(2k+1).

    The greatest twist is then that of a length L/(2k+1). With one flip: a third of the way along.

    >>> least_twist_places(9.0, 1)
    (3.0,)
    """
    part = length / (2 * count + 1)
    return tuple(part * (2 * i + 1) for i in range(count))


def untwisted_places(length: float, count: int) -> tuple[float, ...]:
    """Flips that leave no twist at the end: first at L/(2k), then every L/k.

    >>> untwisted_places(8.0, 2)
    (2.0, 6.0)
    """
    part = length / (2 * count)
    return tuple(part * (2 * i + 1) for i in range(count))


def let_out_places(length: float, count: int) -> tuple[float, ...]:
    """Lettings-out at equal steps: L/(k+1), 2L/(k+1)...

    >>> let_out_places(9.0, 2)
    (3.0, 6.0)
    """
    return tuple(length * (i + 1) / (count + 1) for i in range(count))


@dataclass(frozen=True, slots=True)
class Load:
    """Twist at one pick: full turns beyond the tablets, and their share of what is borne there."""

    turns: float
    pick: int
    share: float


def worst_load(
    traced: Sequence[Trace],
    holes: int,
    places: Sequence[int],
    lets_out: bool,
    free: FreeWarp,
    limit: float,
) -> Load:
    """The worst twist of any course when interventions stand at ``places`` (picks, ascending).

    The worst is the greatest share of what is borne, which need not be the most turns.
    ``limit`` is full turns per mm of free warp. Twist is straight between corners and what is
    borne shrinks steadily down to its floor, so the worst stands at a corner, at an intervention
    or where the floor is reached.
    """
    worst = Load(0.0, 0, 0.0)
    for trace in traced:
        bent = _with_floor(trace, free, limit)
        for pick, twist in with_interventions(bent, places, lets_out):
            turns = abs(twist) / holes
            share = turns / borne(pick, free, limit)
            if share > worst.share:
                worst = Load(turns, pick, share)
    return worst


def most_load(
    traced: Sequence[Trace],
    holes: int,
    places: Sequence[int],
    lets_out: bool,
    free: FreeWarp,
    limit: float,
) -> Load:
    """The most twist of any course in full turns, where it first stands; see :func:`worst_load`.

    Twist is straight between corners, so the most stands at a corner or at an intervention.
    """
    corners = (c for trace in traced for c in with_interventions(trace, places, lets_out))
    pick, twist = max(corners, key=lambda corner: (abs(corner[1]), -corner[0]))
    turns = abs(twist) / holes
    return Load(turns, pick, turns / borne(pick, free, limit))


def turns_at(
    traced: Sequence[Trace], holes: int, places: Sequence[int], lets_out: bool
) -> dict[int, float]:
    """Full turns beyond the tablets when each place is reached, before anything is done there.

    Of all courses the greatest, by the pick of the place.
    """
    found = dict.fromkeys(places, 0.0)
    for trace in traced:
        for pick, twist in with_interventions(trace, places, lets_out):
            if pick in found:
                found[pick] = max(found[pick], abs(twist) / holes)
    return found


def borne(pick: float, free: FreeWarp, limit: float) -> float:
    """Full turns that the free warp bears after ``pick`` picks; one turn it always bears."""
    return max(limit * free(pick), TWIST_ALWAYS_BORNE.value)


def _with_floor(trace: Trace, free: FreeWarp, limit: float) -> Trace:
    """The trace with corners on both sides of where the free warp bears no more than the floor."""
    floor, last = TWIST_ALWAYS_BORNE.value, trace.picks[-1]
    at = bisect_left(range(last), True, key=lambda pick: limit * free(pick) <= floor)
    corners = dict(zip(trace.picks, trace.twist, strict=True))
    for pick in {max(at - 1, 0), at} - corners.keys():
        i = bisect_right(trace.picks, pick)
        (p, q), (t, u) = trace.picks[i - 1 : i + 1], trace.twist[i - 1 : i + 1]
        corners[pick] = t + (u - t) * (pick - p) // (q - p)
    return Trace(*zip(*sorted(corners.items()), strict=True))


def with_interventions(
    trace: Trace, places: Sequence[int], lets_out: bool
) -> list[tuple[int, float]]:
    """Corners of the trace once interventions are done, just before and at each of them."""
    corners: list[tuple[int, float]] = []
    waiting, done = list(places), 0
    sign, base, offset = 1, 0.0, 0.0  # twist = offset + sign * (trace - base)
    previous_pick, previous = trace.picks[0], float(trace.twist[0])
    for pick, twist in zip(trace.picks, trace.twist, strict=True):
        while done < len(waiting) and waiting[done] <= pick:
            place, done = waiting[done], done + 1
            span = pick - previous_pick
            gathered = (place - previous_pick) * (twist - previous)
            here = previous + (gathered / span if span else 0.0)
            reached = offset + sign * (here - base)
            corners.append((place, reached))
            offset, base = (0.0, here) if lets_out else (reached, here)
            sign = 1 if lets_out else -sign
        corners.append((pick, offset + sign * (twist - base)))
        previous_pick, previous = pick, float(twist)
    return corners
