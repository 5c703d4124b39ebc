"""The pack: takes written letters, colours, selections and drafts, gives them hole by hole.

How many holes and tablets there are stands before them in the model, so it has been read by now.
"""

from __future__ import annotations

import re
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.model.pack import (
    EMPTY,
    EVERY_HOLE,
    HOLE_LETTERS,
    Colours,
    DraftLine,
    Group,
    HoleColour,
    Selection,
    Tablets,
)
from sheetgen.model.schema import Entry, entries
from sheetgen.read.findings import Misread, listed
from sheetgen.read.names import GROUP_NAMES
from sheetgen.read.tree import Items, Node, Pairs, Text
from sheetgen.read.walk import (
    UNREAD,
    Mention,
    Walk,
    each,
    from_text,
    misread,
    one_line,
    whole_number,
    wrong_kind,
)

HOLES: Path = ("tablets", "holes")
NUMBER: Path = ("tablets", "number")
MOST_TABLETS = int(entries(Tablets)["number"][1].high or 0)

_RUN = re.compile(r"(\d*) ?([SZ])", re.ASCII)
_SPAN = re.compile(r"(\S+?)(?: ?- ?| to )(\S+)")


def letters_in(written: str, entry: Entry) -> tuple[str, ...]:
    """``S``, ``S Z``, ``SSZZ`` or ``4S 4Z`` as single letters."""
    rest, found = written, list[str]()
    while rest:
        match = _RUN.match(rest)
        if match is None:
            raise Misread(
                "not-letters",
                f"“{rest[:20]}” is not S or Z",
                allowed="S and Z, capitals, with numbers before them",
                hint="write e.g. S, S Z or 4S 4Z",
            )
        times = whole_number(match[1], 1, MOST_TABLETS) if match[1] else 1
        found.extend(match[2] * times)
        if len(found) > MOST_TABLETS:
            raise Misread("out-of-range", f"more letters than {MOST_TABLETS} tablets can have")
        rest = rest[match.end() :].lstrip(" ,")
    return tuple(found)


_letters = from_text(letters_in)


def letters(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """Letters in one text or in a list of texts."""
    parts = [_letters(walk, item, at, entry) for item, at in each(node, path)]
    if not parts:
        wrong_kind(walk, node, path, "at least one letter")
    return UNREAD if UNREAD in parts or not parts else tuple(c for part in parts for c in part)


def colours(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """One yarn for every hole, one for each hole in order, or yarns by hole letters."""
    if isinstance(node, Pairs):
        return _by_letter(walk, node, path)
    if isinstance(node, Items):
        texts = [(item, at) for item, at in each(node, path)]
        for item, at in texts:
            if not isinstance(item, Text):
                wrong_kind(walk, item, at, "the name of a yarn")
        words = [(" ".join(n.value.split()), at) for n, at in texts if isinstance(n, Text)]
        if len(words) < len(texts):
            return UNREAD
    elif isinstance(node, Text):
        words = [(word, path) for word in node.value.replace(",", " ").split()]
    else:
        return UNREAD
    return _in_order(walk, node, path, words)


def _in_order(walk: Walk, node: Node, path: Path, words: list[tuple[str, Path]]) -> Any:
    """Colours of words in hole order: one for all holes, or exactly one for each."""
    holes = _holes(walk)
    if len(words) != 1 and holes and len(words) != holes:
        problem = Misread(
            "holes",
            f"{len(words)} yarns for {holes} holes",
            allowed=f"one yarn, or one for each of {_hole_names(holes)}",
            hint=f"write “{EMPTY}” for a hole without a thread",
        )
        misread(walk, problem, node, path)
        return UNREAD
    if words and all(word == EMPTY for word, _ in words):
        misread(walk, Misread("no-thread", "every hole is empty", hint="name a yarn"), node, path)
        return UNREAD
    names = [EVERY_HOLE] if len(words) == 1 else HOLE_LETTERS
    for word, at in words:
        _mention(walk, word, at)
    return tuple(HoleColour(hole, word) for hole, (word, _) in zip(names, words, strict=False))


def _by_letter(walk: Walk, node: Pairs, path: Path) -> Any:
    holes = _holes(walk) or len(HOLE_LETTERS)
    found: list[HoleColour] = []
    ok = bool(node.pairs)
    for key, value in node.pairs:
        at = (*path, key.value)
        if not isinstance(value, Text):
            wrong_kind(walk, value, at, "the name of a yarn")
            ok = False
            continue
        for letter in key.value.replace(",", " ").replace(" ", ""):
            if problem := _bad_hole(letter, holes, [c.hole for c in found]):
                misread(walk, problem, key, at)
                ok = False
            found.append(HoleColour(letter, value.value.strip()))
        _mention(walk, value.value.strip(), at)
    if not node.pairs:
        wrong_kind(walk, node, path, "at least one hole letter")
    return tuple(found) if ok else UNREAD


def _bad_hole(letter: str, holes: int, before: list[str]) -> Misread | None:
    names = _hole_names(holes)
    if letter not in HOLE_LETTERS[:holes]:
        return Misread(
            "no-such-hole", f"there is no hole {letter}", allowed=names, hint=f"holes are {names}"
        )
    if letter in before:
        return Misread("hole-twice", f"hole {letter} is named twice", hint="name each hole once")
    return None


def _hole_names(holes: int) -> str:
    return listed(HOLE_LETTERS[:holes])


def _holes(walk: Walk) -> int | None:
    """Holes of a tablet; None when that could not be read."""
    return walk.values.get(HOLES) or None


def _mention(walk: Walk, yarn: str, path: Path) -> None:
    if yarn != EMPTY:
        walk.mentions.append(Mention("yarn", yarn, path))


def draft(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """One line a tablet: S or Z if it differs, then the yarns in hole order."""
    lines = [_draft_line(walk, item, at) for item, at in each(node, path)]
    if not 1 <= len(lines) <= MOST_TABLETS:
        wrong_kind(walk, node, path, f"a list of 1 to {MOST_TABLETS} lines")
        return UNREAD
    return UNREAD if UNREAD in lines else tuple(lines)


def _draft_line(walk: Walk, node: Node, path: Path) -> Any:
    if not isinstance(node, Text):
        wrong_kind(walk, node, path, "a line for one tablet", "write e.g. S red red white white")
        return UNREAD
    words = node.value.replace(",", " ").split()
    threaded = words.pop(0) if words and words[0] in ("S", "Z") else None
    if not words:
        problem = Misread("no-thread", "no yarns in this line", hint="write e.g. S red red white")
        misread(walk, problem, node, path)
        return UNREAD
    hole_by_hole: Colours = _in_order(walk, node, path, [(word, path) for word in words])
    return UNREAD if hole_by_hole is UNREAD else DraftLine(threaded, hole_by_hole)


def selection(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """Tablet numbers: ``1-2, 19-20``, ``3 to 18``, ``all``, ``odd``, ``even``, or a list."""
    found: list[int] = []
    ok = True
    for item, at in each(node, path):
        if not isinstance(item, Text):
            wrong_kind(walk, item, at, "tablet numbers", "write e.g. 1-2, 19-20")
            ok = False
            continue
        try:
            for part in one_line(item.value).split(","):
                found.extend(_selected(part.strip(), walk.values.get(NUMBER)))
        except Misread as problem:
            misread(walk, problem, item, at)
            ok = False
    if ok and (len(set(found)) < len(found) or not found):
        misread(walk, _twice(found), node, path)
        ok = False
    return tuple(found) if ok else UNREAD


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
    if not isinstance(node, Pairs) or not node.pairs:
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
