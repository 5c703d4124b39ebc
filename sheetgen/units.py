"""The edge between written quantities and the engine's plain floats.

Inside, lengths are millimetres, masses grams, times minutes, linear densities tex. The only place
that knows other units is the pint registry made here from ``units.txt``. pint is imported late: a
command that reads no quantity does not pay for it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import pint

Dimension = Literal["length", "mass", "time"]

CANONICAL: dict[Dimension, str] = {"length": "mm", "mass": "g", "time": "min"}
WRITTEN: dict[Dimension, tuple[str, ...]] = {
    "length": ("mm", "cm", "m", "in", "ft", "yd"),
    "mass": ("g", "kg", "oz", "lb"),
    "time": ("min", "h"),
}
COUNT_SYSTEMS: dict[str, str] = {
    "tex": "tex",
    "dtex": "decitex",
    "den": "denier",
    "Nm": "metric_count",
    "NeC": "cotton_count",
    "NeW": "worsted_count",
    "NeL": "linen_lea",
}
"""Names of count systems as written, and their units in the registry."""

DIRECT = frozenset({"tex", "dtex", "den"})
"""Systems in which a larger number is a thicker yarn."""

_NUMBER = r"\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+"
_QUANTITY = re.compile(rf"({_NUMBER})\s*([A-Za-z]+)")
_FEET_INCHES = re.compile(rf"(\d+)\s*ft\s+({_NUMBER})\s*in")
_BARE = re.compile(_NUMBER)
_COMMA = re.compile(r"\d+,\d+\s*[A-Za-z]*")


@dataclass(eq=False)
class QuantityError(ValueError):
    """A quantity that cannot be read: ``reason`` says why, ``hint`` how to write it."""

    code: str
    reason: str
    hint: str

    def __str__(self) -> str:
        return self.reason


@cache
def registry() -> pint.UnitRegistry[Any]:
    """The one pint registry, from our own short list of units."""
    import pint

    text = files("sheetgen").joinpath("units.txt").read_text(encoding="utf-8")
    return pint.UnitRegistry(text.splitlines(), case_sensitive=True)


@cache
def factor(unit: str, canonical: str) -> float:
    """How many ``canonical`` one ``unit`` is, both names in the registry."""
    return float(registry().Quantity(1.0, unit).to(canonical).magnitude)


def quantity(text: str, dimension: Dimension) -> float:
    """Read ``number unit`` (also ``1/4 in``, ``1 1/2 in``, ``1 ft 2 in``) as mm, g or min.

    Raises :class:`QuantityError`; a number without a unit is never guessed.

    >>> quantity("28 cm", "length")
    280.0
    >>> quantity("1 ft 2 in", "length")
    355.59999999999997
    """
    text = text.strip()
    canonical = CANONICAL[dimension]
    allowed = WRITTEN[dimension]
    if dimension == "length" and (both := _FEET_INCHES.fullmatch(text)):
        inches = 12 * float(both[1]) + number(both[2])
        return inches * factor("in", canonical)
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise _unreadable(text, dimension)
    amount, unit = number(match[1]), match[2]
    if unit in allowed:
        return amount * factor(unit, canonical)
    raise _wrong_unit(unit, dimension)


def number(text: str) -> float:
    """Read ``12``, ``0.5``, ``3/8`` or ``1 3/8``; the caller has matched the form.

    Raises :class:`QuantityError` for a fraction over nought.
    """
    total = 0.0
    for part in text.split():
        above, _, below = part.partition("/")
        if below and int(below) == 0:
            raise QuantityError("not-a-number", "a fraction cannot have 0 below", "write e.g. 1/4")
        total += float(above) / (int(below) if below else 1)
    return total


def rate(text: str) -> float:
    """Read ``16 per cm`` or ``40 per in`` as a number per millimetre."""
    before, word, unit = text.strip().partition(" per ")
    allowed = WRITTEN["length"]
    if not word or not _BARE.fullmatch(before.strip()) or unit.strip() not in allowed:
        raise QuantityError(
            "not-a-rate",
            "this is not a number per length",
            f"write e.g. 16 per cm; lengths: {', '.join(allowed)}",
        )
    return number(before) / factor(unit.strip(), "mm")


def linear_density(count: float, system: str) -> float:
    """Tex of a single count in one of :data:`COUNT_SYSTEMS` (ASTM D2260, table 1).

    Direct systems scale; in the others ``count`` is length per mass, so tex is its inverse.

    >>> round(linear_density(10, "Nm"), 6)
    100.0
    """
    unit = COUNT_SYSTEMS[system]
    if system in DIRECT:
        return count * factor(unit, "tex")
    metres_per_gram = count * factor(unit, "metre / gram")
    return 1000.0 / metres_per_gram


def _unreadable(text: str, dimension: Dimension) -> QuantityError:
    units = ", ".join(WRITTEN[dimension])
    example = {"length": "12 mm", "mass": "50 g", "time": "90 min"}[dimension]
    if _BARE.fullmatch(text):
        return QuantityError(
            "no-unit",
            "a number without a unit",
            f"add one of {units}, e.g. {text} {CANONICAL[dimension]}",
        )
    if _COMMA.fullmatch(text):
        return QuantityError(
            "comma", "a comma in a number", f"write the point: {text.replace(',', '.')}"
        )
    if text.startswith("-"):
        return QuantityError("negative", f"a {dimension} cannot be negative", f"e.g. {example}")
    return QuantityError(
        "not-a-quantity", f"this is not a {dimension}", f"write a number and a unit, e.g. {example}"
    )


def _wrong_unit(unit: str, dimension: Dimension) -> QuantityError:
    for other, names in WRITTEN.items():
        if other != dimension and unit in names:
            return QuantityError(
                "wrong-dimension",
                f"“{unit}” is a unit of {other}, a {dimension} is wanted",
                f"use one of {', '.join(WRITTEN[dimension])}",
            )
    return QuantityError(
        "unknown-unit",
        f"“{unit}” is not a unit of {dimension} known here",
        f"use one of {', '.join(WRITTEN[dimension])}",
    )
