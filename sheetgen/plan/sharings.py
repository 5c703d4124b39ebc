"""Sharings: takes kinds at hand and what each may stand for, gives who stands for whom."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from sheetgen.plan.filler import Option, steps

MOST_SHARINGS = 256
"""Ways of giving the kinds at hand to the wanted kinds that are gone through."""
MOST_OPTIONS = 300
"""Kinds at hand that are looked at for a wanted one; no drawer holds as many that are like it."""
MOST_STEPS = 3_000_000
"""Steps that are worth waiting for, about a second; beyond them the least like kinds stay out."""

Owned = dict[str, tuple[Option, ...]]
"""Wanted kind -> the kinds at hand that may stand for it, the likest first."""


@dataclass(frozen=True, slots=True)
class Run:
    """``count`` beads of the wanted kind in a row."""

    kind: str
    count: int


def likest(options: Owned, fits: Callable[[Owned], bool]) -> Owned:
    """As many of the likest options of each wanted kind as there is time for."""
    fit, no_fit = 1, 1 + min(MOST_OPTIONS, max(map(len, options.values()), default=0))
    while no_fit - fit > 1:  # halving: what takes too long with some takes longer with more
        most = (fit + no_fit) // 2
        if fits({name: found[:most] for name, found in options.items()}):
            fit = most
        else:
            no_fit = most
    return {name: found[:fit] for name, found in options.items()}


def can_be_mixed(runs: Sequence[Run], options: Owned) -> bool:
    """True when every sharing out can be gone through in good time."""
    who = Counter(o.name for found in options.values() for o in found)
    if prod(who.values()) > MOST_SHARINGS:
        return False
    work = 0
    for name, found in options.items():
        shared = sum(who[o.name] > 1 for o in found)
        counts = [run.count for run in runs if run.kind == name]
        work += 2**shared * steps(counts, found)
    return work <= MOST_STEPS


def can_be_single(runs: Sequence[Run], options: Owned) -> bool:
    """The same where one kind at hand stands for each wanted one."""
    return prod(len(found) + 1 for found in options.values()) <= 4 * MOST_SHARINGS


def singles(options: Owned) -> list[Owned]:
    """Every way of giving each wanted kind one kind at hand or none, none of them twice."""
    return [
        {
            name: tuple(o for o in (option,) if o)
            for name, option in zip(options, picked, strict=True)
        }
        for picked in product(*((*found, None) for found in options.values()))
        if len({o.name for o in picked if o}) == sum(o is not None for o in picked)
    ]


def owned(options: Owned) -> list[Owned]:
    """Every way of giving each kind at hand to one of the wanted kinds that it may stand for."""
    who: dict[str, list[str]] = {}
    for name, found in options.items():
        for option in found:
            who.setdefault(option.name, []).append(name)
    owners = [dict(zip(who, given, strict=True)) for given in product(*who.values())]
    return [
        {name: tuple(o for o in found if owner[o.name] == name) for name, found in options.items()}
        for owner in owners
    ]
