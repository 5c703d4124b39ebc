"""A figure of the plan: value, unit, where it came from, range, one line of working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from sheetgen.plan.learning import Learned, Learning, YarnKey

Origin = Literal["measured", "stated", "computed", "rule of thumb"]
Unit = Literal[
    "mm", "g", "tex", "min", "per mm", "picks per min", "turns per mm", "picks", "turns", "ends",
    "tablets", "beads", "pieces", "times", "wraps", "strands", "ratio", "share", "degrees",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure. ``value``, ``low`` and ``high`` are in ``unit``; ``working`` is one line.

    ``low`` equals ``high`` where no range is told. ``next_measure`` says what to measure to make
    it surer, empty if nothing would. ``rests_on_rule`` is True for a computed figure when any
    that it was worked out from, however far back, is a rule of thumb.
    """

    key: str
    name: str
    value: float
    unit: Unit
    origin: Origin
    working: str
    low: float
    high: float
    source: str = ""
    next_measure: str = ""
    rests_on_rule: bool = False

    @property
    def has_range(self) -> bool:
        """True when the figure is uncertain enough to say so."""
        return self.high > self.low

    @property
    def spread(self) -> float:
        """Half the range as a share of the value; 0 for a figure without a range."""
        return (self.high - self.low) / (2 * abs(self.value)) if self.value else 0.0


class Ledger(Mapping[str, Figure]):
    """The figures of a plan in the order in which they were entered. Each key is entered once.

    ``warp_yarn`` is the yarn whose past pieces are asked for what they teach, set once the pack is
    known; ``lessons`` are those that were taken from ``learning``.
    """

    def __init__(self, learning: Learning | None = None) -> None:
        self._figures: dict[str, Figure] = {}
        self._learning = learning
        self.warp_yarn: YarnKey | None = None
        self.lessons: dict[str, Learned] = {}

    def learned(self, what: str) -> Learned | None:
        """What past pieces teach of ``what``, noted as taken; None if they teach nothing."""
        if self._learning is None or self.warp_yarn is None:
            return None
        found = self._learning.about(what, self.warp_yarn)
        if found is not None:
            self.lessons[what] = found
        return found

    def enter(
        self,
        key: str,
        name: str,
        value: float,
        unit: Unit,
        origin: Origin,
        working: str,
        *,
        between: tuple[float, float] | None = None,
        source: str = "",
        next_measure: str = "",
        rests_on: Sequence[str] = (),
    ) -> Figure:
        """Enter a figure and give it back; ValueError if the key is there already (a bug).

        ``rests_on`` are the keys of the figures that it was worked out from, which must have been
        entered before: KeyError if not (a bug).
        """
        if key in self._figures:
            raise ValueError(f"figure {key!r} entered twice")
        low, high = between or (value, value)
        roots = [self._figures[root] for root in rests_on]
        by_rule = any(root.origin == "rule of thumb" or root.rests_on_rule for root in roots)
        figure = Figure(
            key,
            name,
            value,
            unit,
            origin,
            working,
            low,
            high,
            source,
            next_measure,
            by_rule and origin == "computed",
        )
        self._figures[key] = figure
        return figure

    def __getitem__(self, key: str) -> Figure:
        return self._figures[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._figures)

    def __len__(self) -> int:
        return len(self._figures)
