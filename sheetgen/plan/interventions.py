"""Interventions: takes the turning and the twist limit, gives where the twist is dealt with.

Three ways: flip the pack and keep the weft's side, flip it and change the side, or let the twist
out at the far end. A flip reverses the gathering of twist, letting out sets it to nought.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sheetgen.plan.turning import Stretch, Trace

LET_OUT = "let out"
KEEP_SIDE = "flip and keep the side"
CHANGE_SIDE = "flip and change the side"
LEAST = "least twist"
UNTWISTED = "ends untwisted"

MOST_TRIED = 2000

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
    """The worst twist: full turns, at which pick, and as a share of what the free warp bears."""

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

    ``limit`` is full turns per mm of free warp. Twist is straight between corners and the free
    warp shrinks steadily, so the worst stands at a corner or an intervention.
    """
    worst = Load(0.0, 0, 0.0)
    for trace in traced:
        for pick, twist in _with_interventions(trace, places, lets_out):
            turns = abs(twist) / holes
            room = limit * max(free(pick), 1e-9)
            if turns / room > worst.share:
                worst = Load(turns, pick, turns / room)
    return worst


def _with_interventions(
    trace: Trace, places: Sequence[int], lets_out: bool
) -> list[tuple[int, float]]:
    """Corners of the trace once interventions are done, just before and at each of them."""
    corners: list[tuple[int, float]] = []
    waiting = list(places)
    sign, base, offset = 1, 0.0, 0.0  # twist = offset + sign * (trace - base)
    previous_pick, previous = trace.picks[0], float(trace.twist[0])
    for pick, twist in zip(trace.picks, trace.twist, strict=True):
        while waiting and waiting[0] <= pick:
            place = waiting.pop(0)
            span = pick - previous_pick
            share = (place - previous_pick) / span if span else 0.0
            here = previous + share * (twist - previous)
            reached = offset + sign * (here - base)
            corners.append((place, reached))
            offset, base = (0.0, here) if lets_out else (reached, here)
            sign = 1 if lets_out else -sign
        corners.append((pick, offset + sign * (twist - base)))
        previous_pick, previous = pick, float(twist)
    return corners


def place_evenly(
    traced: Sequence[Trace],
    picks: int,
    holes: int,
    way: str,
    placing: str,
    free: FreeWarp,
    limit: float,
    step: int,
) -> tuple[int, ...]:
    """The fewest interventions of a plan that turns one way throughout, at their best places.

    Places are rounded to whole multiples of ``step`` picks. If even :data:`MOST_TRIED` would not
    do, that many are given: the caller reports the load that is left.
    """
    lets_out = way == LET_OUT
    if lets_out:
        formula = let_out_places
    else:
        formula = least_twist_places if placing == LEAST else untwisted_places
    places: tuple[int, ...] = ()
    for count in range(MOST_TRIED):
        if count or placing == LEAST or lets_out:
            raw = formula(float(picks), count) if count else ()
            places = _rounded(raw, step, picks)
            if worst_load(traced, holes, places, lets_out, free, limit).share <= 1:
                return places
        if count > picks // step:
            break
    return places


def _rounded(places: Sequence[float], step: int, picks: int) -> tuple[int, ...]:
    whole = {step * round(place / step) for place in places}
    return tuple(sorted(p for p in whole if 0 < p < picks))


def place_between_passes(
    traced: Sequence[Trace],
    stretches: Sequence[Stretch],
    holes: int,
    way: str,
    free: FreeWarp,
    limit: float,
) -> tuple[int, ...]:
    """The fewest interventions of a patterned plan, only where the list of steps begins again.

    Goes as far as the limit allows, then stands at the last beginning before it. Fewest for
    letting out; for flips a fair choice, which :func:`worst_load` then judges.
    """
    gathered = [0] * len(traced)
    sign, places = 1, list[int]()
    for first, last in _passes(stretches):
        moves = [[t.twist[i] - t.twist[first] for i in range(first, last + 1)] for t in traced]
        ends = [stretches[i].last for i in range(first, last)]
        if stretches[first].first and _too_much(gathered, sign, moves, ends, holes, free, limit):
            places.append(stretches[first].first)
            if way == LET_OUT:
                gathered = [0] * len(traced)
            else:
                sign = -sign
        gathered = [g + sign * m[-1] for g, m in zip(gathered, moves, strict=True)]
    return tuple(places)


def _passes(stretches: Sequence[Stretch]) -> list[tuple[int, int]]:
    """First and one-past-last stretch of every pass through the steps."""
    starts = [i for i, s in enumerate(stretches) if s.pass_start]
    return list(zip(starts, [*starts[1:], len(stretches)], strict=True))


def _too_much(
    gathered: Sequence[int],
    sign: int,
    moves: Sequence[Sequence[int]],
    ends: Sequence[int],
    holes: int,
    free: FreeWarp,
    limit: float,
) -> bool:
    """True when the coming pass would take any course over the limit."""
    return any(
        abs(before + sign * move) / holes > limit * max(free(pick), 1e-9)
        for before, course in zip(gathered, moves, strict=True)
        for move, pick in zip(course[1:], ends, strict=True)
    )
