"""Fillings: takes the wanted string and the beads at hand, gives strings that can be made of them.

A run is a row of beads of one wanted kind with nothing between them; the rhythm of a string is
its runs, which are kept. A kind at hand stands for one wanted kind only. Compared one after the
other, least first: :data:`ORDER`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, product

from sheetgen.model.beads import BeadKind
from sheetgen.plan.beads import BeadString, bead_length, hole_verdict
from sheetgen.plan.filler import Option, Solved, solve

ORDER = (
    "fewest beads wanting",
    "most beads exact",
    "the length of each run of beads nearest to the wanted one",
    "the whole length nearest to the wanted one",
    "fewest runs of mixed kinds",
    "likest in diameter, shape, material and colour",
)
"""What makes one filling better than another, first things first."""
WAYS = ("exact", "nearest", "mixed")
EXACT = 0.25
"""mm by which length and diameter may differ and still be called exact: less than can be felt."""
LIKE = 0.3
"""A bead that differs by more than this share (and 2 mm) in size stands for nothing."""
MOST_OPTIONS = 4
_MOST_OWNERS = 256


@dataclass(frozen=True, slots=True)
class Run:
    """``count`` beads of the wanted kind in a row."""

    kind: str
    count: int


@dataclass(frozen=True, slots=True)
class Filling:
    """What is strung in each run, in order; lengths in mm, wanting beads as an empty name."""

    way: str
    runs: tuple[tuple[tuple[str, int], ...], ...]
    wanting: int
    exact: int
    runs_off: float
    total_off: float
    mixed: int

    @property
    def counts(self) -> dict[str, int]:
        """Kind at hand -> beads of one string."""
        found: dict[str, int] = {}
        for name, count in (pair for run in self.runs for pair in run):
            if name:
                found[name] = found.get(name, 0) + count
        return found


def runs_of(string: BeadString) -> tuple[Run, ...]:
    """The runs of a string, parted by other kinds, gaps and knots."""
    rows = groupby(string.placed, key=lambda p: p.kind.name if p.kind else "")
    return tuple(Run(name, sum(1 for _ in row)) for name, row in rows if name)


def is_exact(bead: BeadKind, wanted: BeadKind) -> bool:
    """True when nobody could feel the difference: sizes within 0.25 mm, the same outline."""
    return (
        abs(bead_length(bead) - bead_length(wanted)) <= EXACT + 1e-9
        and abs(bead.diameter - wanted.diameter) <= EXACT + 1e-9
        and bead.shape == wanted.shape
    )


def option_of(bead: BeadKind, wanted: BeadKind, pieces: int) -> Option:
    """A bead at hand in the place of a wanted one; lengths in hundredths of a millimetre."""
    differs = sum(
        getattr(bead, key) != getattr(wanted, key) for key in ("shape", "material", "colour")
    )
    unlike = round(100 * abs(bead.diameter - wanted.diameter)) + 10 * differs
    off = round(100 * (bead_length(bead) - bead_length(wanted)))
    left = None if bead.at_hand is None else bead.at_hand // pieces
    return Option(bead.name, off, is_exact(bead, wanted), unlike, left)


def options_for(
    wanted: BeadKind, at_hand: Sequence[BeadKind], cord: float, strands: int, pieces: int
) -> tuple[Option, ...]:
    """The likest beads at hand whose holes the cord passes, the likest first."""
    limit = max(2.0, LIKE * max(wanted.diameter, bead_length(wanted)))
    found = [
        option_of(bead, wanted, pieces)
        for bead in at_hand
        if hole_verdict(bead.hole, cord, strands) != "will not pass"
        and abs(bead.diameter - wanted.diameter) <= limit
        and abs(bead_length(bead) - bead_length(wanted)) <= limit
    ]
    ranked = sorted(found, key=lambda o: (not o.exact, abs(o.off) + o.unlike, o.name))
    return tuple(o for o in ranked if o.left != 0)[:MOST_OPTIONS]


def fillings(
    string: BeadString,
    kinds: Sequence[BeadKind],
    at_hand: Sequence[BeadKind],
    cord: float,
    strands: int,
    pieces: int = 1,
) -> tuple[Filling, ...]:
    """The best filling of each way, over the likest kinds at hand. Exact among those."""
    runs = runs_of(string)
    wanted = {k.name: k for k in kinds if any(run.kind == k.name for run in runs)}
    options = {
        name: options_for(kind, at_hand, cord, strands, pieces) for name, kind in wanted.items()
    }
    exact = {name: tuple(o for o in os if o.exact) for name, os in options.items()}
    singles: list[Owned] = [
        {
            name: tuple(o for o in (option,) if o)
            for name, option in zip(options, picked, strict=True)
        }
        for picked in product(*((*os[:MOST_OPTIONS], None) for os in options.values()))
        if len({o.name for o in picked if o}) == sum(o is not None for o in picked)
    ][: 4 * _MOST_OWNERS]
    return (
        best_of("exact", runs, owned(exact)),
        best_of("nearest", runs, singles),
        best_of("mixed", runs, owned(options)),
    )


Owned = dict[str, tuple[Option, ...]]


def owned(options: Owned) -> list[Owned]:
    """Every way of giving each kind at hand to one of the wanted kinds that it may stand for."""
    who: dict[str, list[str]] = {}
    for name, found in options.items():
        for option in found:
            who.setdefault(option.name, []).append(name)
    owners = [
        dict(zip(who, given, strict=True))
        for given, _ in zip(product(*who.values()), range(_MOST_OWNERS), strict=False)
    ]
    return [
        {name: tuple(o for o in found if owner[o.name] == name) for name, found in options.items()}
        for owner in owners
    ]


def best_of(way: str, runs: Sequence[Run], choices: Sequence[Owned]) -> Filling:
    """The best filling of several ways of sharing the beads out."""
    memo: dict[tuple[str, tuple[Option, ...]], dict[int, Solved]] = {}
    best: tuple[tuple[int, ...], dict[str, Solved]] | None = None
    for choice in choices:
        solved = {}
        for name, options in choice.items():
            key = (name, options)
            if key not in memo:
                memo[key] = solve([r.count for r in runs if r.kind == name], options)
            solved[name] = memo[key]
        found = _together(solved)
        if best is None or found[0] < best[0]:
            best = found
    assert best is not None, "a string has at least one way of sharing out"
    return _filling(way, runs, best[1])


def _together(solved: dict[str, dict[int, Solved]]) -> tuple[tuple[int, ...], dict[str, Solved]]:
    """The wanted kinds together: of equal runs the length that lies nearest to the wanted one."""
    sums: dict[int, tuple[tuple[int, ...], dict[str, Solved]]] = {0: ((0,) * 5, {})}
    for name, by_length in solved.items():
        longer: dict[int, tuple[tuple[int, ...], dict[str, Solved]]] = {}
        for off, (cost, parts) in sums.items():
            for more, one in by_length.items():
                total = tuple(a + b for a, b in zip(cost, one.cost, strict=True))
                if off + more not in longer or total < longer[off + more][0]:
                    longer[off + more] = (total, {**parts, name: one})
        sums = longer
    ranked = (((*cost[:3], abs(off), *cost[3:]), off, parts) for off, (cost, parts) in sums.items())
    cost, _, parts = min(ranked, key=lambda r: (r[0], r[1]))
    return cost, parts


def _filling(way: str, runs: Sequence[Run], solved: dict[str, Solved]) -> Filling:
    rows = {name: iter(one.runs) for name, one in solved.items()}
    strung = tuple(next(rows[run.kind]) for run in runs)
    wanting, inexact, runs_off, mixed, _ = (
        sum(one.cost[i] for one in solved.values()) for i in range(5)
    )
    beads = sum(run.count for run in runs)
    total = sum(one.off for one in solved.values())
    return Filling(way, strung, wanting, beads - inexact, runs_off / 100, total / 100, mixed)


def spread(row: Sequence[tuple[str, int]]) -> tuple[tuple[str, int], ...]:
    """The beads of one run, those of each kind spread as evenly as can be.

    >>> spread((("a", 4), ("b", 1)))
    (('a', 2), ('b', 1), ('a', 2))
    """
    places = sorted(((i + 0.5) / n, name) for name, n in row for i in range(n))
    names = [name for _, name in places]
    return tuple((name, sum(1 for _ in same)) for name, same in groupby(names))
