"""Stringing: takes the beads and the cord's thickness, gives the cord's length and every fit."""

from __future__ import annotations

import math

from sheetgen.amounts import length, plain
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.beads import BeadKind, Beads, StandsFor
from sheetgen.model.project import Project
from sheetgen.plan.beads import BeadString, bead_length, choose_stringing, finger_room, string_up
from sheetgen.plan.constants import FINGER_ROOM_LEAST, FINGER_ROOM_SHARE, PRESSED
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.fits import fits_told, hole_fits, shortage_told
from sheetgen.plan.plan import StringPlan, Substitution

SLACK = 0.25
"""Bare cord beyond this share of the beads is worth a warning (common practice, no source)."""


def plan_string(
    project: Project, thickness: Figure, ledger: Ledger, told: list[Diagnostic]
) -> StringPlan | None:
    """String the beads, add up the cord, hold holes against it. None if there are no beads."""
    beads = project.beads
    if beads is None:
        return None
    string = string_up(beads, thickness.value)
    ledger.enter("beads", "beads", len(string.beads), "beads", "computed", _counted(string))
    ledger.enter(
        "beads_length",
        "length of the beads",
        string.beads_length,
        "mm",
        "computed",
        " + ".join(
            f"{n} × {plain(bead_length(k), 2)} mm"
            for k in beads.kinds
            if (n := string.counts.get(k.name))
        )
        or "none",
    )
    room, ends_take = _room(beads, string, ledger), _ends_take(project, beads)
    needed = string.string_length + string.knots_take + ends_take
    cord = project.length if project.length is not None else math.ceil(needed + room - 1e-9)
    _enter_cord(project, string, room, ends_take, cord, ledger)
    told.extend(_too_short_or_slack(project, string, needed, room, cord))
    stringing = choose_stringing(beads, thickness.value)
    fits = hole_fits(project, beads, stringing, thickness.value)
    told.extend(fits_told(beads, string, fits, thickness.value, stringing))
    told.extend(shortage_told(beads, string, project.pieces))
    ledger.enter(
        "pressed_cord",
        "cord pressed into a hole",
        PRESSED.value * thickness.value,
        "mm",
        "rule of thumb",
        f"{PRESSED.value} × {length(thickness.value)}",
        between=(PRESSED.value * thickness.low, PRESSED.value * thickness.high),
    )
    start = ends_take / 2 if project.form == "loop" else beads.join or 0.0
    substitutions = tuple(
        _substitution(kind, kind.stands_for, string.counts.get(kind.name, 0))
        for kind in beads.kinds
        if kind.stands_for
    )
    return StringPlan(
        string,
        beads.kinds,
        cord,
        start,
        cord - needed,
        ends_take,
        stringing,
        fits,
        beads.finial,
        substitutions,
    )


def _counted(string: BeadString) -> str:
    return " + ".join(f"{n} {name}" for name, n in string.counts.items()) or "none"


def _room(beads: Beads, string: BeadString, ledger: Ledger) -> float:
    stated = beads.finger_room is not None
    origin: Origin = "stated" if stated else "rule of thumb"
    value = beads.finger_room if beads.finger_room is not None else finger_room(string.beads_length)
    working = (
        "as described"
        if stated
        else f"{plain(FINGER_ROOM_SHARE.value * 100, 0)} % of the beads, at least "
        f"{length(FINGER_ROOM_LEAST.value)}"
    )
    between = (value, value) if stated else (value * 0.75, value * 1.5)
    ledger.enter(
        "finger_room_wanted", "finger room wanted", value, "mm", origin, working, between=between
    )
    return value


def _ends_take(project: Project, beads: Beads) -> float:
    """Cord inside finial, join and ends, mm: both ends of a loop pass the finial."""
    both = 2.0
    join = both * (beads.join or 0.0)
    if beads.finial is None:
        return join
    inside = beads.finial.takes
    if inside is None:
        inside = beads.finial.length or 0.0
    return join + (both if project.form == "loop" else 1.0) * inside


def _enter_cord(
    project: Project, string: BeadString, room: float, ends_take: float, cord: float, ledger: Ledger
) -> None:
    if ends_take:
        ledger.enter(
            "ends_take",
            "cord inside join and finial",
            ends_take,
            "mm",
            "stated",
            "from the finial and the join",
        )
    stated = project.length is not None
    parts = [f"beads and gaps {length(string.string_length)}", f"finger room {length(room)}"]
    if string.knots_take:
        parts.append(f"knots {length(string.knots_take)} more")
    if ends_take:
        parts.append(f"ends {length(ends_take)}")
    ledger.enter(
        "cord_length",
        "length of the cord",
        cord,
        "mm",
        "stated" if stated else "computed",
        "as described" if stated else " + ".join(parts) + ", to the next mm",
        rests_on=("finger_room_wanted",),
    )
    left = cord - string.string_length - string.knots_take - ends_take
    ledger.enter(
        "finger_room",
        "finger room on the cord",
        left,
        "mm",
        "computed",
        "cord less all on it",
        rests_on=("cord_length",),
    )


def _too_short_or_slack(
    project: Project, string: BeadString, needed: float, room: float, cord: float
) -> list[Diagnostic]:
    if project.length is None:
        return []
    good = f"{length(math.ceil(needed + room - 1e-9))} leaves {length(room)} for the fingers"
    if cord < needed - 1e-9:
        return [
            Diagnostic(
                "cord-too-short",
                "error",
                f"the cord is {length(needed - cord)} shorter than what goes on it "
                f"({length(needed)})",
                ("length",),
                given=length(cord),
                allowed=f"at least {length(needed)}",
                hint=f"{good}; leave “length” out to have it worked out",
            )
        ]
    left = cord - needed
    if left < room / 2:
        text = f"only {length(left)} of bare cord is left, the beads will hardly move"
        return [Diagnostic("cord-tight", "warning", text, ("length",), hint=good)]
    if left > max(SLACK * string.beads_length, 2 * room):
        text = f"{length(left)} of bare cord is left, the string will hang slack"
        return [Diagnostic("cord-slack", "warning", text, ("length",), hint=good)]
    return []


def _substitution(kind: BeadKind, find: StandsFor, count: int) -> Substitution:
    """What was replaced by what, and what it does to the length of the string."""
    change = None if find.length is None else count * (bead_length(kind) - find.length)
    return Substitution(kind.name, count, find.name, change, find.why or "")
