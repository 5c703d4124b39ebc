"""Learning: takes what was measured on made pieces, gives the figures of the next plan, robustly.

Per figure the pieces of the same yarn are asked, else those of its fibre and preparation, else
all. What they teach is their median; how it is guarded against slips stands at :func:`settle`.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median
from typing import Literal, NamedTuple

from sheetgen.plan.constants import (
    ENOUGH_PIECES,
    LEARNED_USUAL,
    LEAST_SPREAD,
    MAD_OF_NORMAL,
    OUTLIER,
    SLIP,
    SLIP_OF_TAKE_UP,
)

Among = Literal["yarn", "fibre", "all"]
NAMED = 6
"""So many pieces are named in a line of working; the plan has all of them."""


class YarnKey(NamedTuple):
    """What makes two yarns the same: name, fibre, preparation, tex and diameter (mm).

    The diameter is the plan's own, so that a yarn described by wraps is not taken for the same
    yarn described by its count: their diameters differ by rule.
    """

    name: str
    fibre: str | None
    preparation: str | None
    tex: float
    diameter: float


@dataclass(frozen=True, slots=True)
class MadePiece:
    """One piece that was measured: its name, the yarn of most warp ends, what it tells.

    ``tells`` has a value for each key of ``LEARNED_USUAL`` that could be measured: take-up,
    thickness and width as a share of what the formula says, the pick spacing in diameters of a
    warp end, the pace in picks a minute.
    """

    name: str
    yarn: YarnKey
    tells: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Learned:
    """What pieces teach of one figure: median, range, who they are, who was left out.

    ``among`` says by what they are alike, ``kind`` in words.
    """

    what: str
    value: float
    low: float
    high: float
    pieces: tuple[str, ...]
    left_out: tuple[str, ...]
    among: Among
    kind: str

    @property
    def enough(self) -> bool:
        """True when there are enough pieces for their own range to stand."""
        return len(self.pieces) >= ENOUGH_PIECES.value

    def between(self, base: float, usual: tuple[float, float]) -> tuple[float, float]:
        """The range of the figure ``value * base``, with the formula's ``usual`` range.

        Of fewer than five pieces the formula's range is kept, widened to hold what they tell.
        """
        low, high = self.low * base, self.high * base
        return (low, high) if self.enough else (min(low, usual[0]), max(high, usual[1]))

    def said(self) -> str:
        """Who the pieces are, in a line of working."""
        number = len(self.pieces)
        count = "1 piece" if number == 1 else f"median of {number} pieces"
        text = f"{count} of {self.kind}: {named(self.pieces)}"
        return f"{text}; left out {named(self.left_out)}" if self.left_out else text


def named(pieces: Sequence[str], most: int = NAMED) -> str:
    """The names of pieces, the first of them if there are many.

    >>> named(["SW-1", "SW-2", "SW-3"], most=2)
    'SW-1, SW-2 and 1 more'
    """
    more = len(pieces) - most
    return ", ".join(pieces[:most]) + (f" and {more} more" if more > 0 else "")


@dataclass(frozen=True, slots=True)
class Learning:
    """All measured pieces, in the order of their names."""

    pieces: tuple[MadePiece, ...]
    _known: dict[tuple[str, YarnKey], Learned | None] = field(
        default_factory=dict, compare=False, repr=False
    )

    def about(self, what: str, yarn: YarnKey) -> Learned | None:
        """What the pieces nearest to ``yarn`` teach; None if there are none that do."""
        if (what, yarn) not in self._known:
            self._known[what, yarn] = self._ask(what, yarn)
        return self._known[what, yarn]

    def _ask(self, what: str, yarn: YarnKey) -> Learned | None:
        telling = [p for p in self.pieces if what in p.tells]
        for among, kind, pieces in _circles(yarn, telling):
            values = {p.name: p.tells[what] for p in pieces}
            kept, left_out = settle(values, what)
            if kept:
                told = [values[name] for name in kept]
                middle = median(told)
                return Learned(what, middle, min(told), max(told), kept, left_out, among, kind)
        return None


def _circles(
    yarn: YarnKey, pieces: Sequence[MadePiece]
) -> Iterator[tuple[Among, str, list[MadePiece]]]:
    """The pieces of the same yarn, of the same fibre and preparation, all."""
    yield "yarn", yarn.name, [p for p in pieces if p.yarn == yarn]
    if yarn.fibre:
        like = (yarn.fibre, yarn.preparation)
        kind = " ".join(filter(None, (yarn.preparation, yarn.fibre)))
        yield "fibre", kind, [p for p in pieces if (p.yarn.fibre, p.yarn.preparation) == like]
    yield "all", "any yarn", list(pieces)


def settle(values: Mapping[str, float], what: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names of the pieces whose values are kept, and of those that are left out.

    Of five pieces or more, a value is left out whose modified z, 0.6745 |x - median| / MAD, is
    more than 3.5 (Iglewicz and Hoaglin 1993; from memory); the MAD, the median of the distances
    from the median, is taken as 1 % of the median at least, as pieces that agree to the last
    digit would else make an outlier of the next. Fewer pieces do not show their own spread: of
    them only what no hand can have done is left out, twice outside of the usual range, of take-up
    a fifth outside.

    >>> settle({"a": 2.7, "b": 2.8, "c": 2.9, "d": 2.8, "e": 5.0}, "pick_spacing")
    (('a', 'b', 'c', 'd'), ('e',))
    >>> settle({"a": 28.0}, "pick_spacing")
    ((), ('a',))
    """
    if len(values) >= ENOUGH_PIECES.value:
        middle = median(values.values())
        mad = median(abs(v - middle) for v in values.values())
        reach = OUTLIER.value * max(mad, LEAST_SPREAD.value * middle) / MAD_OF_NORMAL.value
        low, high = middle - reach, middle + reach
    else:
        usual = LEARNED_USUAL[what]
        assert usual.low is not None
        assert usual.high is not None
        slip = (SLIP_OF_TAKE_UP if what == "take_up" else SLIP).value
        low, high = usual.low / slip, usual.high * slip
    kept = tuple(name for name, v in values.items() if low <= v <= high)
    return kept, tuple(name for name in values if name not in kept)


def version_of(lessons: Mapping[str, Learned]) -> str:
    """First digits of the SHA-256 of what was learned: values, ranges and pieces; "" of nothing."""
    if not lessons:
        return ""
    told = [
        (what, repr(one.value), repr(one.low), repr(one.high), one.pieces, one.left_out)
        for what, one in sorted(lessons.items())
    ]
    return hashlib.sha256(repr(told).encode()).hexdigest()[:4]
