"""Turning: takes written steps, gives Turns, Flip and Repeat; counts picks without unrolling."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sheetgen.diagnostics import Path
from sheetgen.model.schema import Entry
from sheetgen.model.turning import (
    MOTIONS,
    REST,
    WHOLE_PACK,
    Flip,
    Motion,
    Move,
    Repeat,
    Step,
    Turns,
)
from sheetgen.read.findings import Misread, did_you_mean, listed
from sheetgen.read.repeats import is_repeat, repeated, sequence
from sheetgen.read.selections import MOST_TABLETS, NUMBER, numbers
from sheetgen.read.tree import Items, Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Mention, Walk, misread, one_line, whole_number, wrong_kind

MOST_PICKS = 100_000
GROUPS: Path = ("tablets", "groups")
FLIP = "flip"
_WORDS = (*MOTIONS, FLIP)
_WANTED = "turning steps"
_SPIRAL = "write “forward”; a cord spirals with “threaded: Z”, or with the weft in at the left"
_FORMS = "forward 4, backward 4, idle 2, flip, {border: forward 4, 7: idle 4, rest: backward 4}"


def turning(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """The steps of one pass through the list, at most :data:`MOST_PICKS` picks."""
    found = sequence(walk, node, path, _steps, _WANTED)
    if found is UNREAD:
        return UNREAD
    steps = _flat(found)
    total = picks_in(steps)
    if not 1 <= total <= MOST_PICKS:
        many = f"{total} picks" if total < 10**9 else "far too many picks"
        problem = Misread(
            "picks",
            f"{many} in one pass through the steps",
            allowed=f"1 to {MOST_PICKS} picks",
            hint="a flip is no pick: add turns" if total == 0 else "repeat it fewer times",
        )
        misread(walk, problem, node, path)
        return UNREAD
    return steps


def picks_in(steps: Iterable[Step]) -> int:
    """Picks of the steps, repeats multiplied."""
    total = 0
    for step in steps:
        if isinstance(step, Turns):
            total += step.picks
        elif isinstance(step, Repeat):
            total += step.times * picks_in(step.steps)
    return total


def _steps(walk: Walk, node: Node, path: Path) -> Any:
    """The steps of one entry of the list: a text may name several, parted by commas."""
    if isinstance(node, Pairs) and is_repeat(node, "steps"):
        times, steps = repeated(walk, node, path, "steps", _steps, _WANTED)
        return UNREAD if UNREAD in (times, steps) else (Repeat(times, _flat(steps)),)
    if isinstance(node, Pairs):
        move = _groups_move(walk, node, path)
        return UNREAD if move is UNREAD else (move,)
    if not isinstance(node, Text):
        hint = "take out one pair of brackets" if isinstance(node, Items) else ""
        wrong_kind(walk, node, path, "a turning step", hint)
        return UNREAD
    try:
        return tuple(_step(walk, written, path) for written in _parted(one_line(node.value)))
    except Misread as problem:
        misread(walk, problem, node, path)
        return UNREAD


def _flat(steps: Iterable[Iterable[Step]]) -> tuple[Step, ...]:
    return tuple(step for group in steps for step in group)


def _parted(written: str) -> list[str]:
    """``forward 4, flip a, b, idle 2`` as its steps: names after a flip belong to it."""
    found: list[str] = []
    for part in (part.strip() for part in written.split(",")):
        if found and found[-1].partition(" ")[0] == FLIP and part.split(" ")[0] not in _WORDS:
            found[-1] += f", {part}"
        else:
            found.append(part)
    return found


def _step(walk: Walk, written: str, path: Path) -> Step:
    word, _, rest = written.partition(" ")
    if word == FLIP:
        return _flip(walk, rest, path)
    if word.isdigit() and rest in MOTIONS:
        raise Misread("not-a-step", "the number comes last", hint=f"write {rest} {word}")
    motion, picks = _motion(written, _WORDS)
    return Turns(picks, (Move(WHOLE_PACK, motion),))


def _motion(written: str, words: tuple[str, ...]) -> tuple[Motion, int]:
    """``forward 4``, or ``forward`` for one pick; ``words`` are those that may stand here."""
    word, _, rest = written.partition(" ")
    if word in MOTIONS:
        return word, whole_number(rest, 1, MOST_PICKS) if rest else 1
    raise Misread(
        "not-a-step",
        f"“{written[:40]}” is not a turning step",
        allowed=_FORMS,
        hint=_SPIRAL
        if word.casefold() in ("spiral", "twist")
        else did_you_mean(word, words, f"write e.g. {_FORMS}"),
    )


def _flip(walk: Walk, rest: str, path: Path) -> Flip:
    groups = tuple(name.strip() for name in rest.split(",")) if rest else ()
    if len(groups) > MOST_TABLETS:
        raise Misread("not-a-step", "more groups than tablets", hint="write “flip” for all")
    tablets: list[int] = []
    for name in groups:
        if name == REST:
            raise Misread("not-a-step", "“flip rest” cannot be told", hint="name the groups")
        if groups.count(name) > 1:
            raise Misread("group-twice", f"“{name[:40]}” is named twice", hint="name it once")
        if _is_numbers(name):
            tablets += numbers(walk, name)
        else:
            walk.mentions.append(Mention("group", name, path))
    return Flip(tuple(n for n in groups if not _is_numbers(n)), tuple(dict.fromkeys(tablets)))


def _is_numbers(name: str) -> bool:
    """True for tablet numbers in a group's place: names begin with a letter."""
    return name[:1].isdigit()


