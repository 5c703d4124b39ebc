"""Placing: takes the turning and the twist limit, gives the fewest places that keep within it.

Two cases. A plan that turns one way throughout is open everywhere: the fewest places are found by
going as far as the free warp bears, then they are spread. A plan with a pattern is open only where
its list of steps begins again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from sheetgen.plan.interventions import (
    LEAST,
    LET_OUT,
    FreeWarp,
    borne,
    least_twist_places,
    let_out_places,
    untwisted_places,
    worst_load,
)
from sheetgen.plan.turning import Stretch, Trace

HALVINGS = 24


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

    Places are whole multiples of ``step`` picks. The even places of the formulas are taken where
    they keep within the limit; else, since the free warp shrinks, places closer together towards
    the end, so that the twist is the least *as a share of what the warp then bears*.
    """
    if not any(twist for trace in traced for twist in trace.twist):
        return ()
    lets_out = way == LET_OUT
    room = [holes * borne(pick, free, limit) for pick in range(picks + 1)]
    walk = _Walk(picks, step, lets_out, room)

    def fits(places: Sequence[int]) -> bool:
        return worst_load(traced, holes, places, lets_out, free, limit).share <= 1 + 1e-9

    if placing == LEAST or lets_out:
        fewest = len(walk.as_far_as(1.0))
        even = let_out_places if lets_out else least_twist_places
        places = _rounded(even(float(picks), fewest), step, picks) if fewest else ()
        return places if fits(places) else walk.balanced(fewest)
    return _place_untwisted(walk, fits)


