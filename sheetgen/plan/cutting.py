"""Cutting: takes lengths wanted and the length of a ball, gives which to cut from which ball.

One-dimensional cutting of alike balls. All lengths are whole mm, so that sums are exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

Counts = tuple[int, ...]
"""How many of each length, in the order of the lengths."""

MOST_LOOKED_AT = 15_000
"""Ways of going on that are looked at in search of fewer balls: well below a second."""


@dataclass(frozen=True, slots=True)
class Ball:
    """What is cut from one ball of ``whole`` mm, by the order of the lengths."""

    whole: int
    counts: Counts
    left: int


@dataclass(frozen=True, slots=True)
class Cutting:
    """All balls, those cut alike together; ``least`` is a number of balls that none can beat.

    ``proven`` is True when no way of cutting needs fewer balls.
    """

    lengths: tuple[int, ...]
    balls: tuple[Ball, ...]
    least: int
    proven: bool

    @property
    def left(self) -> int:
        """What is left on all balls, mm."""
        return sum(ball.left for ball in self.balls)

    @property
    def left_at_least(self) -> int:
        """What must be left with the least number of balls, mm."""
        whole = self.balls[0].whole if self.balls else 0
        used = sum(ball.whole - ball.left for ball in self.balls)
        return max(0, self.least * whole - used)

    @property
    def alike(self) -> tuple[tuple[int, Ball], ...]:
        """How many balls are cut in each way."""
        return tuple((len(list(same)), ball) for ball, same in groupby(self.balls))


def cut_from_balls(wanted: Sequence[tuple[int, int]], whole: int) -> Cutting:
    """Share (length, number) out over the fewest balls of ``whole`` mm that can be found.

    Longest first into the fullest ball that takes it, which never needs more than 11/9 of the
    fewest balls and four (D. S. Johnson, Near-optimal bin packing algorithms, 1973); where that
    misses the bound, all ways are searched as far as :data:`MOST_LOOKED_AT` goes. ValueError for a
    length that no ball holds.

    >>> cutting = cut_from_balls([(6, 2), (4, 3)], 10)
    >>> len(cutting.balls), cutting.least, cutting.proven
    (3, 3, True)
    """
    lengths = tuple(sorted({mm for mm, n in wanted if n}, reverse=True))
    demand = tuple(sum(n for mm, n in wanted if mm == length) for length in lengths)
    if not lengths:
        return Cutting((), (), 0, True)
    if lengths[0] > whole or lengths[-1] <= 0:
        raise ValueError(f"{lengths[0]} mm cannot be cut from {whole} mm")
    found = best_fit(lengths, demand, whole)
    least = least_balls(lengths, demand, whole)
    proven = len(found) == least
    if not proven:
        better, proven = _search(lengths, demand, whole, len(found), least)
        found = better or found
        least = len(found) if proven else least
    balls = [Ball(whole, counts, whole - _sum(lengths, counts)) for counts in found]
    balls.sort(key=lambda ball: (ball.left, ball.counts))
    return Cutting(lengths, tuple(balls), least, proven)


def best_fit(lengths: Counts, demand: Counts, whole: int) -> list[Counts]:
    """Longest first, each into the ball with the least room that takes it."""
    room: list[int] = []
    held: list[list[int]] = []
    for kind, (length, number) in enumerate(zip(lengths, demand, strict=True)):
        left = number
        # The ball with the least room goes on having the least, so it is filled before the next.
        for at in sorted(range(len(room)), key=room.__getitem__):
            left -= _put(room, held, at, kind, length, left)
        while left:
            room.append(whole)
            held.append([0] * len(lengths))
            left -= _put(room, held, len(room) - 1, kind, length, left)
    return [tuple(counts) for counts in held]


def _put(room: list[int], held: list[list[int]], at: int, kind: int, length: int, left: int) -> int:
    """Cut as many of a length from one ball as it has room for; how many."""
    number = min(left, room[at] // length)
    room[at] -= number * length
    held[at][kind] += number
    return number


def least_balls(lengths: Counts, demand: Counts, whole: int) -> int:
    """No way needs fewer: by the sum, and by lengths of which no two go on one ball.

    S. Martello and P. Toth, Knapsack Problems, 1990, section 8.3, bound L2: for every a up to half
    a ball, lengths over ``whole - a`` need a ball each, as do those over half; of the rest down to
    a, what does not fit beside the latter needs more.

    >>> least_balls((6, 4), (3, 2), 10), least_balls((7,), (3,), 10)
    (3, 3)
    """
    pairs = list(zip(lengths, demand, strict=True))
    best = -(-_sum(lengths, demand) // whole)
    for a in (0, *(mm for mm in lengths if 2 * mm <= whole)):
        alone = sum(n for mm, n in pairs if mm > whole - a)
        large = [(mm, n) for mm, n in pairs if whole - a >= mm > whole / 2]
        small = sum(mm * n for mm, n in pairs if whole / 2 >= mm >= a)
        room = sum((whole - mm) * n for mm, n in large)
        more = max(0, -(-(small - room) // whole))
        best = max(best, alone + sum(n for _, n in large) + more)
    return best


def _sum(lengths: Counts, counts: Counts) -> int:
    return sum(mm * n for mm, n in zip(lengths, counts, strict=True))


def _search(
    lengths: Counts, demand: Counts, whole: int, best: int, least: int
) -> tuple[list[Counts] | None, bool]:
    """Fewer than ``best`` balls, if there are such, and whether the search came to its end.

    Ball by ball; each takes the longest length still wanted and then all that it can hold, since
    leaving room for a length still wanted never saves a ball. What is still wanted after so many
    balls need be met only once.
    """
    layer: dict[Counts, tuple[Counts, ...]] = {demand: ()}
    looked = 0
    for balls in range(1, best):
        following: dict[Counts, tuple[Counts, ...]] = {}
        for wanted, taken in layer.items():
            for pattern in _fullest(lengths, wanted, whole):
                looked += 1
                if looked > MOST_LOOKED_AT:
                    return None, False
                rest = tuple(w - p for w, p in zip(wanted, pattern, strict=True))
                if not any(rest):
                    return [*taken, pattern], True
                if balls + least_balls(lengths, rest, whole) < best:
                    following.setdefault(rest, (*taken, pattern))
        layer = following
    return None, True


def _fullest(lengths: Counts, wanted: Counts, whole: int) -> list[Counts]:
    """Every way to fill a ball that holds the longest length wanted and has room for no other."""
    first = next(i for i, n in enumerate(wanted) if n)
    found: list[Counts] = []
    waiting: list[tuple[Counts, int]] = [((0,) * first, whole)]
    while waiting:
        counts, room = waiting.pop()
        kind = len(counts)
        if kind == len(lengths):
            if all(c == w or mm > room for mm, c, w in zip(lengths, counts, wanted, strict=True)):
                found.append(counts)
            continue
        most = min(wanted[kind], room // lengths[kind])
        for n in range(1 if kind == first else 0, most + 1):
            waiting.append(((*counts, n), room - n * lengths[kind]))
    return found
