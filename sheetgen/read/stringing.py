"""Bead order: takes the written order, gives Strung, Gap, Knot and BeadRepeat, counted unrolled."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.model.beads import BeadRepeat, Gap, Knot, OrderItem, Strung
from sheetgen.model.schema import Entry
from sheetgen.read.findings import Misread
from sheetgen.read.measures import length
from sheetgen.read.repeats import is_repeat, repeated, sequence
from sheetgen.read.tree import Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Mention, Walk, misread, one_line, whole_number, wrong_kind
from sheetgen.units import QuantityError

MOST_BEADS = 2_000
MOST_ITEMS = 10_000
"""Gaps and knots too: a repeat of knots must not grow without end."""

GAP, KNOT = "gap", "knot"
_GAP_LENGTH = Entry("length", "Bare cord between beads.", low=0.1, high=2000)
_WANTED = "beads, gaps and knots"
_FORMS = "10 small, large, gap 3 mm, knot, {repeat: 5, of: [...]}"
_TIMES = re.compile(r"(\d+) ?[x×*] (\S+)|(\S+) [x×*] ?(\d+)", re.ASCII)
_COUNTED = re.compile(r"(\S+) (\S+)")


def order(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """The order along the cord, at most :data:`MOST_BEADS` beads."""
    groups = sequence(walk, node, path, _items, _WANTED)
    if groups is UNREAD:
        return UNREAD
    items: tuple[OrderItem, ...] = _flat(groups)
    beads, things = count(items)
    if not (1 <= beads <= MOST_BEADS and things <= MOST_ITEMS):
        many = f"{beads} beads" if things <= MOST_ITEMS else "far too many beads, gaps and knots"
        problem = Misread(
            "beads",
            f"{many} in the whole order",
            allowed=f"1 to {MOST_BEADS} beads, {MOST_ITEMS} beads, gaps and knots together",
            hint="name at least one kind of bead" if beads == 0 else "repeat it fewer times",
        )
        misread(walk, problem, node, path)
        return UNREAD
    return items


def count(items: Iterable[OrderItem]) -> tuple[int, int]:
    """Beads, and beads with gaps and knots, repeats multiplied."""
    beads = things = 0
    for item in items:
        if isinstance(item, BeadRepeat):
            inside, with_gaps = count(item.items)
            beads += item.times * inside
            things += item.times * with_gaps
        else:
            strung = item.count if isinstance(item, Strung) else 0
            beads += strung
            things += strung or 1
    return beads, things


def _items(walk: Walk, node: Node, path: Path) -> Any:
    """The items of one entry of the list: a text may name several, parted by commas."""
    if isinstance(node, Pairs) and is_repeat(node, "of"):
        times, groups = repeated(walk, node, path, "of", _items, _WANTED)
        return UNREAD if UNREAD in (times, groups) else (BeadRepeat(times, _flat(groups)),)
    if not isinstance(node, Text):
        wrong_kind(walk, node, path, "a kind of bead, gap, knot or repeat", f"write e.g. {_FORMS}")
        return UNREAD
    try:
        return tuple(_item(walk, part.strip(), path) for part in one_line(node.value).split(","))
    except (Misread, QuantityError) as problem:
        misread(walk, problem, node, path)
        return UNREAD


def _item(walk: Walk, written: str, path: Path) -> OrderItem:
    word, _, rest = written.partition(" ")
    if word == KNOT and not rest:
        return Knot()
    if word == GAP:
        return Gap(length(rest, _GAP_LENGTH))
    match = _COUNTED.fullmatch(written)
    if times := _TIMES.fullmatch(written):
        number, kind = sorted(filter(None, times.groups()), key=lambda word: not word.isdigit())
        raise Misread("not-beads", "no × is needed", hint=f"write {number} {kind}")
    if not written or (" " in written and not match):
        raise Misread("not-beads", f"“{written[:40]}” cannot be strung", hint=f"e.g. {_FORMS}")
    kind = match[2] if match else written
    if match and kind.isdigit() and not match[1].isdigit():
        raise Misread("not-beads", "the number comes first", hint=f"write {kind} {match[1]}")
    number = whole_number(match[1], 1, MOST_BEADS) if match else 1
    if kind in (GAP, KNOT):
        raise Misread("not-beads", f"a number before “{kind}”", hint=f"repeat it: e.g. {_FORMS}")
    walk.mentions.append(Mention("kind of bead", kind, path))
    return Strung(kind, number)


def _flat(groups: Iterable[Iterable[OrderItem]]) -> tuple[OrderItem, ...]:
    return tuple(item for group in groups for item in group)
