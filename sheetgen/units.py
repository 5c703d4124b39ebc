"""The edge between written quantities and the engine's plain floats.

Inside, lengths are millimetres, masses grams, times minutes, linear densities tex. The only place
that knows other units is the pint registry made here from ``units.txt``. Loading it takes longer
than planning a piece, so what it says of the units that may be written is kept in ``factors.txt``:
``python -m sheetgen.units`` asks pint and writes that file anew, and pint is asked again at once
where the two files do not belong together.
"""

from __future__ import annotations

import re
import unicodedata
import zlib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
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

_SPELT: dict[str, str] = {
    name: unit
    for unit, names in (
        ("mm", "millimetre millimeter"),
        ("cm", "centimetre centimeter"),
        ("m", "metre meter"),
        ("in", "inch inche"),
        ("ft", "foot feet"),
        ("yd", "yard yd"),
        ("g", "gram gramme"),
        ("kg", "kilogram kilo"),
        ("oz", "ounce"),
        ("lb", "pound lb"),
        ("min", "minute min"),
        ("h", "hour hr"),
    )
    for name in names.split()
}
"""Units written in full, without the s of the plural."""

_NUMBER = r"\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+"
_PART = re.compile(rf"({_NUMBER})\s*([A-Za-z]+)\.?\s*")
_PARTS = re.compile(rf"{_PART.pattern}(?:(?<=\s){_PART.pattern})*")
_BARE = re.compile(_NUMBER)
_COMMA = re.compile(r"\d+,\d+\s*[A-Za-z]*")
_RATE = re.compile(rf"({_NUMBER})\s*(?:\s(?:per|a)\s+|/\s*)([A-Za-z]+)\.?")
_PER_INCH = re.compile(rf"({_NUMBER})\s*(?:[wept]pi)", re.IGNORECASE)
_ABOUT = re.compile(
    r"(?:(?:about|around|approximately|approx\.?|roughly|circa|ca?\.?)\s+|(?:ca?\.|~|≈)\s*)(?=\d)",
    re.IGNORECASE,
)
_INCHES = re.compile(r"(?<=\d)\s*(?:''|[\"″”])")
_TOGETHER_FEET = re.compile(r"(?<=\d)['′’](?=\d{1,2}\s*(?:''|[\"″”]))")  # 4'6", not 1'200 mm
_FEET = re.compile(r"(?<=\d)\s*['′’]")
_QUOTES = "“”„‟‘’‚«»\"'"


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

    text = _file("units.txt").read_text(encoding="utf-8")
    return pint.UnitRegistry(text.splitlines(), case_sensitive=True)


@cache
def factor(unit: str, canonical: str) -> float:
    """How many ``canonical`` one ``unit`` is, both names in the registry."""
    known = _kept().get((unit, canonical))
    return asked_of_pint(unit, canonical) if known is None else known


def asked_of_pint(unit: str, canonical: str) -> float:
    """The same by the registry itself."""
    return float(registry().Quantity(1.0, unit).to(canonical).magnitude)


@cache
def _kept() -> dict[tuple[str, str], float]:
    """Unit and canonical unit -> factor as pint gave it; nothing if ``units.txt`` has changed."""
    try:
        mark, *lines = _file("factors.txt").read_text(encoding="utf-8").splitlines()
    except OSError:
        return {}
    if mark != _mark():
        return {}
    rows = (line.split(" = ") for line in lines)
    return {tuple(names.split(" in ")): float(size) for names, size in rows}  # type: ignore[misc]


def _mark() -> str:
    """The first line of ``factors.txt``: which ``units.txt`` it was made from."""
    return f"# from units.txt, crc32 {zlib.crc32(_file('units.txt').read_bytes()):08x}, by pint"


def _file(name: str) -> Path:
    return Path(__file__).with_name(name)


def kept_factors() -> str:
    """What ``factors.txt`` is to hold, all of it worked out by pint."""
    pairs = [(unit, CANONICAL[kind]) for kind, units in WRITTEN.items() for unit in units]
    pairs += [
        (unit, "tex" if name in DIRECT else "metre / gram") for name, unit in COUNT_SYSTEMS.items()
    ]
    lines = (f"{unit} in {to} = {asked_of_pint(unit, to)!r}" for unit, to in pairs)
    return "\n".join((_mark(), *lines, ""))


def plain_form(text: str) -> str:
    r"""The text with fractions and marks for inches and feet as they are read here.

    >>> plain_form("1½ m"), plain_form("5'6\""), plain_form("3\u20448 in")
    ('1 1/2 m', '5 ft 6 in', '3/8 in')
    """
    if not text.isascii():
        spread = (
            f" {unicodedata.normalize('NFKC', c)}" if unicodedata.category(c) == "No" else c
            for c in text
        )
        text = "".join(spread).replace("\u2044", "/")
    text = _FEET.sub(" ft", _INCHES.sub(" in", _TOGETHER_FEET.sub(" ft ", text)))
    return " ".join(text.split())


