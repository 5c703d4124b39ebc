"""The pack: takes the description's tablets, gives every tablet with its threads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from sheetgen.model.pack import (
    EMPTY,
    EVERY_HOLE,
    HOLE_LETTERS,
    Colours,
    DraftLine,
    Selection,
    Tablets,
)

OTHERS = ""
"""Name of the course of tablets that belong to no group."""


@dataclass(frozen=True, slots=True)
class Tablet:
    """One tablet: number from 1, ``threaded`` S or Z, yarn name (or None) hole by hole from A."""

    number: int
    threaded: str
    holes: tuple[str | None, ...]
    group: str = OTHERS

    @property
    def ends(self) -> int:
        """Threads in this tablet."""
        return sum(yarn is not None for yarn in self.holes)


@dataclass(frozen=True)
class Pack:
    """All tablets from left to right as the weaver sees them; all have ``holes`` holes."""

    tablets: tuple[Tablet, ...]
    holes: int

    @cached_property
    def ends(self) -> int:
        """Threads in the whole pack."""
        return sum(tablet.ends for tablet in self.tablets)

    @cached_property
    def ends_by_yarn(self) -> dict[str, int]:
        """Threads of each yarn, in the order in which the yarns first appear."""
        return dict(Counter(y for t in self.tablets for y in t.holes if y is not None))

    @cached_property
    def groups(self) -> dict[str, tuple[int, ...]]:
        """Group name -> tablet numbers; :data:`OTHERS` for those without a group."""
        found: dict[str, list[int]] = {}
        for tablet in self.tablets:
            found.setdefault(tablet.group, []).append(tablet.number)
        return {name: tuple(numbers) for name, numbers in found.items()}

    @property
    def threaded(self) -> str | None:
        """S or Z if all tablets are threaded alike, else None."""
        letters = {tablet.threaded for tablet in self.tablets}
        return letters.pop() if len(letters) == 1 else None

    @property
    def one_colour_a_tablet(self) -> bool:
        """True when no tablet shows more than one yarn, so that its position cannot be seen."""
        return all(len(set(tablet.holes)) == 1 for tablet in self.tablets)


def build_pack(tablets: Tablets, number: int, first_yarn: str) -> Pack:
    """Thread ``number`` tablets as the description says; later exceptions outrank earlier ones.

    Exceptions and groups of tablets beyond the pack are passed over: see :func:`beyond_pack`.
    """
    everywhere = _threads(tablets.colours, tablets.holes, (first_yarn,) * tablets.holes)
    pack = [
        Tablet(i + 1, tablets.threaded[i % len(tablets.threaded)], everywhere)
        for i in range(number)
    ]
    everyone = range(1, number + 1)
    _lay(pack, everyone, tablets.draft, tablets.holes)
    for other in tablets.except_:
        for place, n in enumerate(other.tablets):
            if n > number:
                continue
            tablet = pack[n - 1]
            if other.threaded:
                tablet = replace(tablet, threaded=other.threaded[place % len(other.threaded)])
            holes = _threads(other.colours, tablets.holes, tablet.holes)
            pack[n - 1] = replace(tablet, holes=holes)
        _lay(pack, other.tablets, other.draft, tablets.holes)
    for group in tablets.groups:
        for n in group.tablets:
            if n <= number:
                pack[n - 1] = replace(pack[n - 1], group=group.name)
    return Pack(tuple(pack), tablets.holes)


def beyond_pack(
    tablets: Tablets, number: int, singled: Sequence[Selection] = ()
) -> tuple[int, ...]:
    """Tablets that exceptions, groups or ``singled`` name and a pack of ``number`` has not."""
    selections = [e.tablets for e in tablets.except_] + [g.tablets for g in tablets.groups]
    selections += singled
    return tuple(sorted({n for selection in selections for n in selection if n > number}))


def _lay(
    pack: list[Tablet], numbers: Iterable[int], draft: tuple[DraftLine, ...], holes: int
) -> None:
    """Lay the lines of a draft over the tablets ``numbers``, again and again."""
    if not draft:
        return
    for place, n in enumerate(numbers):
        if n > len(pack):
            continue
        line, tablet = draft[place % len(draft)], pack[n - 1]
        pack[n - 1] = replace(
            tablet,
            threaded=line.threaded or tablet.threaded,
            holes=_threads(line.colours, holes, tablet.holes),
        )


def _threads(
    colours: Colours, holes: int, before: tuple[str | None, ...]
) -> tuple[str | None, ...]:
    """The yarns of the holes after ``colours`` are laid over what was there before."""
    threads = list(before)
    for colour in colours:
        yarn = None if colour.yarn == EMPTY else colour.yarn
        if colour.hole == EVERY_HOLE:
            threads = [yarn] * holes
        else:
            threads[HOLE_LETTERS.index(colour.hole)] = yarn
    return tuple(threads)


def in_words(tablets: Sequence[int], most: int = 12) -> str:
    """Tablet numbers for a sentence, the first of them if there are many.

    >>> in_words([1, 2, 3], most=2)
    '1, 2 ...'
    """
    more = " ..." if len(tablets) > most else ""
    return ", ".join(map(str, tablets[:most])) + more
