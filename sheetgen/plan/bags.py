"""Bags: takes the plan of a kit's piece, gives what goes into one bag, lengths in whole mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sheetgen.model.kit import CUT, Kit
from sheetgen.plan.materials import YarnUse
from sheetgen.plan.needs import needs_of_bag
from sheetgen.plan.plan import Plan
from sheetgen.plan.warp import CUT_ENDS, length_to_cut

Sort = Literal["yarn", "bead", "finial", "aglet", "tablet", "thing", "need"]
STEP = 50
"""Coils are cut to the next 5 cm, mm: as a rule on the table reads."""


@dataclass(frozen=True, slots=True)
class BagItem:
    """``number`` of something in one bag; of yarn, each ``length`` mm of ``yarn`` for ``use``.

    A need of the steps has its key as ``name``, and a ``length`` if that matters.

    ``ends`` is how many warp ends are to be cut from one coil, 0 where it is no coil of them.
    ``of_which_reserve`` (mm) is what all of them hold beyond what the plan uses.
    """

    sort: Sort
    name: str
    number: int
    length: int = 0
    yarn: str = ""
    use: str = ""
    ends: int = 0
    of_which_reserve: int = 0


def bag_of(plan: Plan, kit: Kit) -> Iterator[BagItem]:
    """Yarns by use, tablets, beads and fittings, what the description adds, what steps need."""
    project = plan.project
    yield BagItem("tablet", "tablets", len(plan.pack.tablets))
    for use in plan.yarns:
        for name, mm in use.by_use:
            if name == "warp" and kit.handed_out == CUT and project.warping.way == CUT_ENDS:
                yield _cut_ends(plan, use, mm)
            elif name == "warp":
                yield from _warp_coils(plan, use, mm)
            else:
                yield from _coils(use, name, mm)
    if plan.string is not None:
        for kind in plan.string.kinds:
            if count := plan.string.string.counts.get(kind.name, 0):
                yield BagItem("bead", kind.name, count * project.pieces)
        if plan.string.finial is not None:
            yield BagItem("finial", plan.string.finial.name, project.pieces)
    if project.aglets is not None:
        yield BagItem("aglet", project.aglets.material, project.aglets.number * project.pieces)
    for thing in kit.things:
        if thing.each:
            yield BagItem("thing", thing.name, thing.each)
    for need, mm in needs_of_bag(plan, kit):
        yield BagItem("need", need, 1, round(mm))


def _cut_ends(plan: Plan, use: YarnUse, mm: float) -> BagItem:
    """Ends ready cut, spare ones among them."""
    ends = round(mm / plan.warp.length)
    spare = math.ceil(ends * use.reserve - 1e-9)
    each = int(length_to_cut(plan.warp.length))
    beyond = (ends + spare) * each - math.ceil(mm)
    return BagItem("yarn", use.name, ends + spare, each, use.name, "ends", 0, beyond)


def _warp_coils(plan: Plan, use: YarnUse, mm: float) -> Iterator[BagItem]:
    """The warp in one coil, or in as few as a ball can give, each of whole ends."""
    ends = round(mm / plan.warp.length)
    share = 1 + use.reserve
    most = _longest(use)
    in_one = ends if most is None else max(1, min(ends, int(most / (plan.warp.length * share))))
    coils = -(-ends // in_one)
    for index in range(coils):
        held = ends // coils + (1 if index < ends % coils else 0)
        used = held * plan.warp.length
        length = _rounded(used * share)
        beyond = length - math.ceil(used)
        yield BagItem("yarn", use.name, 1, length, use.name, "warp", held, beyond)


def _coils(use: YarnUse, name: str, mm: float) -> Iterator[BagItem]:
    """Weft, tassel or binding in one coil, or in as few alike as a ball can give."""
    most = _longest(use)
    wanted = mm * (1 + use.reserve)
    coils = 1 if most is None else max(1, math.ceil(wanted / most - 1e-9))
    length = _rounded(wanted / coils)
    if most is not None and length > most:
        length = math.ceil(wanted / coils)
    yield BagItem(
        "yarn", use.name, coils, length, use.name, name, 0, coils * length - math.ceil(mm)
    )


def _longest(use: YarnUse) -> float | None:
    """The longest piece that a ball gives, mm."""
    sold = use.figures.yarn.put_up
    return None if sold is None else sold.length


def _rounded(mm: float) -> int:
    """A length of coil, mm, up to the next :data:`STEP`.

    >>> _rounded(6841.2), _rounded(650.0)
    (6850, 650)
    """
    return STEP * math.ceil(mm / STEP - 1e-9)