def _place_untwisted(walk: _Walk, fits: Callable[[Sequence[int]], bool]) -> tuple[int, ...]:
    """Flips that leave no twist at the end, the fewest found."""
    fewest = max(1, len(walk.as_far_as(1.0)))
    for count in range(fewest, walk.picks // walk.step + 1):
        even = _rounded(untwisted_places(float(walk.picks), count), walk.step, walk.picks)
        tries = (walk.corrected(even), walk.untwisted(count) if count <= fewest + 2 else ())
        for places in tries:
            if places and abs(walk.end_twist(places)) <= walk.step and fits(places):
                return places
    return walk.balanced(fewest)


def _rounded(places: Sequence[float], step: int, picks: int) -> tuple[int, ...]:
    whole = {step * round(place / step) for place in places}
    return tuple(sorted(p for p in whole if 0 < p < picks))


@dataclass(frozen=True)
class _Walk:
    """Goes along a plan that turns one way; ``room`` is what is borne pick by pick, in turns."""

    picks: int
    step: int
    lets_out: bool
    room: Sequence[float]

    def within(self, share: float) -> list[float]:
        """Turns that each pick may have gathered for ``share`` of what is borne to be kept.

        After a flip the twist falls by one turn a pick, so that no pick may have gathered more
        than a later one bears and the picks between them.
        """
        most = [share * room + 1e-9 for room in self.room]
        if not self.lets_out:
            for pick in range(self.picks - 1, -1, -1):
                most[pick] = min(most[pick], most[pick + 1] + 1)
        return most

    def as_far_as(self, share: float) -> tuple[int, ...]:
        """Places when every length goes as far as ``share`` of what is borne.

        The fewest for that share: tested against exhaustive search.
        """
        most = self.within(share)
        places, twist, sign, place = list[int](), 0, 1, 0
        for pick in range(1, self.picks + 1):
            reached = twist + sign * (pick - place)
            if abs(reached) > most[pick]:
                last = (pick - 1) // self.step * self.step
                if last > place:
                    twist = 0 if self.lets_out else twist + sign * (last - place)
                    sign = sign if self.lets_out else -sign
                    places.append(last)
                    place = last
        return tuple(places)

    def balanced(self, count: int) -> tuple[int, ...]:
        """At most ``count`` places with the least twist as a share of what is borne."""
        low, high = 0.0, 1.0
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            if len(self.as_far_as(middle)) <= count and self._keeps(middle):
                high = middle
            else:
                low = middle
        return self.as_far_as(high)

    def _keeps(self, share: float) -> bool:
        """True when no length goes over ``share`` because a place cannot be had."""
        places, twist, sign = self.as_far_as(share), 0, 1
        for place, following in zip((0, *places), (*places, self.picks), strict=True):
            twist += sign * (following - place)
            if abs(twist) > share * self.room[following] + 1e-9:
                return False
            twist, sign = (0, sign) if self.lets_out else (twist, -sign)
        return True

    def end_twist(self, places: Sequence[int]) -> int:
        """Twist at the end after flips at ``places``, counted the way the last length turns."""
        twist, sign = 0, 1
        for place, following in zip((0, *places), (*places, self.picks), strict=True):
            twist, sign = twist + sign * (following - place), -sign
        return -sign * twist

    def untwisted(self, count: int) -> tuple[int, ...]:
        """``count`` flips that leave as little twist at the end as whole steps allow."""
        low, high, share = 0.0, 1.0, 1.0
        best: tuple[int, ...] = ()
        for _ in range(HALVINGS):
            places = self.as_far_as(share)[:count]
            left = self.end_twist(places)
            if len(places) < count:
                high = share
            else:
                if not best or abs(left) < abs(self.end_twist(best)):
                    best = places
                low, high = (share, high) if left > 0 else (low, share)
            share = (low + high) / 2
        return self.corrected(best)

    def corrected(self, places: tuple[int, ...]) -> tuple[int, ...]:
        """The last place moved by whole steps so that the twist at the end is as near to nought."""
        if not places:
            return ()
        last = places[-1] + self.step * round(self.end_twist(places) / (2 * self.step))
        lowest = (places[-2] if len(places) > 1 else 0) + self.step
        highest = (self.picks - 1) // self.step * self.step
        return (*places[:-1], max(lowest, min(last, highest))) if lowest <= highest else places


def place_between_passes(
    traced: Sequence[Trace],
    stretches: Sequence[Stretch],
    holes: int,
    way: str,
    free: FreeWarp,
    limit: float,
) -> tuple[int, ...]:
    """Interventions of a patterned plan, only where the list of steps begins again.

    Goes as far as the limit allows, then stands at the last beginning before it, if that makes the
    coming pass any better. The fewest for letting out where each pass gathers twist alike; for
    flips a fair choice, which :func:`~sheetgen.plan.interventions.worst_load` then judges.
    """
    gathered = [0] * len(traced)
    sign, places = 1, list[int]()
    for first, last in _passes(stretches):
        moves = [[t.twist[i] - t.twist[first] for i in range(first + 1, last + 1)] for t in traced]
        room = [holes * borne(stretches[i].last, free, limit) for i in range(first, last)]
        if stretches[first].first:
            kept = _worst_share(gathered, sign, moves, room)
            after = ([0] * len(traced), sign) if way == LET_OUT else (gathered, -sign)
            if kept > 1 + 1e-9 and _worst_share(*after, moves, room) < kept:
                places.append(stretches[first].first)
                gathered, sign = after
        gathered = [g + sign * m[-1] for g, m in zip(gathered, moves, strict=True)]
    return tuple(places)


def _passes(stretches: Sequence[Stretch]) -> Iterator[tuple[int, int]]:
    """First and one-past-last stretch of every pass through the steps."""
    starts = [i for i, s in enumerate(stretches) if s.pass_start]
    return zip(starts, [*starts[1:], len(stretches)], strict=True)


def _worst_share(
    gathered: Sequence[int], sign: int, moves: Sequence[Sequence[int]], room: Sequence[float]
) -> float:
    """The worst twist of any course in the coming pass, as a share of what is borne."""
    return max(
        abs(before + sign * move) / most
        for before, course in zip(gathered, moves, strict=True)
        for move, most in zip(course, room, strict=True)
    )