def _groups_move(walk: Walk, node: Pairs, path: Path) -> Any:
    """``{border: forward 4, rest: backward 4}``."""
    moves: list[Move] = []
    picks: dict[str, int] = {}
    ok = bool(node.pairs)
    for key, value in node.pairs:
        move = _move(walk, key, value, (*path, key.value))
        if move is None:
            ok = False
        else:
            moves.append(move[0])
            picks[key.value] = move[1]
    if not node.pairs:
        wrong_kind(walk, node, path, "what each group does")
    for fault in (_unequal(picks), _unnamed(walk, node, moves)):
        if ok and fault:
            misread(walk, fault, node, path)
            ok = False
    return Turns(next(iter(picks.values())), tuple(moves)) if ok else UNREAD


def _move(walk: Walk, key: Text, value: Node, at: Path) -> tuple[Move, int] | None:
    """What one group, or tablets by their numbers, does, and for how many picks."""
    singled = _is_numbers(key.value)
    if key.value != REST and not singled:
        walk.mentions.append(Mention("group", key.value, at, key.span))
    if not isinstance(value, Text):
        wrong_kind(walk, value, at, "what the group does", "write e.g. border: forward 4")
        return None
    node: Text = key
    try:
        tablets = numbers(walk, one_line(key.value)) if singled else ()
        node = value
        motion, picks = _motion(one_line(value.value), MOTIONS)
    except Misread as problem:
        misread(walk, problem, node, at)
        return None
    return Move(key.value, motion, tablets), picks


def _unequal(picks: dict[str, int]) -> Misread | None:
    """All groups of a step make the same number of picks: there is one weft."""
    if len(set(picks.values())) < 2:
        return None
    (one, n), (other, m) = (
        min(picks.items(), key=lambda p: p[1]),
        max(picks.items(), key=lambda p: p[1]),
    )
    return Misread(
        "unequal-picks",
        f"“{one}” makes {n} picks and “{other}” {m} in the same step",
        allowed="the same number of picks for every group",
        hint=f"fill up “{one}” with a step of its own, or write both as {m}",
    )


def _unnamed(walk: Walk, node: Pairs, moves: list[Move]) -> Misread | None:
    """A step that names groups says what every tablet does."""
    named = {key.value for key, _ in node.pairs if not _is_numbers(key.value)}
    number, groups = walk.values.get(NUMBER), walk.values.get(GROUPS, ())
    if REST in named or groups is UNREAD or named - {group.name for group in groups}:
        return None
    hint = f"add “{REST}: idle”, or what else the others do"
    if number is None:
        return Misread("rest-missing", f"“{REST}” is needed", hint=hint)
    held = {n for group in groups if group.name in named for n in group.tablets}
    held |= {n for move in moves for n in move.tablets}
    left = [n for n in range(1, (number or 0) + 1) if n not in held]
    unread = any(group.tablets is UNREAD for group in groups)
    if not left or unread:
        return None
    numbers = listed(str(n) for n in left[:8]) + (" …" if len(left) > 8 else "")
    return Misread("rest-missing", f"the step does not say what tablets {numbers} do", hint=hint)
