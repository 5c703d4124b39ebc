"""A filling into the description: takes what is strung in each run, changes kinds and order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby, islice

from sheetgen.cli.chest import Pair
from sheetgen.cli.run import file_error
from sheetgen.cli.taking import as_meant, bead_values, by_hand, taken_bead
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.beads import BeadKind, BeadRepeat, Gap, OrderItem, Strung
from sheetgen.plan.beads import BeadString
from sheetgen.plan.filler import spread
from sheetgen.plan.fillings import Filling, runs_of
from sheetgen.read.edits import CannotEdit, with_entry, with_sequence, with_values

Names = dict[tuple[str, str], str]
"""Wanted kind and bead at hand -> the name of the kind in the description afterwards."""
KINDS, ORDER = ("beads", "kinds"), ("beads", "order")


def filled(pair: Pair, string: BeadString, filling: Filling) -> bytes | Diagnostic:
    """The description's bytes with the filling in the place of the wanted string; or why not.

    The bead that stands most often for a wanted kind takes its name, the others get kinds of their
    own. Where beads are wanting, the wanted kind stays for them.
    """
    project, data = pair.project, pair.about.data
    beads = project.beads
    assert beads is not None, "only a string is filled"
    if not filling.counts:
        return file_error("nothing-at-hand", "no bead at hand stands for one of this string")
    olds = {kind.name: kind for kind in beads.kinds}
    names = _names(string, filling, tuple(olds))
    order = tuple(_anew(beads.order, _strung(string, filling, names)))
    kinds: dict[str, BeadKind] = dict(olds)
    try:
        for (wanted, at_hand), name in names.items():
            bead = pair.stash.bead(at_hand)
            assert bead is not None, "what is strung is in the stash"
            kinds[name] = replace(taken_bead(olds[wanted], bead), name=name)
            values = bead_values(pair.about.data, pair.chest.data, bead, olds[wanted])
            if name == wanted:
                data = with_values(data, (*KINDS, name), values)
            else:
                data = with_entry(data, KINDS, name, values)
        if order != beads.order:
            data = with_sequence(data, ORDER, [_written(item) for item in order])
    except CannotEdit as problem:
        return by_hand(str(problem), f"write it yourself: {_said(order, names)}")
    after = replace(beads, kinds=tuple(kinds.values()), order=order)
    return as_meant(pair.about.data, data, replace(project, beads=after))


def _names(string: BeadString, filling: Filling, taken: Sequence[str]) -> Names:
    """What each bead at hand is called in the description, no name twice."""
    counts: Counter[tuple[str, str]] = Counter()
    for run, row in zip(runs_of(string), filling.runs, strict=True):
        counts.update({(run.kind, name): n for name, n in row})
    wanting = {kind for kind, name in counts if not name}
    found: Names = {}
    used = set(taken)
    for (kind, name), _ in counts.most_common():
        if not name:
            continue
        if kind not in wanting and kind not in found.values():
            found[kind, name] = kind
            continue
        own = name
        while own in used:
            own = f"{own}-at-hand"
        used.add(own)
        found[kind, name] = own
    return found


def _strung(string: BeadString, filling: Filling, names: Names) -> Iterator[str]:
    """The kind of every bead in order."""
    for run, row in zip(runs_of(string), filling.runs, strict=True):
        for name, n in spread(row):
            for _ in range(n):
                yield names[run.kind, name] if name else run.kind


def _anew(items: Sequence[OrderItem], strung: Iterator[str]) -> Iterator[OrderItem]:
    """The order with other beads; repeats stay as far as they are alike."""
    for item in items:
        if isinstance(item, Strung):
            for kind, same in groupby(islice(strung, item.count)):
                yield Strung(kind, sum(1 for _ in same))
        elif isinstance(item, BeadRepeat):
            rounds = [tuple(_anew(item.items, strung)) for _ in range(item.times)]
            for one, alike in groupby(rounds):
                times = sum(1 for _ in alike)
                if times > 1:
                    yield BeadRepeat(times, one)
                else:
                    yield from one
        else:
            yield item


def _written(item: OrderItem) -> str:
    """An item as it stands in a description.

    >>> _written(BeadRepeat(2, (Strung("six", 3), Strung("nine", 1), Gap(2.5))))
    '{repeat: 2, of: [3 six, nine, gap 2.5 mm]}'
    """
    if isinstance(item, Strung):
        return f"{item.count} {item.kind}" if item.count > 1 else item.kind
    if isinstance(item, BeadRepeat):
        inside = ", ".join(_written(part) for part in item.items)
        return f"{{repeat: {item.times}, of: [{inside}]}}"
    return f"gap {item.length:.12g} mm" if isinstance(item, Gap) else "knot"


def _said(order: Sequence[OrderItem], names: Names) -> str:
    called = [f"{name} is {bead} of the stash" for (_, bead), name in names.items()]
    return f"order: [{', '.join(map(_written, order))}], where {', '.join(called)}"
