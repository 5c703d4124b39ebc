"""Needs: takes a plan and its kit, gives what the steps use beyond yarn, beads and tablets.

A thing of the description stands for a need if its name holds one of the need's words; only what
nothing stands for is added, so that nothing that a step names is packed by nobody, or twice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.model.kit import Kit, Thing
from sheetgen.plan.beads import BARE_END, LOOP_OF_THREAD
from sheetgen.plan.plan import Plan

STRONG_THREAD = 500.0
"""Thread that draws beads on, mm: folded, and long enough for both hands (common practice)."""

PINS = ("safety pin", "sicherheitsnadel")
WORDS = {
    "needle": ("needle", "nadel"),
    "wax": ("wax", "wachs"),
    "thread": ("thread", "faden"),
    "card": ("winding card", "wickelkarte", "pappe"),
    "ribbon": ("ribbon", "schleife"),
    "belt": ("belt", "scarf", "strap", "gürtel", "schal", "gurt"),
    "post": ("table", "post", "tisch", "pfosten"),
    "beater": ("ruler", "beater", "lineal"),
    "measure": ("tape measure", "maßband"),
    "scissors": ("scissors", "shears", "schere"),
    "pencil": ("pencil", "stift"),
    "pliers": ("pliers", "zange"),
    "awl": ("awl", "ahle"),
}
"""What a thing's name may hold, in small letters, to stand for a need."""
READY = ("belt", "post", "beater", "measure", "scissors", "pencil")
"""Needs that lie ready for all at every piece."""


@dataclass(frozen=True, slots=True)
class Ready:
    """What lies ready for all: ``number`` of a described thing, or a need by its key (0)."""

    name: str
    number: int = 0


def is_pin(thing: Thing) -> bool:
    """Whether it is a safety pin, which a step has a use for."""
    return any(word in thing.name.casefold() for word in PINS)


def stands_for(thing: Thing, need: str) -> bool:
    """Whether a described thing is what a step needs.

    >>> stands_for(Thing("Beeswax"), "wax"), stands_for(Thing("Sicherheitsnadel"), "needle")
    (True, False)
    """
    name = thing.name.casefold()
    return not is_pin(thing) and any(word in name for word in WORDS[need])


def needs_of_bag(plan: Plan, kit: Kit) -> Iterator[tuple[str, float]]:
    """Needs that go into the bag and that no thing stands for, with their length (mm) or 0."""
    stringing = plan.string.stringing if plan.string else ""
    wanted: dict[str, float] = {"needle": 0.0}
    if stringing == BARE_END or plan.project.aglets is not None:
        wanted["wax"] = 0.0
    if stringing == LOOP_OF_THREAD:
        wanted["thread"] = STRONG_THREAD
    if plan.tassel and plan.tassel.strands:
        wanted["card"] = plan.tassel.strand_length / 2
    wanted["ribbon"] = 0.0
    for need, mm in wanted.items():
        if not any(stands_for(thing, need) for thing in kit.things):
            yield need, mm


def ready_of(plan: Plan, kit: Kit) -> tuple[Ready, ...]:
    """What lies ready for all: the things lent, then the needs that nothing stands for."""
    lent = tuple(Ready(thing.name, thing.lent) for thing in kit.things if thing.lent)
    wanted = list(READY)
    if plan.project.aglets is not None:
        wanted.append("pliers")
    if plan.string and any(fit.verdict == "tight" for fit in plan.string.fits):
        wanted.append("awl")
    needs = (n for n in wanted if not any(stands_for(thing, n) for thing in kit.things))
    return (*lent, *map(Ready, needs))
