"""Fillings: takes the wanted string and the beads at hand, gives strings that can be made of them.

A run is a row of beads of one wanted kind with nothing between them; the rhythm of a string is
its runs, which are kept. A kind at hand stands for one wanted kind only. Compared one after the
other, least first: :data:`ORDER`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby

from sheetgen.model.beads import BeadKind
from sheetgen.plan.beads import BeadString, bead_length, hole_verdict
from sheetgen.plan.filler import WANTING, Option, Row, Solved, solve
from sheetgen.plan.sharings import Owned, Run, can_be_mixed, can_be_single, likest, owned, singles

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
    left_out: tuple[str, ...] = ()
    """Kinds at hand, the least like, which the search had no time for: at most put where others
    were wanting."""

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
    """The beads at hand that are like the wanted one and let the cord pass, the likest first."""
    limit = max(2.0, LIKE * max(wanted.diameter, bead_length(wanted)))
    found = [
        option_of(bead, wanted, pieces)
        for bead in at_hand
        if hole_verdict(bead.hole, cord, strands) != "will not pass"
        and abs(bead.diameter - wanted.diameter) <= limit
        and abs(bead_length(bead) - bead_length(wanted)) <= limit
    ]
    ranked = sorted(found, key=lambda o: (not o.exact, abs(o.off) + o.unlike, o.name))
    return tuple(o for o in ranked if o.left != 0)


def fillings(
    string: BeadString,
    kinds: Sequence[BeadKind],
    at_hand: Sequence[BeadKind],
    cord: float,
    strands: int,
    pieces: int = 1,
) -> tuple[Filling, ...]:
    """The best filling of each way: exact, but for the kinds that it says were left out."""
    runs = runs_of(string)
    wanted = {k.name: k for k in kinds if any(run.kind == k.name for run in runs)}
    options = {
        name: options_for(kind, at_hand, cord, strands, pieces) for name, kind in wanted.items()
    }
    exact = {name: tuple(o for o in os if o.exact) for name, os in options.items()}
    found = []
    for way, of, choices, fits in (
        ("exact", exact, owned, can_be_mixed),
        ("nearest", options, singles, can_be_single),
        ("mixed", options, owned, can_be_mixed),
    ):
        tried = likest(of, partial(fits, runs))
        left_out = {o.name for os in of.values() for o in os}
        left_out -= {o.name for os in tried.values() for o in os}
        rows: Sequence[Row] = best_of(runs, choices(tried))
        if left_out and way != "nearest":
            rows = _topped_up(runs, rows, of)
        filling = _filling(way, runs, rows, of)
        found.append(replace(filling, left_out=tuple(sorted(left_out))))
    exactly, nearest, mixed = found
    return exactly, nearest, mixed


def best_of(runs: Sequence[Run], choices: Sequence[Owned]) -> tuple[Row, ...]:
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
    return _strung(runs, best[1])


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


def _strung(runs: Sequence[Run], solved: dict[str, Solved]) -> tuple[Row, ...]:
    rows = {name: iter(one.runs) for name, one in solved.items()}
    return tuple(next(rows[run.kind]) for run in runs)


def _filling(way: str, runs: Sequence[Run], rows: Sequence[Row], options: Owned) -> Filling:
    """What is strung, with its differences."""
    of = {(kind, o.name): o for kind, found in options.items() for o in found}
    wanting = exact = runs_off = total = mixed = 0
    for run, row in zip(runs, rows, strict=True):
        beads = [(n, of[run.kind, name]) for name, n in row if name]
        off = sum(n * o.off for n, o in beads)
        wanting += run.count - sum(n for n, _ in beads)
        exact += sum(n for n, o in beads if o.exact)
        runs_off, total, mixed = runs_off + abs(off), total + off, mixed + (len(beads) > 1)
    return Filling(way, tuple(rows), wanting, exact, runs_off / 100, total / 100, mixed)


def _topped_up(runs: Sequence[Run], rows: Sequence[Row], options: Owned) -> list[Row]:
    """Kinds that stand nowhere yet in the places that are wanting, the likest first."""
    strung = {name for row in rows for name, _ in row}
    owner: dict[str, str] = {}
    left = {o.name: o.left for found in options.values() for o in found if o.name not in strung}
    found = []
    for run, row in zip(runs, rows, strict=True):
        beads, wanting = dict(row), dict(row).get(WANTING, 0)
        for option in options[run.kind]:
            there = left.get(option.name, 0)
            if owner.get(option.name, run.kind) != run.kind or there == 0 or not wanting:
                continue
            taken = wanting if there is None else min(wanting, there)
            owner[option.name], wanting = run.kind, wanting - taken
            beads[option.name], beads[WANTING] = beads.get(option.name, 0) + taken, wanting
            if there is not None:
                left[option.name] = there - taken
        found.append(tuple((name, n) for name, n in beads.items() if n))
    return found
