"""Measured values: takes text such as ``about 3 mm``, gives mm, g, min, rates and readings."""

from __future__ import annotations

import re

from sheetgen import units
from sheetgen.model.schema import Entry
from sheetgen.model.values import UNKNOWN, Amount, PicksOver, PutUp, Reading, Unknown
from sheetgen.read.findings import CURLY, Misread, straight
from sheetgen.read.mistyped import mistyped
from sheetgen.read.walk import whole_number

ABOUT = 0.10
"""Half the range of ``about``, as a part of the value: our convention, told in the guide."""

MINUS = ("-", "−")
LONGEST = 60
"""Characters of a quantity; longer ones would make numbers that no float holds."""

MOST_GRAMS = 1e6
MOST_MILLIMETRES = 1e9
_PICKS_PER_MM = (0.01, 20.0)

_TO = re.compile(r"(.+?) to (.+)")
_GIVE_OR_TAKE = re.compile(r"(.+?) ?(?:±|\+-|\+/-) ?(.+)")
_DASH = re.compile(r"[\d.]+ ?(?:[a-z]+ ?)?[-–] ?\d.*")
_UNIT = re.compile(r"[A-Za-z]+$")
_PICKS = re.compile(r"(\S+) (?:picks )?in (.+)")
_PICKS_PER = re.compile(r"([^\s/]+) ?(?:(?:picks )?per |/ ?)(\S+)")
_PARTED = re.compile(r"\s*(?:,|;|=|\bper\b|(?<=[A-Za-z.])\s*/)\s*")
PUT_UP = '"50 g, 210 m"'
"""A put-up as it may stand anywhere, inside braces too."""
_STEPS: dict[units.Dimension, tuple[tuple[str, float], ...]] = {
    "length": (("m", 1000.0), ("cm", 10.0), ("mm", 1.0)),
    "mass": (("kg", 1000.0), ("g", 1.0)),
    "time": (("h", 60.0), ("min", 1.0)),
}


def quantity(written: str, dimension: units.Dimension) -> float:
    """A quantity in mm, g or min; QuantityError or Misread when it is none."""
    if len(written) > LONGEST:
        raise Misread("not-a-quantity", f"too long for a {dimension}", hint="a number and a unit")
    try:
        return units.quantity(written, dimension)
    except units.QuantityError as problem:
        raise mistyped(written, dimension) or problem from None


def length(written: str, entry: Entry) -> float:
    """A length in mm."""
    return _within(quantity(written, "length"), entry, "length")


def mass(written: str, entry: Entry) -> float:
    """A mass in g."""
    return _within(quantity(written, "mass"), entry, "mass")


def time(written: str, entry: Entry) -> float:
    """A time in min."""
    return _within(quantity(written, "time"), entry, "time")


def rate(written: str, entry: Entry) -> float:
    """A number per length, per mm."""
    if len(written) > LONGEST:
        raise Misread("not-a-rate", "too long for a number per length", hint="e.g. 16 per cm")
    try:
        value = units.rate(written)
    except units.QuantityError as problem:
        raise mistyped(written, "number per length") or problem from None
    low, high = entry.low or 0.0, entry.high
    if value < low or (high is not None and value > high):
        unit, mm = ("cm", 10.0) if low * 10 >= 0.1 else ("m", 1000.0)
        allowed = f"{low * mm:g} to {(high or 0) * mm:g} per {unit}"
        raise Misread("out-of-range", "outside what is possible", allowed=allowed)
    return value


def reading(written: str, entry: Entry) -> Reading | Unknown:
    """A length that may be uncertain: plain, ``about``, a range, give or take, or ``unknown``."""
    if written == UNKNOWN.value:
        return UNKNOWN
    written = units.plain_form(written)
    if (rest := units.without_about(written)) is not None:
        value = length(rest, entry)
        return Reading(value, value * (1 - ABOUT), value * (1 + ABOUT), sure=False)
    if match := _GIVE_OR_TAKE.fullmatch(written):
        value = length(_with_unit_of(match[2], match[1]), entry)
        off = quantity(match[2], "length")
        if off >= value:
            raise Misread("range", "more to take than there is", hint="the second must be smaller")
        return Reading(value, value - off, value + off, sure=False)
    if _DASH.fullmatch(written):
        raise Misread("range", "a range is written with “to”", hint="write e.g. 2.7 to 3.3 mm")
    if match := _TO.fullmatch(written):
        low, high = _ends(match[1], match[2], entry)
        return Reading((low + high) / 2, low, high, sure=False)
    value = length(written, entry)
    return Reading(value, value, value)


