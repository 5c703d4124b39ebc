"""Threading: takes written letters, colours and drafts, gives them tablet by tablet, hole by hole.

How many holes there are stands before them in the model, so it has been read by now.
"""

from __future__ import annotations

import re
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.model.pack import EMPTY, EVERY_HOLE, HOLE_LETTERS, Colours, DraftLine, HoleColour
from sheetgen.model.schema import Entry
from sheetgen.read.findings import Misread, listed
from sheetgen.read.selections import MOST_TABLETS
from sheetgen.read.tree import Items, Node, Pairs, Text
from sheetgen.read.walk import (
    UNREAD,
    Mention,
    Walk,
    each,
    from_text,
    misread,
    whole_number,
    wrong_kind,
)

HOLES: Path = ("tablets", "holes")

_RUN = re.compile(r"(\d*) ?([SZ])", re.ASCII)


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
    parts = [item for item, _ in each(node, path)]
    texts = [part.value for part in parts if isinstance(part, Text)]
    if isinstance(node, Items) and parts and len(texts) == len(parts):
        node = Text(" ".join(texts), node.span)
    return _letters(walk, node, path, entry)


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
    most = len(HOLE_LETTERS)
    if not 1 <= len(words) <= most or (len(words) != 1 and holes and len(words) != holes):
        holes = holes or most
        problem = Misread(
            "holes",
            f"{len(words)} yarns for {holes} holes",
            allowed=f"one yarn, or one for each of {_hole_names(holes)}",
            hint=f"write “{EMPTY}” for a hole without a thread",
        )
        misread(walk, problem, node, path)
        return UNREAD
    if all(word == EMPTY for word, _ in words):
        misread(walk, _no_thread(), node, path)
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
        for letter in key.value.replace(",", " ").replace(" ", "") or "?":
            if problem := _bad_hole(letter, holes, [c.hole for c in found]):
                misread(walk, problem, key, at)
                ok = False
            found.append(HoleColour(letter, value.value.strip()))
        _mention(walk, value.value.strip(), at)
    if not node.pairs:
        wrong_kind(walk, node, path, "at least one hole letter")
    if ok and len(found) == _holes(walk) and all(hole.yarn == EMPTY for hole in found):
        misread(walk, _no_thread(), node, path)
        ok = False
    return tuple(found) if ok else UNREAD


def _no_thread() -> Misread:
    return Misread("no-thread", "every hole is empty", hint="name a yarn")


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
