"""Repeats: takes ``{repeat: 6, steps: [...]}``, gives the number of times and what is repeated."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.read.findings import Misread, did_you_mean
from sheetgen.read.names import REPEAT
from sheetgen.read.tree import Items, Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Walk, each, misread, one_line, whole_number, wrong_kind

MOST_TIMES = 100_000

ReadItem = Callable[[Walk, Node, Path], Any]


def sequence(walk: Walk, node: Node, path: Path, read: ReadItem, wanted: str) -> Any:
    """All items of a list (or one lone item) with ``read``; UNREAD when one of them is."""
    if isinstance(node, Items) and not node.items:
        wrong_kind(walk, node, path, wanted)
        return UNREAD
    found = [read(walk, item, at) for item, at in each(node, path)]
    return UNREAD if UNREAD in found else tuple(found)


def is_repeat(node: Pairs, inside: str) -> bool:
    """True when the keys mean a repeat and not names of groups."""
    return any(key.value in (REPEAT, inside) for key, _ in node.pairs)


def repeated(
    walk: Walk, node: Pairs, path: Path, inside: str, read: ReadItem, wanted: str
) -> tuple[Any, Any]:
    """The times and the items of a repeat whose items stand under ``inside``."""
    found: dict[str, Any] = {}
    for key, value in node.pairs:
        at = (*path, key.value)
        if key.value == REPEAT:
            found[REPEAT] = _times(walk, value, at)
        elif key.value == inside:
            found[inside] = sequence(walk, value, at, read, wanted)
        else:
            hint = did_you_mean(key.value, (REPEAT, inside), "take it out")
            problem = Misread(
                "unknown-key",
                f"“{key.value[:60]}” is not known here",
                allowed=f"{REPEAT}, {inside}",
                hint=hint,
            )
            misread(walk, problem, key, at)
            found.setdefault("", UNREAD)
    for missing in {REPEAT, inside} - found.keys():
        problem = Misread(
            "missing-key", f"“{missing}” is missing", hint=f"write {{repeat: 6, {inside}: [...]}}"
        )
        misread(walk, problem, node, path)
    whole = "" not in found
    return (found.get(REPEAT, UNREAD) if whole else UNREAD), found.get(inside, UNREAD)


def _times(walk: Walk, node: Node, path: Path) -> Any:
    if not isinstance(node, Text):
        wrong_kind(walk, node, path, "how many times")
        return UNREAD
    try:
        return whole_number(one_line(node.value), 1, MOST_TIMES)
    except Misread as problem:
        misread(walk, problem, node, path)
        return UNREAD
