"""Which tablets: takes text such as ``1-2, 19-20`` and named groups, gives tablet numbers.

How many tablets there are stands before them in the model, so it has been read by now.
"""

from __future__ import annotations

import re
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.model.pack import Group, Selection, Tablets
from sheetgen.model.schema import Entry, entries
from sheetgen.read.findings import Misread
from sheetgen.read.names import GROUP_NAMES
from sheetgen.read.tree import Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Walk, each, misread, one_line, whole_number, wrong_kind

NUMBER: Path = ("tablets", "number")
MOST_TABLETS = int(entries(Tablets)["number"][1].high or 0)

_SPAN = re.compile(r"(\S+?)(?: ?- ?| to )(\S+)")


def selection(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """Tablet numbers: ``1-2, 19-20``, ``3 to 18``, ``all``, ``odd``, ``even``, or a list."""
    number = walk.values.get(NUMBER)
    found: list[int] = []
    ok = True
    for item, at in each(node, path):
        if not isinstance(item, Text):
            wrong_kind(walk, item, at, "tablet numbers", "write e.g. 1-2, 19-20")
            ok = False
            continue
        try:
            for part in one_line(item.value).split(","):
                found.extend(_selected(part.strip(), number))
                if len(found) > MOST_TABLETS:  # some are named twice: a list need not go on
                    break
        except Misread as problem:
            misread(walk, problem, item, at)
            ok = False
    if number is UNREAD and not found:  # “all” of a number that could not be read
        return UNREAD
    if ok and (len(set(found)) < len(found) or not found):
        misread(walk, _twice(found), node, path)
        ok = False
    return tuple(found) if ok else UNREAD


def numbers(walk: Walk, written: str) -> Selection:
    """Tablet numbers in one text, ``7`` or ``3-5, 9``; Misread where they cannot be read."""
    number = walk.values.get(NUMBER)
    found = [n for part in written.split(",") for n in _selected(part.strip(), number)]
    return tuple(dict.fromkeys(found[: MOST_TABLETS + 1]))


def _twice(found: list[int]) -> Misread:
    again = next((n for i, n in enumerate(found) if n in found[:i]), None)
    if again is None:
        return Misread("not-a-selection", "no tablets are named", hint="write e.g. 1-2, 19-20")
    return Misread("tablet-twice", f"tablet {again} is named twice", hint="name each tablet once")


def _selected(part: str, number: Any) -> Selection:
    """Tablets of one part; ``number`` is the size of the pack, None or unread."""
    if part in ("all", "odd", "even"):
        return _by_word(part, number)
    most = number or MOST_TABLETS
    match = _SPAN.fullmatch(part)
    low = _tablet(match[1] if match else part, most)
    high = _tablet(match[2], most) if match else low
    if low > high:
        raise Misread("range", f"{low} to {high} runs backwards", hint=f"write {high}-{low}")
    return tuple(range(low, high + 1))


def _by_word(word: str, number: Any) -> Selection:
    if number is None:
        raise Misread(
            "number-needed",
            f"“{word}” needs the number of tablets",
            hint="say how many tablets there are, or write their numbers",
        )
    return tuple(range(2 if word == "even" else 1, (number or 0) + 1, 1 if word == "all" else 2))


def _tablet(written: str, most: int) -> int:
    if not (written.isascii() and written.isdigit()):
        raise Misread(
            "not-a-selection",
            f"“{written[:30]}” is not a tablet number",
            allowed=f"numbers from 1 to {most}, all, odd, even",
            hint="write e.g. 1-2, 19-20",
        )
    try:
        return whole_number(written, 1, most)
    except Misread as problem:
        if problem.code != "out-of-range":
            raise
        raise Misread(
            "no-such-tablet", f"there is no tablet {written[:12]}", allowed=f"1 to {most}"
        ) from None


def selections(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """Names for groups of tablets, each tablet in one group at most."""
    if not isinstance(node, Pairs) or not 1 <= len(node.pairs) <= MOST_TABLETS:
        wrong_kind(walk, node, path, "a name for each group", f"write e.g. {entry.example}")
        return UNREAD
    groups: list[Group] = []
    owner: dict[int, str] = {}
    for key, value in node.pairs:
        at = (*path, key.value)
        if problem := GROUP_NAMES.fault(key.value):
            misread(walk, problem, key, at)
        tablets = selection(walk, value, at, entry)
        groups.append(Group(key.value, tablets))
        shared = [n for n in tablets if n in owner]
        if shared:
            other = owner[shared[0]]
            problem = Misread(
                "two-groups",
                f"tablet {shared[0]} is already in “{other}”",
                hint="a tablet turns with one group only: take it out of one",
            )
            misread(walk, problem, value, at)
        owner.update((n, key.value) for n in tablets if n not in owner)
    return tuple(groups)