def without_about(text: str) -> str | None:
    """What follows ``about``, ``ca.`` or ``~`` before a number; None when nothing such is there.

    >>> without_about("ca. 3 mm"), without_about("3 mm")
    ('3 mm', None)
    """
    match = _ABOUT.match(text)
    return text[match.end() :] if match else None


def unit_named(word: str, dimension: Dimension) -> str | None:
    """The unit of that name in the dimension, short or written in full."""
    unit = _SPELT.get(word.lower().removesuffix("s"), word)
    return unit if unit in WRITTEN[dimension] else None


def quantity(text: str, dimension: Dimension) -> float:
    """Read ``number unit`` (also ``1/4 in``, ``1½ in``, ``1 ft 2 in``, ``32"``) as mm, g or min.

    Raises :class:`QuantityError`; a number without a unit is never guessed.

    >>> quantity("28 cm", "length"), quantity("2 h 30 min", "time")
    (280.0, 150.0)
    """
    text = plain_form(text)
    if not _PARTS.fullmatch(text):
        raise _unreadable(text, dimension)
    total, before = 0.0, float("inf")
    for amount, word in _PART.findall(text):
        unit = unit_named(word, dimension)
        if unit is None:
            raise _wrong_unit(word, dimension)
        size = factor(unit, CANONICAL[dimension])
        if size >= before:
            hint = f"write the larger unit first, e.g. {_TOGETHER[dimension]}"
            raise QuantityError("not-a-quantity", f"this is not one {dimension}", hint)
        before = size
        total += number(amount) * size
    return total


def number(text: str) -> float:
    """Read ``12``, ``0.5``, ``3/8`` or ``1 3/8`` as matched; QuantityError for one over nought."""
    total = 0.0
    for part in text.split():
        above, _, below = part.partition("/")
        if below and int(below) == 0:
            raise QuantityError("not-a-number", "a fraction cannot have 0 below", "write e.g. 1/4")
        total += float(above) / (int(below) if below else 1)
    return total


def rate(text: str) -> float:
    """Read ``16 per cm``, ``16/cm`` or ``40 per inch`` as a number per millimetre."""
    text = plain_form(text)
    match = _RATE.fullmatch(text)
    unit = unit_named(match[2], "length") if match else None
    if match is None or unit is None:
        raise QuantityError("not-a-rate", "this is not a number per length", _as_rate(text))
    return number(match[1]) / factor(unit, "mm")


def _as_rate(text: str) -> str:
    """How to write a number per length that was meant by ``14 wpi``, ``14 cm`` or ``14``."""
    if match := _PER_INCH.fullmatch(text):
        return f"write {match[1]} per in"
    if _BARE.fullmatch(text):
        return f"say in what length: {text} per cm or {text} per in"
    match = _PART.fullmatch(text)
    if match and (unit := unit_named(match[2], "length")):
        return f"write {match[1]} per {unit}"
    return f"write e.g. 16 per cm; lengths: {', '.join(WRITTEN['length'])}"


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


_EXAMPLE: dict[Dimension, str] = {"length": "12 mm", "mass": "50 g", "time": "90 min"}
_TOGETHER = {"length": "1 m 20 cm", "mass": "1 lb 4 oz", "time": "2 h 30 min"}


def _unreadable(text: str, dimension: Dimension) -> QuantityError:
    example = _EXAMPLE[dimension]
    if _BARE.fullmatch(text):
        wanted = f"add one of {', '.join(WRITTEN[dimension])}, e.g. {text} {CANONICAL[dimension]}"
        if dimension == "time":
            wanted = f"write {text} h or {text} min"
        return QuantityError("no-unit", "a number without a unit", wanted)
    if _COMMA.fullmatch(text):
        point = f"write the point: {text.replace(',', '.')}"
        return QuantityError("comma", "a comma in a number", point)
    if text.startswith("-"):
        return QuantityError("negative", f"a {dimension} cannot be negative", f"e.g. {example}")
    bare = text.strip(_QUOTES + " ")
    plain = without_about(bare) or bare
    if plain != text and _PARTS.fullmatch(plain):
        return QuantityError(
            "not-a-quantity", f"a {dimension} alone is wanted here", f"write {plain}"
        )
    return QuantityError(
        "not-a-quantity", f"this is not a {dimension}", f"write a number and a unit, e.g. {example}"
    )


def _wrong_unit(unit: str, dimension: Dimension) -> QuantityError:
    wanted = f"use one of {', '.join(WRITTEN[dimension])}"
    for other in WRITTEN:
        if other != dimension and unit_named(unit, other):
            return QuantityError(
                "wrong-dimension", f"“{unit}” is a unit of {other}, a {dimension} is wanted", wanted
            )
    if unit_named(unit.lower(), dimension):
        wanted = f"in small letters: {unit.lower()}"
    return QuantityError(
        "unknown-unit", f"“{unit}” is not a unit of {dimension} known here", wanted
    )


if __name__ == "__main__":
    _file("factors.txt").write_text(kept_factors(), encoding="utf-8")
