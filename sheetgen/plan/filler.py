"""Filler: takes the runs of one wanted kind and the beads that may stand for it, shares them out.

Dynamic programming along the runs; a state is how many of each option have been used.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import comb

WANTING = ""
"""The name of beads that are not there."""
MOST_STEPS = 150_000
"""Steps that are worth waiting for; beyond them the least like options are left out."""

Cost = tuple[int, int, int, int, int]
"""Beads wanting, beads not exact, runs' length off (1/100 mm), mixed runs, unlikeness."""
Row = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Option:
    """A kind at hand for a wanted one: ``off`` in 1/100 mm longer, ``left`` None if no end."""

    name: str
    off: int
    exact: bool
    unlike: int
    left: int | None


@dataclass(frozen=True, slots=True)
class Solved:
    """One way of filling all runs of a kind: ``off`` of all runs together, 1/100 mm."""

    cost: Cost
    off: int
    runs: tuple[Row, ...]


def solve(counts: Sequence[int], options: Sequence[Option]) -> dict[int, Solved]:
    """Length off (1/100 mm) -> the best filling with it, of those that are best in their runs."""
    total = sum(counts)
    while len(options) > 1 and _steps(counts, options) > MOST_STEPS:
        options = options[:-1]
    caps = [total if o.left is None else min(o.left, total) for o in options]
    short = max(0, total - sum(caps))
    every = [*options, *([Option(WANTING, 0, False, 0, None)] if short else [])]
    caps += [short] if short else []
    least = max(0, total - sum(c for o, c in zip(every, caps, strict=True) if o.exact))
    states: dict[tuple[int, ...], tuple[Cost, tuple[Row, ...]]]
    states = {(0,) * len(every): ((0, 0, 0, 0, 0), ())}
    for count in counts:
        after: dict[tuple[int, ...], tuple[Cost, tuple[Row, ...]]] = {}
        for used, (cost, rows) in states.items():
            for taken in shares(count, [c - u for c, u in zip(caps, used, strict=True)]):
                now = _add(cost, taken, every)
                if now[1] > least:
                    continue
                key = tuple(u + t for u, t in zip(used, taken, strict=True))
                if key not in after or now < after[key][0]:
                    row = tuple((o.name, t) for o, t in zip(every, taken, strict=True) if t)
                    after[key] = (now, (*rows, row))
        states = after
    return _best(states, every)


def _best(
    states: dict[tuple[int, ...], tuple[Cost, tuple[Row, ...]]], every: Sequence[Option]
) -> dict[int, Solved]:
    least = min(cost[:3] for cost, _ in states.values())
    found: dict[int, Solved] = {}
    for used, (cost, rows) in sorted(states.items(), key=lambda s: (s[1][0], s[0])):
        off = sum(n * o.off for n, o in zip(used, every, strict=True))
        if cost[:3] == least and off not in found:
            found[off] = Solved(cost, off, rows)
    return found


def _add(cost: Cost, taken: Sequence[int], every: Sequence[Option]) -> Cost:
    pairs = [(n, o) for n, o in zip(taken, every, strict=True) if n]
    wanting = sum(n for n, o in pairs if o.name == WANTING)
    inexact = sum(n for n, o in pairs if not o.exact)
    off = abs(sum(n * o.off for n, o in pairs))
    mixed = len([o for _, o in pairs if o.name != WANTING]) > 1
    unlike = sum(n * o.unlike for n, o in pairs)
    return (cost[0] + wanting, cost[1] + inexact, cost[2] + off, cost[3] + mixed, cost[4] + unlike)


def shares(count: int, room: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Every way of making up ``count`` with at most so many of each.

    >>> list(shares(2, [2, 1]))
    [(1, 1), (2, 0)]
    """
    if not room:
        if count == 0:
            yield ()
        return
    behind = sum(room[1:])
    for first in range(max(0, count - behind), min(count, room[0]) + 1):
        yield from ((first, *rest) for rest in shares(count - first, room[1:]))


def _steps(counts: Sequence[int], options: Sequence[Option]) -> int:
    """How many steps the sharing out may take at most."""
    kinds, done, steps = len(options), 0, 0
    for count in counts:
        ways = comb(count + kinds - 1, kinds - 1)
        steps += comb(done + kinds - 1, kinds - 1) * ways
        done += count
    return steps
