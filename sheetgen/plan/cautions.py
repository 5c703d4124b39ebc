"""Cautions: takes a Plan, gives what of it a small child may swallow or be caught in, by rule.

Nothing here is advice: each finding names the published rule and its figure, and the sheets send
the reader to the rules of the place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.model.beads import BeadKind
from sheetgen.plan.beads import bead_length
from sheetgen.plan.constants import Constant
from sheetgen.plan.plan import Plan

SMALL_PARTS = "16 CFR 1501.4"
CYLINDER_WIDTH = Constant(31.7, "mm", SMALL_PARTS, "published")
CYLINDER_SHALLOW = Constant(25.4, "mm", SMALL_PARTS, "published")
CYLINDER_DEEP = Constant(57.1, "mm", SMALL_PARTS, "published")
SMALL_BALLS = "16 CFR 1500.18(a)(17)"
BALL_WIDTH = Constant(44.4, "mm", f"{SMALL_BALLS}, number of the clause", "from memory")
CORDS = "EN 71-1, clause 5.4"
FREE_CORD = Constant(220.0, "mm", f"{CORDS}, in the edition seen", "published")
LOOP_AROUND = Constant(380.0, "mm", f"{CORDS}, in the edition seen", "published")

Profile = tuple[tuple[float, float], ...]
"""A turned body: places along its axis from its middle, and the radius there, mm."""
_AROUND, _TILTS = 48, 91


@dataclass(frozen=True, slots=True)
class Caution:
    """What a rule names and this plan has: ``names`` of beads, or a length of ``value`` mm."""

    key: str
    rule: str
    limit: float
    value: float
    names: tuple[str, ...] = ()


def cautions_of(plan: Plan) -> tuple[Caution, ...]:
    """Every rule that names something in this plan: beads first, then cords and loops."""
    return (*_beads(plan), *_cords(plan))


def is_small_part(kind: BeadKind) -> bool:
    """Whether a bead goes wholly into the cylinder for small parts, some way round."""
    return fits_cylinder(profile_of(kind.shape, bead_length(kind), kind.diameter))


def is_small_ball(kind: BeadKind) -> bool:
    """Whether a bead of round outline passes the ring for small balls."""
    return kind.shape == "round" and min(kind.diameter, bead_length(kind)) <= BALL_WIDTH.value


def profile_of(shape: str, length: float, diameter: float) -> Profile:
    """A bead as a turned body, mm: an ellipsoid if it is round, else as large as a cylinder.

    >>> profile_of("cylinder", 8, 6)
    ((-4.0, 3.0), (4.0, 3.0))
    """
    h, r = length / 2, diameter / 2
    if shape != "round":
        return ((-h, r), (h, r))
    angles = [math.pi * k / 24 for k in range(25)]
    return tuple((-h * math.cos(a), r * math.sin(a)) for a in angles)


def fits_cylinder(profile: Profile) -> bool:
    """Whether a turned body goes wholly into the slanted cylinder of 16 CFR 1501.4.

    It is tried at every whole degree of tilt, along the slant and against it, on the deep side.

    >>> fits_cylinder(profile_of("round", 31.6, 31.6)), fits_cylinder(profile_of("round", 32, 32))
    (True, False)
    """
    return any(_fits_tilted(profile, math.radians(t)) for t in range(1 - _TILTS, _TILTS))


def _fits_tilted(profile: Profile, tilt: float) -> bool:
    """The body with its axis ``tilt`` radians off the upright, towards the deep side."""
    radius, shallow, deep = (CYLINDER_WIDTH.value / 2, CYLINDER_SHALLOW.value, CYLINDER_DEEP.value)
    points = tuple(_points(profile, tilt))
    if any(abs(y) > radius for _, y, _ in points):
        return False
    rooms = [(x, math.sqrt(radius * radius - y * y)) for x, y, _ in points]
    shift = min(room - x for x, room in rooms)
    if any(x + shift < -room - 1e-9 for x, room in rooms):
        return False
    top = min(z for _, _, z in points)
    slope, middle = (deep - shallow) / (2 * radius), (deep + shallow) / 2
    return all(z - top <= middle + slope * (x + shift) + 1e-9 for x, _, z in points)


def _points(profile: Profile, tilt: float) -> Iterator[tuple[float, float, float]]:
    """Points on the body's surface: x along the slant, y across it, z down, mm."""
    c, s = math.cos(tilt), math.sin(tilt)
    for along, r in profile:
        for k in range(_AROUND):
            turn = 2 * math.pi * k / _AROUND
            out, y = r * math.cos(turn), r * math.sin(turn)
            yield along * s + out * c, y, along * c - out * s


def _beads(plan: Plan) -> Iterator[Caution]:
    if plan.string is None:
        return
    used = [k for k in plan.string.kinds if k.name in plan.string.string.counts]
    small = [k for k in used if is_small_part(k)]
    balls = [k for k in used if k not in small and is_small_ball(k)]
    for key, rule, limit, kinds in (
        ("small parts", SMALL_PARTS, CYLINDER_WIDTH, small),
        ("small balls", SMALL_BALLS, BALL_WIDTH, balls),
    ):
        if kinds:
            names = tuple(k.name for k in kinds)
            yield Caution(key, rule, limit.value, min(k.diameter for k in kinds), names)


def _cords(plan: Plan) -> Iterator[Caution]:
    """The finished piece as a loop or a free cord, against the figures for small children."""
    length = plan.string.cord if plan.string else plan.figures["finished_length"].value
    if plan.project.form == "loop":
        if length > LOOP_AROUND.value:
            yield Caution("loop", CORDS, LOOP_AROUND.value, length)
    elif length > FREE_CORD.value:
        yield Caution("free cord", CORDS, FREE_CORD.value, length)
