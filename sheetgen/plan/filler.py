"""Filler: takes the runs of one wanted kind and the beads that may stand for it, shares them out.

Dynamic programming along the runs; a state is how many of each option have been used.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby
from operator import add, gt, sub

WANTING = ""
"""The name of beads that are not there."""
_LISTING = 4
"""Steps to list a way of filling one run, beside one for each kind (measured, coarse)."""
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
    """Length off (1/100 mm) -> the best filling with it, of those that are best in their runs.

    Exact; :func:`steps` says beforehand what it takes.
    """
    total = sum(counts)
    caps = _caps(total, options)
    short = max(0, total - sum(caps))
    every = [*options, *([Option(WANTING, 0, False, 0, None)] if short else [])]
    caps += [short] if short else []
    if len(options) < 2:
        return _of_one(counts, every, caps)
    least = max(0, total - sum(c for o, c in zip(every, caps, strict=True) if o.exact))
    states: dict[tuple[int, ...], tuple[Cost, tuple[Row, ...]]]
    states = {(0,) * len(every): ((0, 0, 0, 0, 0), ())}
    moves = {count: _moves(count, caps, every) for count in set(counts)}
    for count in counts:
        after: dict[tuple[int, ...], tuple[Cost, tuple[Row, ...]]] = {}
        for used, (cost, rows) in states.items():
            room = tuple(map(sub, caps, used))
            for taken, more, row in moves[count]:
                if cost[1] + more[1] > least or any(map(gt, taken, room)):
                    continue
                now = tuple(map(add, cost, more))
                key = tuple(map(add, used, taken))
                if key not in after or now < after[key][0]:
                    after[key] = (now, (*rows, row))
        states = after
    return _best(states, every)


def _caps(total: int, options: Sequence[Option]) -> list[int]:
    return [total if o.left is None else min(o.left, total) for o in options]


def _moves(
    count: int, caps: Sequence[int], every: Sequence[Option]
) -> list[tuple[tuple[int, ...], Cost, Row]]:
    """Every way of filling one run, with what it costs."""
    return [(taken, _cost(taken, every), _row(taken, every)) for taken in shares(count, list(caps))]


def _row(taken: Sequence[int], every: Sequence[Option]) -> Row:
    return tuple((o.name, n) for o, n in zip(every, taken, strict=True) if n)


def _of_one(
    counts: Sequence[int], every: Sequence[Option], caps: Sequence[int]
) -> dict[int, Solved]:
    """One option or none: whichever beads are wanting, the cost is the same, so they stand last."""
    left, rows = list(caps), list[tuple[int, ...]]()
    for count in counts:
        first = min(count, left[0])
        taken = (first, *([count - first] if len(every) > 1 else []))
        left[0] -= first
        rows.append(taken)
    costs = [_cost(taken, every) for taken in rows]
    a, b, c, d, e = (sum(cost[i] for cost in costs) for i in range(5))
    off = sum(n * o.off for taken in rows for n, o in zip(taken, every, strict=True))
    return {off: Solved((a, b, c, d, e), off, tuple(_row(taken, every) for taken in rows))}


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


def _cost(taken: Sequence[int], every: Sequence[Option]) -> Cost:
    """What one run costs."""
    pairs = [(n, o) for n, o in zip(taken, every, strict=True) if n]
    wanting = sum(n for n, o in pairs if o.name == WANTING)
    inexact = sum(n for n, o in pairs if not o.exact)
    off = abs(sum(n * o.off for n, o in pairs))
    mixed = len([o for _, o in pairs if o.name != WANTING]) > 1
    unlike = sum(n * o.unlike for n, o in pairs)
    return (wanting, inexact, off, int(mixed), unlike)


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


def steps(counts: Sequence[int], options: Sequence[Option]) -> int:
    """How many steps :func:`solve` takes at most; a way of filling takes some for each kind."""
    if len(options) < 2:
        return len(counts)
    total = sum(counts)
    caps = _caps(total, options)
    if (short := total - sum(caps)) > 0:
        caps.append(short)
    ways = {count: _ways(count, caps) for count in set(counts)}
    done, found = 0, 0
    for count in counts:
        if done:
            found += _ways(done, caps) * ways[count]
        done += count
    return found + ways[counts[0]] + (_LISTING + len(caps)) * sum(ways.values())


def _ways(count: int, caps: Sequence[int]) -> int:
    """How many ways there are of making up ``count`` with at most so many of each.

    >>> _ways(2, [2, 1]), _ways(3, [3, 3, 3])
    (2, 10)
    """
    ways = [1, *[0] * count]
    for cap in caps:
        sums = [0, *accumulate(ways)]
        ways = [sums[n + 1] - sums[max(0, n - cap)] for n in range(count + 1)]
    return ways[count]


def spread(row: Sequence[tuple[str, int]]) -> tuple[tuple[str, int], ...]:
    """The beads of one run, those of each kind spread as evenly as can be, wanting ones last.

    >>> spread((("a", 4), ("b", 1)))
    (('a', 2), ('b', 1), ('a', 2))
    """
    places = sorted((not name, (i + 0.5) / n, name) for name, n in row for i in range(n))
    names = [name for *_, name in places]
    return tuple((name, sum(1 for _ in same)) for name, same in groupby(names))