def _ends(first: str, second: str, entry: Entry) -> tuple[float, float]:
    low, high = length(_with_unit_of(second, first), entry), length(second, entry)
    if low > high:
        raise Misread(
            "range", "the first is larger than the second", hint="write the smaller first"
        )
    return low, high


def _with_unit_of(second: str, first: str) -> str:
    """``2.7 to 3.3 mm`` and ``3 +- 0.3 mm`` give both figures the unit of the second."""
    unit = _UNIT.search(second)
    return f"{first} {unit[0]}" if unit and not _UNIT.search(first) else first


def amount(written: str, entry: Entry) -> Amount:
    """A mass or a length."""
    unit = _UNIT.search(units.plain_form(written[: LONGEST + 1]).rstrip("."))
    if unit and units.unit_named(unit[0], "length"):
        return Amount(length=_below(quantity(written, "length"), MOST_MILLIMETRES))
    if unit and units.unit_named(unit[0], "mass"):
        return Amount(mass=_below(quantity(written, "mass"), MOST_GRAMS))
    allowed = ", ".join(units.WRITTEN["mass"] + units.WRITTEN["length"])
    raise Misread(
        "not-a-quantity",
        "this is neither a mass nor a length",
        allowed=f"a number and one of {allowed}",
        hint="write e.g. 35 g or 60 m",
    )


def put_up(written: str, entry: Entry) -> PutUp:
    """Mass and length as sold, in either order: ``50 g, 210 m``, ``210 m per 50 g``, ``50g/210m``.

    Misread where a quote that is none of YAML's stands round it.
    """
    hint = f"write mass and length, e.g. {PUT_UP}"
    if written.startswith(CURLY) or written.endswith(CURLY):
        raise Misread(
            "put-up",
            "curly quotes are not quotes here",
            hint=f"write it with straight quotes: {straight(written)}",
        )
    parts = [amount(part, entry) for part in _PARTED.split(written) if part]
    masses = [a.mass for a in parts if a.mass is not None]
    lengths = [a.length for a in parts if a.length is not None]
    if len(masses) != 1 or len(lengths) != 1:
        raise Misread("put-up", "one mass and one length are wanted", hint=hint)
    if masses[0] <= 0 or lengths[0] <= 0:
        raise Misread("out-of-range", "neither can be 0", hint=hint)
    return PutUp(masses[0], lengths[0])


def picks(written: str, entry: Entry) -> PicksOver:
    """``32 in 5 cm`` or ``16 per cm``: picks counted over a length."""
    if written.startswith(MINUS):
        raise Misread("negative", "picks cannot be fewer than none", hint="take the minus out")
    if match := _PICKS.fullmatch(written):
        counted = _picks(match[1], match[2])
    elif match := _PICKS_PER.fullmatch(written):
        counted = _picks(match[1], f"1 {match[2]}")
    else:
        raise Misread(
            "not-picks",
            "this does not say how many picks in what length",
            hint="write e.g. 32 in 5 cm",
        )
    low, high = _PICKS_PER_MM
    if not low <= counted.picks / counted.length <= high:
        raise Misread(
            "out-of-range",
            "outside what can be woven",
            allowed=f"{low * 10:g} to {high * 10:g} picks in a cm",
        )
    return counted


def _picks(number: str, over: str) -> PicksOver:
    picks, mm = whole_number(number, 1, 1_000_000), quantity(over, "length")
    if mm <= 0:
        raise Misread("out-of-range", "no length to count over", hint="write e.g. 32 in 5 cm")
    return PicksOver(picks, mm)


def _below(value: float, most: float) -> float:
    if value > most:
        raise Misread("out-of-range", "more than can be", hint="check the number and the unit")
    return value


def _within(value: float, entry: Entry, dimension: units.Dimension) -> float:
    low, high = entry.low or 0.0, entry.high
    if low <= value and (high is None or value <= high):
        return value
    upto = f" to {shown(high, dimension)}" if high is not None else " or more"
    raise Misread(
        "out-of-range", "outside what is possible", allowed=f"{shown(low, dimension)}{upto}"
    )


def shown(value: float, dimension: units.Dimension) -> str:
    """A bound as one would say it: in the largest unit of which it holds a whole number.

    >>> shown(50000, "length"), shown(0.5, "length"), shown(1440, "time")
    ('50 m', '0.5 mm', '24 h')
    """
    for unit, size in _STEPS[dimension]:
        if value >= size and value % size == 0:
            return f"{value / size:g} {unit}"
    return f"{value:g} {units.CANONICAL[dimension]}"
