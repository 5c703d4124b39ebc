"""Winding: takes the pack and the length of an end, gives how the warp is wound and where."""

from __future__ import annotations

from sheetgen.amounts import length
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.figure import Ledger
from sheetgen.plan.pack import Pack, in_words
from sheetgen.plan.warp import BETWEEN_POSTS, Winding, same_threads, top_when_turned, wind


def plan_winding(
    project: Project, pack: Pack, end: float, ledger: Ledger, told: list[Diagnostic]
) -> Winding:
    """How a warp of ends ``end`` mm long is wound, and whether the far post is within reach."""
    way = project.warping.way
    if way == BETWEEN_POSTS and not same_threads(pack):
        told.append(
            Diagnostic(
                "warp-not-alike",
                "error",
                "one warp between posts needs the same yarns in the same holes of all tablets",
                ("warping",),
                given=way,
                hint="take “cut ends”, or change the colours",
            )
        )
    winding = wind(way, end, pack)
    told.extend(_order_told(pack, winding))
    room = project.warping.room
    if room is not None and end > room:
        told.append(
            Diagnostic(
                "post-out-of-room",
                "warning",
                f"the warp is {length(end - room)} longer than there is room for",
                ("warping", "room"),
                given=length(room),
                hint="roll the far end up on a stick, or tie it in a bundle that slips",
            )
        )
    if way == BETWEEN_POSTS:
        ledger.enter(
            "post_distance",
            "distance of the posts",
            winding.distance,
            "mm",
            "computed",
            "length of a warp end",
            rests_on=("warp_end",),
        )
    return winding


def _order_told(pack: Pack, winding: Winding) -> list[Diagnostic]:
    """An order of yarns that cannot be had in a tablet that is turned about after winding."""
    order = pack.tablets[0].holes
    if not winding.turned or not same_threads(pack) or top_when_turned(order):
        return []
    return [
        Diagnostic(
            "order-turns-over",
            "error",
            f"tablets {in_words(winding.turned)} come off the posts the other way round; turned "
            "about, they bring their yarns in the opposite order, and no hole at the near top "
            "mends that",
            ("warping",),
            given=f"{winding.way}: {', '.join(yarn or 'no thread' for yarn in order)}",
            hint="take “cut ends”, or an order of yarns that reads alike both ways round",
        )
    ]
