"""Surface: takes pack, turning and interventions, gives the thread that shows, pick by pick.

The thread on the face at a turn is the one that crosses the top of the tablet: forward, the one
at the near top before the turn; backward, the one at the far top before it. A flip makes the next
forward turn what a backward turn was.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from sheetgen.plan.pack import Pack, Tablet
from sheetgen.plan.turning import SIGN, Stretch

Slant = Literal["S", "Z", "none"]


@dataclass(frozen=True, slots=True)
class Cell:
    """What one tablet shows at one pick.

    ``hole`` is the position (from 0) of the hole whose thread shows, ``yarn`` its yarn or None if
    that hole is empty (the weft shows), ``slant`` that of the thread on the face; ``none`` where
    the tablet was idle and the last float runs on.
    """

    hole: int
    yarn: str | None
    slant: Slant


def turned_slant(threaded: str, turn: int) -> Slant:
    """Hand of the cord that a tablet twists: S-threaded turned forward (+1) gives Z.

    ``turn`` is +1 or -1 as first threaded, 0 for idle. ISO 2 for the letters.
    """
    if turn == 0:
        return "none"
    return "Z" if (threaded == "S") == (turn > 0) else "S"


def effective_turns(
    stretches: Sequence[Stretch], course: int, flips_at: Sequence[int], first: int, last: int
) -> Iterator[int]:
    """+1, -1 or 0 a pick for picks ``first`` to ``last`` - 1, all flips included.

    ``flips_at`` are the picks (ascending) before which the whole pack is flipped.
    """
    sign = 1
    for stretch in stretches:
        if course in stretch.flips:
            sign = -sign
        turn = sign * SIGN[stretch.motions[course]]
        for pick in range(max(first, stretch.first), min(last, stretch.last)):
            flipped = bisect_right(flips_at, pick) % 2
            yield -turn if flipped else turn


def tablet_column(tablet: Tablet, turns: Sequence[int]) -> list[Cell]:
    """What the tablet shows at each of ``turns``, starting with hole A at the near top."""
    holes = len(tablet.holes)
    near, cells = 0, list[Cell]()
    shown = (near - 1) % holes
    for turn in turns:
        if turn > 0:
            shown, near = near, (near + 1) % holes
        elif turn < 0:
            shown = near = (near - 1) % holes
        cells.append(Cell(shown, tablet.holes[shown], turned_slant(tablet.threaded, turn)))
    return cells


def surface(
    pack: Pack, stretches: Sequence[Stretch], flips_at: Sequence[int], picks: int
) -> list[list[Cell]]:
    """The first ``picks`` picks: one list a tablet, left to right, one cell a pick."""
    courses = list(pack.groups)
    turns = [list(effective_turns(stretches, i, flips_at, 0, picks)) for i in range(len(courses))]
    return [tablet_column(t, turns[courses.index(t.group)]) for t in pack.tablets]


def top_holes(
    pack: Pack, stretches: Sequence[Stretch], flips_at: Sequence[int], pick: int
) -> list[int]:
    """Hole (from 0) at the near top of every tablet once ``pick`` picks are woven.

    After an odd number of flips near and far have changed places.
    """
    courses = list(pack.groups)
    all_flips = bisect_right(flips_at, pick)
    found = []
    for course in range(len(courses)):
        own = sum(course in s.flips for s in stretches if s.first <= pick)
        near = net_turns(stretches, course, flips_at, pick)
        found.append((near - (own + all_flips) % 2) % pack.holes)
    return [found[courses.index(t.group)] for t in pack.tablets]


def net_turns(stretches: Sequence[Stretch], course: int, flips_at: Sequence[int], pick: int) -> int:
    """Turns forward less turns backward in the first ``pick`` picks, as first threaded."""
    net, sign = 0, 1
    for stretch in stretches:
        if stretch.first >= pick:
            break
        if course in stretch.flips:
            sign = -sign
        last = min(stretch.last, pick)
        turned = _unflipped(flips_at, last) - _unflipped(flips_at, stretch.first)
        net += sign * SIGN[stretch.motions[course]] * turned
    return net


def _unflipped(flips_at: Sequence[int], pick: int) -> int:
    """Of the first ``pick`` picks, those after an even number of flips less the others."""
    total, start, sign = 0, 0, 1
    for at in (*flips_at[: bisect_right(flips_at, pick)], pick):
        total += sign * (at - start)
        start, sign = at, -sign
    return total


@dataclass(frozen=True, slots=True)
class State:
    """One tablet once a pick is woven and what stands behind that pick is done.

    ``top`` is the hole (from 0) at the near top, ``twist`` the full turns beyond the tablet:
    positive as forward turns before any flip give it, S for an S-threaded tablet (the hand
    opposite to the cloth's), Z for a Z-threaded one.
    """

    cell: Cell
    top: int
    twist: float


def history(
    pack: Pack,
    tablet: Tablet,
    stretches: Sequence[Stretch],
    flips_at: Sequence[int],
    lets_out_at: Sequence[int] = (),
) -> Iterator[State]:
    """Every pick of one tablet in order: what shows, the hole on top, the twist beyond it."""
    course = list(pack.groups).index(tablet.group)
    picks = stretches[-1].last
    turns = list(effective_turns(stretches, course, flips_at, 0, picks))
    own = [s.first for s in stretches if course in s.flips]
    near, twist, flips = 0, 0, 0
    for pick, (turn, cell) in enumerate(
        zip(turns, tablet_column(tablet, turns), strict=True), start=1
    ):
        near, twist = near + turn, twist + turn
        if pick in lets_out_at:
            twist = 0
        flips = bisect_right(own, pick) + bisect_right(flips_at, pick)
        yield State(cell, (near - flips % 2) % pack.holes, twist / pack.holes)
