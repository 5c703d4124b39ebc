"""Facts: takes what is stated of a yarn, gives a warning where two statements contradict."""

from __future__ import annotations

from sheetgen.amounts import plain, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.constants import (
    BALL_WRAPPED_THICKER,
    FACTS_DIFFER,
    FIBRE_DENSITY,
    WRAPPED_THICKER,
)
from sheetgen.plan.yarn import diameter_from_count, diameter_from_wraps, packing_of, stated_tex


def facts_told(project: Project) -> list[Diagnostic]:
    """Every pair of statements of one yarn that cannot both be meant."""
    return [
        told
        for yarn in project.yarns
        for told in (_masses(yarn), _thicknesses(yarn), _thickness_by_mass(yarn))
        if told is not None
    ]


def _masses(yarn: Yarn) -> Diagnostic | None:
    """Count against put-up, both as tex."""
    if yarn.count is None or yarn.put_up is None:
        return None
    count, sold = yarn.count.tex, 1e6 * yarn.put_up.mass / yarn.put_up.length
    if _factor(count, sold) <= FACTS_DIFFER.value:
        return None
    return _disagree(
        yarn,
        f"the count {yarn.count.text} is {_tex(count)}, the put-up makes it {_tex(sold)}",
        "put-up",
        "weigh a measured length, and see whether the count’s system and plies are right",
    )


def _thicknesses(yarn: Yarn) -> Diagnostic | None:
    """Measured diameter against wraps, both as mm."""
    if not isinstance(yarn.diameter, Reading) or yarn.wraps is None:
        return None
    across, wrapped = yarn.diameter, diameter_from_wraps(yarn.wraps)
    if _beyond(wrapped, across.low, across.high) <= FACTS_DIFFER.value:
        return None
    return _disagree(
        yarn,
        f"the diameter is {_mm(across.value)}, the wraps make it {_mm(wrapped)}",
        "wraps",
        "wrap it anew, pushed together until no more go in, and measure across a stretch of it",
    )


def _thickness_by_mass(yarn: Yarn) -> Diagnostic | None:
    """Diameter or wraps against the diameter that goes with count or put-up.

    Soft yarns wrap thicker than the formula of a firm yarn, those sold by the ball most of all;
    none wraps much thinner.
    """
    stated = stated_tex(yarn)
    if isinstance(yarn.diameter, Reading):
        given, low, high = "diameter is", yarn.diameter.low, yarn.diameter.high
        value = yarn.diameter.value
    elif yarn.wraps is not None:
        given, value = "wraps make the diameter", diameter_from_wraps(yarn.wraps)
        low = high = value
    else:
        return None
    if stated is None:
        return None
    density = FIBRE_DENSITY[yarn.fibre or "wool"].value
    firm = diameter_from_count(stated[0], density, packing_of(yarn.fibre, yarn.preparation).value)
    thicker = WRAPPED_THICKER if yarn.count else BALL_WRAPPED_THICKER
    if low <= firm * thicker.value and high >= firm / FACTS_DIFFER.value:
        return None
    mass, field = (
        (f"the count {yarn.count.text}", "count") if yarn.count else ("the put-up", "put-up")
    )
    return _disagree(
        yarn,
        f"the {given} {_mm(value)}, {mass} ({_tex(stated[0])}) is that of a firm yarn of "
        f"{_mm(firm)}",
        field,
        "measure or wrap it anew, and see whether unit, system and plies are right",
    )


def _factor(a: float, b: float) -> float:
    return max(a, b) / min(a, b)


def _beyond(value: float, low: float, high: float) -> float:
    """How many times ``value`` lies beyond the nearer end of a range; 1 inside it."""
    return max(low / value, value / high, 1.0)


def _mm(value: float) -> str:
    return f"{plain(value, 2)} mm"


def _tex(value: float) -> str:
    return f"{significant(value)} tex"


def _disagree(yarn: Yarn, message: str, field: str, hint: str) -> Diagnostic:
    return Diagnostic(
        "yarn-facts-disagree",
        "warning",
        f"“{yarn.name}”: {message}",
        ("yarns", yarn.name, field),
        hint=hint,
    )
