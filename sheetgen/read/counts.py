"""Yarn counts: takes text such as ``20/2 Nm``, gives the resultant linear density in tex.

ASTM D2260 for the systems; the ways of writing plies are those of the trade (Brooks, Cotton
Manufacturing: 2/80s cotton wraps 40, spun silk 30/2 wraps 30). Take-up of plying is neglected.
"""

from __future__ import annotations

import re

from sheetgen import units
from sheetgen.model.schema import Entry
from sheetgen.model.values import Count
from sheetgen.read.findings import Misread, did_you_mean, listed
from sheetgen.read.measures import LONGEST, quantity

LOWEST_TEX = 0.5
HIGHEST_TEX = 20000.0
MOST_PLIES = 50
SPUN_SILK = "spun silk"

_N = r"(\d+(?:\.\d+)?)"
_RESULTANT = re.compile(rf"R ?{_N} ?(\w+) ?/ ?(\d+)", re.ASCII)
_TIMES = re.compile(rf"{_N} ?(\w+) ?[x×] ?(\d+)", re.ASCII)
_STROKE = re.compile(rf"{_N} ?/ ?{_N} ?([A-Za-z]+)((?: [a-z]+)*)", re.ASCII)
_SINGLE = re.compile(rf"{_N} ?([A-Za-z]+)", re.ASCII)
_BARE = re.compile(rf"R? ?{_N}(?: ?/ ?{_N})*", re.ASCII)
_PER = re.compile(r"(.+?[A-Za-z.]) ?(?: per |/) ?((?:[\d.]+ ?)?[A-Za-z]+)", re.ASCII)

_FORMS = "20/2 Nm, 2/20 NeW, 8/2 NeC, R 60 tex/2, 60 tex, 60 tex x 2, 400 m per 100 g"


def count(written: str, entry: Entry) -> Count:
    """A yarn count in any of the forms; Misread when it is none or names no system."""
    if len(written) > LONGEST:
        raise _no_count()
    if re.fullmatch(r".*\b(wpi|wraps?)\b.*", written, re.IGNORECASE):
        raise Misread("not-a-count", "wraps are no count", hint="write e.g. “wraps: 18 per in”")
    tex, system, plies = _figures(written)
    if not LOWEST_TEX <= tex <= HIGHEST_TEX:
        raise Misread(
            "out-of-range",
            f"that would be a yarn of {tex:.3g} tex",
            allowed=f"{LOWEST_TEX:g} to {HIGHEST_TEX:g} tex",
            hint="check the number and the system",
        )
    return Count(written, tex, system, plies)


def _figures(written: str) -> tuple[float, str, int]:
    """Resultant tex, system and plies."""
    if match := _PER.fullmatch(written):
        return _length_per_mass(match[1], match[2]), "length per mass", 1
    if match := _RESULTANT.fullmatch(written):
        system = _known(match[2])
        if system not in units.DIRECT:
            raise _not_so(system, "R stands for the resultant in tex, dtex or den")
        return _density(match[1], system), system, _plies(match[3])
    if match := _TIMES.fullmatch(written):
        system, plies = _known(match[2]), _plies(match[3])
        if system not in units.DIRECT:
            raise _not_so(system, "x is written in tex, dtex or den only")
        return _density(match[1], system) * plies, system, plies
    if match := _STROKE.fullmatch(written):
        return _with_stroke(match[1], match[2], _known(match[3]), match[4].strip())
    if match := _SINGLE.fullmatch(written):
        system = _known(match[2])
        return _density(match[1], system), system, 1
    if _BARE.fullmatch(written):
        raise Misread(
            "no-count-system",
            "a count without its system",
            allowed=listed(units.COUNT_SYSTEMS),
            hint="see the label; mostly cotton is in NeC, linen in NeL, wool and silk in Nm",
        )
    raise _no_count()


def _with_stroke(one: str, other: str, system: str, words: str) -> tuple[float, str, int]:
    if system in units.DIRECT:
        raise Misread(
            "ambiguous-count",
            "it cannot be told whether this is the single or the whole yarn",
            hint=f"the whole: “R {one} {system}/{other}”, the single: “{one} {system} x {other}”",
        )
    if words not in ("", SPUN_SILK) or (words and system != "NeC"):
        raise Misread(
            "not-a-count", f"“{words}” cannot stand here", hint=f"only “30/2 NeC {SPUN_SILK}”"
        )
    if float(one) == 0 or float(other) == 0:
        raise Misread("out-of-range", "neither number can be 0", hint="write e.g. 20/2 Nm")
    number, plies = _told_apart(one, other)
    tex = _density(number, system)
    return (tex if words else tex * plies), system, plies


def _told_apart(one: str, other: str) -> tuple[str, int]:
    """Count and plies of ``20/2`` or ``2/20``: plies are the smaller whole number."""
    whole = sorted((n for n in (one, other) if "." not in n), key=int)
    if not whole:
        raise Misread("not-a-count", "plies are a whole number", hint="write e.g. 7.5/2 Nm")
    plies = whole[0]
    return (other if plies == one else one), _plies(plies)


def _plies(written: str) -> int:
    if not 1 <= int(written) <= MOST_PLIES:
        raise Misread("out-of-range", "so many plies cannot be", allowed=f"1 to {MOST_PLIES} plies")
    return int(written)


def _density(number: str, system: str) -> float:
    value = float(number)
    if value == 0:
        raise Misread("out-of-range", "a count cannot be 0", hint="check the number")
    return units.linear_density(value, system)


def _length_per_mass(long: str, heavy: str) -> float:
    if units.unit_named(heavy, "mass"):
        heavy = f"1 {heavy}"
    metres, grams = quantity(long, "length") / 1000, quantity(heavy, "mass")
    if metres == 0 or grams == 0:
        raise Misread("out-of-range", "neither can be 0", hint="write e.g. 400 m per 100 g")
    return 1000 * grams / metres


def _known(system: str) -> str:
    if system in units.COUNT_SYSTEMS:
        return system
    choices = listed(units.COUNT_SYSTEMS)
    raise Misread(
        "no-count-system",
        f"“{system}” is not a count system known here",
        allowed=choices,
        hint=did_you_mean(system, units.COUNT_SYSTEMS, f"use one of {choices}"),
    )


def _not_so(system: str, why: str) -> Misread:
    return Misread("not-a-count", why, hint=f"write e.g. “20/2 {system}”")


def _no_count() -> Misread:
    return Misread("not-a-count", "this is not a yarn count", hint=f"write e.g. {_FORMS}")
