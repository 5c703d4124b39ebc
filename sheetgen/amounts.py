"""Floats to words: takes mm, g, min and plain numbers, gives what stands on paper ("28 cm").

The reverse of :mod:`sheetgen.units`, without the registry: only exact factors of 25.4 mm and ten.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

MM_PER_INCH = 25.4
PRINT_UNITS = ("mm", "inches", "both")


@dataclass(frozen=True, slots=True)
class Writing:
    """How a language writes amounts: its decimal mark, and its words for those in :data:`WORDS`.

    A word that is not in ``words`` is written as in English.
    """

    decimal: str = "."
    words: Mapping[str, str] = field(default_factory=dict)

    def __call__(self, word: str) -> str:
        """What is written for one of :data:`WORDS`."""
        return self.words.get(word, "under" if word == "less than" else word)


ENGLISH = Writing()
WORDS = (
    "mm", "cm", "m", "in", "yd", "g", "oz", "less than", "h", "min", "tex",
    "per cm", "per in", "turns/m",
)  # fmt: skip
"""Every word that an amount may hold."""


def plain(value: float, places: int, writing: Writing = ENGLISH) -> str:
    """A number with at most ``places`` decimals and no idle noughts, halves rounded up."""
    scaled = math.floor(abs(value) * 10**places + 0.5 + 1e-9) / 10**places
    text = f"{scaled:.{places}f}"
    if places:
        text = text.rstrip("0").rstrip(".").replace(".", writing.decimal)
    return f"−{text}" if value < 0 and scaled else text


def significant(value: float, digits: int = 3, writing: Writing = ENGLISH) -> str:
    """A number to ``digits`` figures, never in powers of ten (for lines of working)."""
    if not value or not math.isfinite(value):
        return plain(value, 0)
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    return plain(value, min(places, 6), writing)


def length(mm: float, units: str = "mm", writing: Writing = ENGLISH) -> str:
    """A length as a weaver reads it; ``units`` is one of :data:`PRINT_UNITS`.

    >>> length(1.624), length(62.0), length(283.4), length(4200.0)
    ('1.62 mm', '62 mm', '28.3 cm', '4.2 m')
    >>> length(283.4, "inches"), length(1.624, "inches")
    ('11 3/16 in', '0.064 in')
    >>> length(1.624, writing=Writing(","))
    '1,62 mm'
    """
    if units == "inches":
        return _inches(mm, writing)
    metric = _metric(mm, writing)
    return f"{metric} / {_inches(mm, writing)}" if units == "both" else metric


def _metric(mm: float, writing: Writing) -> str:
    size = abs(mm)
    if size < 99.95:
        return f"{plain(mm, 2 if size < 9.995 else 1, writing)} {writing('mm')}"
    if size < 999.5:
        return f"{plain(mm / 10, 1, writing)} {writing('cm')}"
    places = 2 if size < 9995 else 1 if size < 99950 else 0
    return f"{plain(mm / 1000, places, writing)} {writing('m')}"


def _inches(mm: float, writing: Writing) -> str:
    inches = mm / MM_PER_INCH
    if abs(inches) < 0.5:
        return f"{plain(inches, 3, writing)} {writing('in')}"
    if abs(inches) >= 120:
        return f"{plain(inches / 36, 2, writing)} {writing('yd')}"
    sixteenths = Fraction(round(abs(inches) * 16), 16)
    whole, part = divmod(sixteenths, 1)
    words = " ".join(str(n) for n in (whole, part) if n) or "0"
    return f"{'−' if inches < 0 else ''}{words} {writing('in')}"


def mass(grams: float, units: str = "mm", writing: Writing = ENGLISH) -> str:
    """A mass; in ounces (28.349523125 g exactly) as well or instead where inches are wanted.

    >>> mass(3.42), mass(0.318)
    ('3.4 g', '0.3 g')
    """
    metric = f"{plain(grams, 1 if grams < 99.95 else 0, writing)} {writing('g')}"
    if grams and grams < 0.05:
        metric = f"{writing('less than')} {plain(0.1, 1, writing)} {writing('g')}"
    if units == "mm":
        return metric
    ounces = f"{plain(grams / 28.349523125, 2, writing)} {writing('oz')}"
    return ounces if units == "inches" else f"{metric} / {ounces}"


def minutes(value: float, writing: Writing = ENGLISH) -> str:
    """A time in hours and minutes, to 5 min above an hour.

    >>> minutes(42.2), minutes(133.0)
    ('42 min', '2 h 15 min')
    """
    if value < 59.5:
        return f"{plain(value, 0)} {writing('min')}"
    rounded = 5 * math.floor(value / 5 + 0.5)
    hours, rest = divmod(rounded, 60)
    whole = f"{hours} {writing('h')}"
    return f"{whole} {rest} {writing('min')}" if rest else whole


def money(minor: int, places: int, currency: str, writing: Writing = ENGLISH) -> str:
    """An amount of money from its minor units, exactly.

    >>> money(320, 2, "EUR"), money(450, 0, "JPY"), money(5, 2, "EUR", Writing(","))
    ('3.20 EUR', '450 JPY', '0,05 EUR')
    """
    whole, part = divmod(minor, 10**places)
    decimals = f"{writing.decimal}{part:0{places}d}" if places else ""
    return f"{whole}{decimals} {currency}"


def per_length(per_mm: float, units: str = "mm", writing: Writing = ENGLISH) -> str:
    """A number per length: per cm, per inch, or both."""
    metric = f"{plain(per_mm * 10, 1, writing)} {writing('per cm')}"
    if units == "mm":
        return metric
    imperial = f"{plain(per_mm * MM_PER_INCH, 1, writing)} {writing('per in')}"
    return imperial if units == "inches" else f"{metric} / {imperial}"


def percent(share: float) -> str:
    """A share as per cent, signed: ``+8 %``."""
    text = plain(share * 100, 0)
    sign = "+" if share > 0 and text != "0" else ""
    return f"{sign}{text} %"
