"""What was made against the plan: takes a Plan, gives what cannot be, and what departs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sheetgen.amounts import length, plain
from sheetgen.diagnostics import Diagnostic, Path
from sheetgen.model.made import BeadsUsed, YarnUsed
from sheetgen.plan.constants import MOST_TAKE_UP
from sheetgen.plan.plan import Plan
from sheetgen.plan.record import Row, compare
from sheetgen.plan.told import Told, woven_in_all

HERE: Path = ("made",)
FAR = 2.0
"""Twice or half of what was planned: a slip in writing is likelier (common practice, no source)."""


def made_told(plan: Plan) -> list[Diagnostic]:
    """Everything about the piece as made that cannot be, or is far from the plan."""
    made = plan.project.made
    if made is None:
        return []
    return [*_longer_than_warp(plan), *_impossible_take_up(plan), *_much_take_up(plan), *_far(plan)]


def _longer_than_warp(plan: Plan) -> Iterator[Diagnostic]:
    """More woven than one warp end is long."""
    made, woven = plan.project.made, woven_in_all(plan)
    assert made is not None, "asked only where something is made"
    end = made.warp_end.high if made.warp_end else plan.warp.length
    if made.length is None or woven is None or woven * made.length.low <= end * made.length.value:
        return
    yield Diagnostic(
        "longer-than-warp",
        "error",
        f"{length(woven)} woven on a warp end of {length(end)}",
        (*HERE, "length"),
        given=length(made.length.value),
        allowed=f"less than {length(end)}",
        hint="look at unit and number again, or state “warp end” as it was cut",
    )


def _impossible_take_up(plan: Plan) -> Iterator[Diagnostic]:
    """A warp is never shorter than what is woven of it."""
    made, woven = plan.project.made, woven_in_all(plan)
    assert made is not None, "asked only where something is made"
    left = made.left_over_warp
    if left is None or made.take_up is not None:
        return
    end = made.warp_end.value if made.warp_end else plan.warp.length
    path = (*HERE, "left-over warp")
    if left.low >= end:
        yield Diagnostic(
            "more-left-than-warped",
            "error",
            f"{length(left.value)} are left over of a warp end of {length(end)}",
            path,
            given=length(left.value),
            allowed=f"less than {length(end)}",
            hint="measure one end, from the work to its two tips",
        )
    elif made.length is not None and woven is not None and woven < end:
        shortest = woven * made.length.low / made.length.value
        if end - left.low < shortest:
            yield Diagnostic(
                "take-up-below-one",
                "error",
                f"{length(end)} of warp less {length(left.value)} cannot become {length(woven)}",
                path,
                given=length(left.value),
                allowed=f"up to {length(end - shortest)}",
                hint="count both tails once, and state “warp end” if it was not cut as planned",
            )


def _much_take_up(plan: Plan) -> Iterator[Diagnostic]:
    """More warp used than any weave of this kind takes up."""
    made = plan.project.made
    told = next((row.made for row in compare(plan) if row.key == "take_up"), None)
    most = max(MOST_TAKE_UP.value, plan.figures["take_up"].high)
    if made is None or told is None or told.value <= most:
        return
    stated = made.take_up is not None
    yield Diagnostic(
        "much-take-up",
        "warning",
        f"× {plain(told.value, 2)} is more take-up than a cord or band has",
        (*HERE, "take-up" if stated else "left-over warp"),
        given=f"× {plain(told.value, 2)}",
        allowed=f"up to × {plain(most, 2)}",
        hint="warp used / length woven: write 1.08 for 8 %"
        if stated
        else "was all that is left measured, both tails too, and “warp end” as it was cut?",
    )


_PATHS: dict[str, str] = {
    "finished_length": "length",
    "cord_length": "length",
    "width": "width",
    "thickness": "thickness",
    "picks": "picks woven",
    "warp_end": "warp end",
}


def _far(plan: Plan) -> Iterator[Diagnostic]:
    """Twice or half of what was planned is worth a second look."""
    for row in compare(plan):
        if row.key in _PATHS and row.made and row.plan and row.plan.value:
            factor = row.made.value / row.plan.value
            if not 1 / FAR < factor < FAR:
                yield Diagnostic(
                    "far-from-plan",
                    "warning",
                    f"made, it is {plain(factor, 2 if factor < 1 else 1)} times what was planned",
                    (*HERE, _place(plan, row)),
                    given=_shown(row, row.made),
                    allowed=f"planned: {_shown(row, row.plan)}",
                    hint="look at unit and number again; if it is right, let it stand",
                )


def _place(plan: Plan, row: Row) -> str:
    made = plan.project.made
    counted = made is not None and made.picks_woven is None
    return "picks" if row.key == "picks" and counted else _PATHS[row.key]


def _shown(row: Row, told: Told) -> str:
    return length(told.value) if row.unit == "mm" else f"{plain(told.value, 0)} {row.unit}"


@dataclass(frozen=True, slots=True)
class CarriedOver:
    """A departure that nobody wrote down as one: what stands in the place of what, and why.

    ``kind`` says of what: a bead of the plan, or beads or yarn that were used while making, in
    place of what was planned; or a size beyond what was read off the find (``ours`` and ``theirs``
    are then empty and the row of that key has it).
    """

    kind: Literal["bead", "bead used", "yarn used", "thickness", "width"]
    ours: str
    theirs: str
    why: str


def carried_over(plan: Plan) -> tuple[CarriedOver, ...]:
    """Every substitution of the plan and of the making, and every size beyond the find's."""
    return (*_substitutions(plan), *_used_instead(plan), *_beyond_find(plan))


def _substitutions(plan: Plan) -> Iterator[CarriedOver]:
    for found in plan.string.substitutions if plan.string else ():
        yield CarriedOver("bead", found.kind, found.original, found.why or "")


def _used_instead(plan: Plan) -> Iterator[CarriedOver]:
    made = plan.project.made
    used: tuple[BeadsUsed | YarnUsed, ...] = (*made.beads_used, *made.yarns_used) if made else ()
    for part in used:
        if part.instead_of is not None:
            kind: Literal["bead used", "yarn used"] = (
                "bead used" if isinstance(part, BeadsUsed) else "yarn used"
            )
            yield CarriedOver(kind, part.name, part.instead_of, part.why or "")


def _beyond_find(plan: Plan) -> Iterator[CarriedOver]:
    for row in compare(plan):
        ours, find = row.made or row.plan, row.find
        if row.key not in ("thickness", "width") or ours is None or not isinstance(find, Told):
            continue
        if not find.low - 1e-9 <= ours.value <= find.high + 1e-9:
            yield CarriedOver("width" if row.key == "width" else "thickness", "", "", "")
