"""Fields: takes a Plan, gives every named figure as it stands in a sentence.

For a figure ``x`` there are ``{x}`` (the value), ``{x.range}`` (value and, in brackets, from low to
high; the value alone where there is no range), ``{x.about}`` (two figures), ``{x.up}`` (rounded up
to what is easily measured) and, for a length to cut, ``{x.cut}`` (rounded up to 5 mm or 1/4 in).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from sheetgen import amounts
from sheetgen.amounts import ENGLISH, Writing
from sheetgen.plan.figure import Figure
from sheetgen.plan.plan import Plan

FORMS = ("", "range", "about", "up", "cut")


def whole(amount: str) -> str:
    """An amount that no line end parts from its unit; the same in other units may follow below."""
    return amount.replace(" ", "\u00a0").replace("\u00a0/\u00a0", "\u00a0/ ")


def written(value: float, unit: str, units: str, writing: Writing = ENGLISH) -> str:
    """A figure's value with its unit, as a weaver reads it."""
    match unit:
        case "mm":
            return whole(amounts.length(value, units, writing))
        case "g":
            return whole(amounts.mass(value, units, writing))
        case "min":
            return whole(amounts.minutes(value, writing))
        case "per mm":
            return whole(amounts.per_length(value, units, writing))
        case "tex":
            return whole(f"{amounts.significant(value, writing=writing)} {writing('tex')}")
        case "ratio":
            return f"× {amounts.plain(value, 3, writing)}"
        case "share":
            return f"{amounts.plain(100 * value, 0)} %"
        case "turns per mm":
            return f"{amounts.plain(1000 * value, 0)} {writing('turns/m')}"
        case "degrees":
            return f"{amounts.plain(value, 0)}°"
        case "turns":
            return amounts.plain(value, 1, writing)
        case _:
            places = 0 if value >= 10 or value == int(value) else 1
            return amounts.plain(value, places, writing)


def written_range(figure: Figure, units: str, writing: Writing = ENGLISH) -> str:
    """Value with its range: ``1.6 mm (1.4 – 1.9 mm)``; the value alone where there is none.

    Where both units are wanted the range stands in metric units alone, to stay readable.
    """
    value = written(figure.value, figure.unit, units, writing)
    if not figure.has_range:
        return value
    single = "mm" if units == "both" else units
    low, high = (written(end, figure.unit, single, writing) for end in (figure.low, figure.high))
    if low == high:
        return value
    number, _, unit = low.partition("\u00a0")
    if high.partition("\u00a0")[2] == unit:
        low = number
    return f"{value} ({low} – {high})"


def rounded_up(mm: float, step: float, units: str) -> float:
    """The length rounded up to ``step`` mm, or to a quarter inch where inches are read."""
    step = amounts.MM_PER_INCH / 4 if units == "inches" else step
    return step * math.ceil(mm / step - 1e-9)


class Fields(Mapping[str, str]):
    """Named figures of a plan as text, worked out when asked for."""

    def __init__(self, plan: Plan, more: Mapping[str, str], writing: Writing = ENGLISH) -> None:
        self.plan = plan
        self.more = more
        self.writing = writing

    def __getitem__(self, name: str) -> str:
        if name in self.more:
            return self.more[name]
        key, _, form = name.partition(".")
        figure, units = self.plan.figures[key], self.plan.project.units
        if form == "range":
            return written_range(figure, units, self.writing)
        value = figure.value
        if form == "about":
            value = _two_figures(value)
        elif form in ("up", "cut"):
            step = 5.0 if form == "cut" or value < 100 else 10.0
            value = rounded_up(value, step, units)
        return written(value, figure.unit, units, self.writing)

    @property
    def names(self) -> tuple[str, ...]:
        """The names without the forms."""
        return (*self.more, *self.plan.figures)

    def __iter__(self) -> Iterator[str]:
        yield from self.more
        for key in self.plan.figures:
            yield from (f"{key}.{form}".rstrip(".") for form in FORMS)

    def __len__(self) -> int:
        return len(self.more) + len(FORMS) * len(self.plan.figures)

    def __contains__(self, name: object) -> bool:
        key, _, form = str(name).partition(".")
        return name in self.more or (key in self.plan.figures and form in FORMS)


def _two_figures(value: float) -> float:
    """The value to two figures: a width of 20.7 mm is about 21 mm."""
    if not value:
        return 0.0
    scale = 10.0 ** (1 - math.floor(math.log10(abs(value))))
    return round(value * scale) / scale
