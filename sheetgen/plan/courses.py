"""Courses: takes groups and steps that single tablets out, gives groups and steps by group alone.

Where a step says what tablet 7 does, whatever its group, that tablet becomes a group of its own;
every step is then rewritten so that each course of tablets has one motion.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sheetgen.model.pack import Group, Selection, Tablets
from sheetgen.model.turning import REST, WHOLE_PACK, Flip, Motion, Move, Repeat, Step, Turns


@dataclass(frozen=True, slots=True)
class _Course:
    """Tablets that every step treats alike: their name, their group as described, their numbers."""

    name: str
    group: str
    tablets: Selection


def by_course(
    tablets: Tablets, steps: Sequence[Step], number: int
) -> tuple[tuple[Group, ...], tuple[Step, ...]]:
    """Groups and steps of a pack of ``number`` tablets with no tablet singled out any more."""
    singled = list(dict.fromkeys(singled_out(steps)))
    if not singled:
        return tablets.groups, tuple(steps)
    courses = _courses(tablets.groups, singled, number)
    groups = tuple(Group(c.name, c.tablets) for c in courses if c.name)
    return groups, tuple(_rewritten(step, courses) for step in steps)


def written_numbers(numbers: Sequence[int]) -> str:
    """Tablet numbers as they are written: runs with a stroke.

    >>> written_numbers([1, 2, 3, 7])
    '1-3, 7'
    """
    runs: list[list[int]] = []
    for n in sorted(numbers):
        if runs and n == runs[-1][1] + 1:
            runs[-1][1] = n
        else:
            runs.append([n, n])
    return ", ".join(f"{a}-{b}" if a < b else str(a) for a, b in runs)


def singled_out(steps: Sequence[Step]) -> Iterator[Selection]:
    """Every selection of tablets that a step names by their numbers."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from singled_out(step.steps)
        elif isinstance(step, Flip):
            yield from [step.tablets] if step.tablets else []
        else:
            yield from (move.tablets for move in step.moves if move.tablets)


def _courses(
    groups: Sequence[Group], singled: Sequence[Selection], number: int
) -> tuple[_Course, ...]:
    """The parts of the pack that lie in one group and in the same selections."""
    group_of = {n: group.name for group in groups for n in group.tablets}
    inside = [frozenset(selection) for selection in singled]
    parts: dict[tuple[str, tuple[int, ...]], list[int]] = {}
    for n in range(1, number + 1):
        where = tuple(i for i, selection in enumerate(inside) if n in selection)
        parts.setdefault((group_of.get(n, ""), where), []).append(n)
    return tuple(
        _Course(written_numbers(numbers) if where else group, group, tuple(numbers))
        for (group, where), numbers in parts.items()
    )


def _rewritten(step: Step, courses: Sequence[_Course]) -> Step:
    if isinstance(step, Repeat):
        return Repeat(step.times, tuple(_rewritten(inner, courses) for inner in step.steps))
    if isinstance(step, Flip):
        if not step.groups and not step.tablets:
            return step
        chosen = set(step.tablets)
        return Flip(
            tuple(c.name for c in courses if c.group in step.groups or chosen & {*c.tablets})
        )
    moves = tuple(Move(c.name or REST, _motion(c, step.moves)) for c in courses)
    return Turns(step.picks, moves)


def _motion(course: _Course, moves: Sequence[Move]) -> Motion:
    """A tablet's own move outranks its group's, that the rest's; of its own the last written."""
    for move in reversed(moves):
        if move.tablets and course.tablets[0] in move.tablets:
            return move.motion
    by_group: dict[str, Motion] = {m.group: m.motion for m in moves if not m.tablets}
    if course.group and course.group in by_group:
        return by_group[course.group]
    return by_group.get(REST, by_group.get(WHOLE_PACK, "idle"))
