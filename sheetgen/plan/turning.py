"""Turning: takes steps and a number of picks, gives what every course of tablets does when.

A *course* is a set of tablets that move together: a group, or those in no group. A *stretch* is a
run of picks in which no course changes its motion. Everything is piecewise: nothing here grows
with the number of picks inside a stretch, so long plans stay cheap.

Conventions (terms page of the design, restated on paper): forward is the top edge away from the
weaver; hole letters are such that forward turns bring A, B, C... to the near top in that order.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from sheetgen.model.turning import REST, WHOLE_PACK, Flip, Move, Repeat, Step, Turns

SIGN = {"forward": 1, "backward": -1, "idle": 0}


@dataclass(frozen=True, slots=True)
class Stretch:
    """``picks`` picks after ``first`` picks woven; ``motions`` one for each course in order.

    ``flips`` are the courses (by position) that the plan flips just before this stretch.
    ``pass_start`` is True where the list of steps begins again.
    """

    first: int
    picks: int
    motions: tuple[str, ...]
    flips: tuple[int, ...] = ()
    pass_start: bool = False

    @property
    def last(self) -> int:
        """Picks woven when it ends."""
        return self.first + self.picks


def unroll(steps: Sequence[Step], courses: Sequence[str], picks: int) -> tuple[Stretch, ...]:
    """Do the steps again and again until ``picks`` picks are woven.

    ``courses`` names the courses, ``""`` for tablets in no group. No steps means forward. Flips
    at the very end of the plan are left out: nothing is woven after them. ValueError if a pass
    through the steps weaves nothing (the reader refuses such a list).
    """
    if not steps:
        steps = (Turns(picks, (Move(WHOLE_PACK, "forward"),)),)
    stretches: list[Stretch] = []
    motions_of: dict[tuple[Move, ...], tuple[str, ...]] = {}
    woven, flips, started = 0, set[int](), True
    while woven < picks:
        before = woven
        for step in _flat(steps):
            if isinstance(step, Flip):
                flips ^= {i for i, c in enumerate(courses) if not step.groups or c in step.groups}
                continue
            count = min(step.picks, picks - woven)
            if count <= 0:
                break
            motions = motions_of.get(step.moves)
            if motions is None:
                motions = tuple(_motion(course, step.moves) for course in courses)
                motions_of[step.moves] = motions
            stretch = Stretch(woven, count, motions, tuple(sorted(flips)), started)
            _append(stretches, stretch)
            woven, flips, started = woven + count, set(), False
        if woven == before:
            raise ValueError("the turning steps weave nothing")
        started = True
    return tuple(stretches)


def _append(stretches: list[Stretch], new: Stretch) -> None:
    """Add a stretch, or lengthen the last one if nothing changes and no pass begins."""
    last = stretches[-1] if stretches else None
    if last and last.motions == new.motions and not new.flips and not new.pass_start:
        stretches[-1] = Stretch(
            last.first, last.picks + new.picks, last.motions, last.flips, last.pass_start
        )
    else:
        stretches.append(new)


def _flat(steps: Sequence[Step]) -> Iterator[Turns | Flip]:
    for step in steps:
        if isinstance(step, Repeat):
            for _ in range(step.times):
                yield from _flat(step.steps)
        else:
            yield step


def _motion(course: str, moves: Sequence[Move]) -> str:
    """What a course does in a step: its own move, else the rest's, else the whole pack's."""
    by_group = {move.group: move.motion for move in moves}
    if course and course in by_group:
        return by_group[course]
    return by_group.get(REST, by_group.get(WHOLE_PACK, "idle"))


def turns_both_ways(stretches: Sequence[Stretch]) -> bool:
    """True when any course changes its motion or is flipped by the plan: a pattern of turning."""
    return any(s.flips or s.motions != stretches[0].motions for s in stretches)


@dataclass(frozen=True, slots=True)
class Trace:
    """Twist of one course beyond the tablets, in turns of the tablet (not full turns).

    ``picks`` and ``twist`` are the corners of a line of straight pieces, from pick 0. The sign is
    that of the turning as first threaded: + for forward before any flip.
    """

    picks: tuple[int, ...]
    twist: tuple[int, ...]


def traces(stretches: Sequence[Stretch], courses: int) -> tuple[Trace, ...]:
    """The twist of each course along the plan, flips of the plan included.

    To the cloth and to the warp a flip is the same as reversing the turn. Courses that do the same
    share one and the same trace.
    """
    flipped: list[set[int]] = [set() for _ in range(courses)]
    for place, stretch in enumerate(stretches):
        for course in stretch.flips:
            flipped[course].add(place)
    picks = (0, *(stretch.last for stretch in stretches))
    known: dict[tuple[tuple[str, ...], frozenset[int]], Trace] = {}
    found = []
    for motions, flips in zip(_columns(stretches), flipped, strict=True):
        key = (motions, frozenset(flips))
        if key not in known:
            sign, twist, twists = 1, 0, [0]
            for place, (motion, stretch) in enumerate(zip(motions, stretches, strict=True)):
                sign = -sign if place in flips else sign
                twist += sign * SIGN[motion] * stretch.picks
                twists.append(twist)
            known[key] = Trace(picks, tuple(twists))
        found.append(known[key])
    return tuple(found)


def _columns(stretches: Sequence[Stretch]) -> list[tuple[str, ...]]:
    """What each course does, stretch by stretch."""
    return list(zip(*(stretch.motions for stretch in stretches), strict=True))


def turning_shares(stretches: Sequence[Stretch]) -> tuple[float, ...]:
    """Share of the picks in which each course turns (is not idle)."""
    total = sum(s.picks for s in stretches)
    known: dict[tuple[str, ...], float] = {}
    for motions in (columns := _columns(stretches)):
        if motions not in known:
            turned = (s.picks for m, s in zip(motions, stretches, strict=True) if m != "idle")
            known[motions] = fsum(turned) / total
    return tuple(known[motions] for motions in columns)
