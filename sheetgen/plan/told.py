"""Told: takes a Plan with what was made, gives each quantity as it was measured on the piece."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.plan.figure import Origin
from sheetgen.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Told:
    """One value in the row's unit, with the range it may lie in and where it came from."""

    value: float
    low: float
    high: float
    origin: Origin
    by_rule: bool = False
    """True when it was worked out from a rule of thumb."""


def take_up_from_left_over(warp_end: float, left_over: float, woven: float) -> float:
    """Warp used per length woven: (warp end − left over) / woven, all mm; 1 at the least.

    ``left_over`` is what of one end is not in the weave, both tails and what lies between pieces
    included; ``woven`` is the length of all pieces on that end, before they shrink. Definition of
    take-up; a warp of 180 in of which 31 in stay on the loom and 136 in are woven has
    (180 − 31) / 136 = 1.096 (Handwoven, March/April 2011, pp. 52-53).

    >>> round(take_up_from_left_over(180, 31, 136), 3)
    1.096
    """
    return (warp_end - left_over) / woven


def on_the_loom(project: Project, length: float) -> float:
    """A length (mm) of the finished piece as it was on the loom: length / (1 − shrinkage)."""
    return length / (1 - project.shrinkage)


def woven_in_all(plan: Plan) -> float | None:
    """Length (mm) woven on one warp end before shrinkage, as measured; None if it was not."""
    made = plan.project.made
    if made is None or made.length is None:
        return None
    return on_the_loom(plan.project, made.length.value) * plan.warp.pieces


def warp_end(plan: Plan) -> Told | None:
    """Length (mm) of one warp end as it was cut."""
    made = plan.project.made
    return read(made.warp_end, "measured") if made else None


def picks(plan: Plan) -> Told | None:
    """Picks of one piece as counted, else from those counted over a part of its length."""
    made = plan.project.made
    if made is None:
        return None
    if made.picks_woven is not None:
        return exactly(made.picks_woven, "measured")
    if made.picks is None or made.length is None:
        return None
    each = made.picks.length / made.picks.picks
    return _between(*(n / each for n in _ends(made.length)))


def spacing(plan: Plan) -> Told | None:
    """Length of one pick on the loom, mm: length / picks, before the piece shrank."""
    made, project = plan.project.made, plan.project
    if made is None:
        return None
    origin: Origin = "computed" if project.shrinkage else "measured"
    if made.picks is not None:
        each = on_the_loom(project, made.picks.length / made.picks.picks)
        return exactly(each, origin)
    if made.picks_woven is None or made.length is None:
        return None
    return _between(*(on_the_loom(project, n / made.picks_woven) for n in _ends(made.length)))


def take_up(plan: Plan) -> Told | None:
    """As stated, else from the warp that was left over: see :func:`take_up_from_left_over`."""
    made = plan.project.made
    if made is None:
        return None
    if made.take_up is not None:
        return exactly(made.take_up, "measured")
    woven, left = woven_in_all(plan), made.left_over_warp
    if woven is None or left is None or made.length is None:
        return None
    end = made.warp_end.value if made.warp_end else plan.warp.length
    scale = woven / made.length.value
    return _between(
        take_up_from_left_over(end, left.value, woven),
        take_up_from_left_over(end, left.high, scale * made.length.high),
        take_up_from_left_over(end, left.low, scale * made.length.low),
    )


def pace(plan: Plan) -> Told | None:
    """Picks a minute: of the sessions whose picks were counted, else of all picks and all time."""
    made = plan.project.made
    if made is None or not made.time:
        return None
    counted = [part for part in made.time if part.picks is not None and part.took]
    if counted:
        picks = sum(part.picks or 0 for part in counted)
        return exactly(picks / fsum(part.took for part in counted), "computed")
    time = fsum(part.took for part in made.time)
    if made.picks_woven is None or not time:
        return None
    return exactly(made.picks_woven * plan.project.pieces / time, "computed")


def read(reading: object, origin: Origin = "stated") -> Told | None:
    """A reading with its range; None of anything else."""
    if not isinstance(reading, Reading):
        return None
    return Told(reading.value, reading.low, reading.high, origin)


def _ends(reading: Reading) -> tuple[float, float, float]:
    return reading.value, reading.low, reading.high


def _between(value: float, low: float, high: float) -> Told:
    return Told(value, low, high, "computed")


def exactly(value: float, origin: Origin) -> Told:
    """A value without a range."""
    return Told(value, value, value, origin)
