"""Measured: takes the description of a made piece, gives what it teaches the next plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import fsum

from sheetgen.model.made import Made
from sheetgen.model.project import Project, Sample
from sheetgen.model.values import PicksOver
from sheetgen.plan.gist import Gist, gist_of
from sheetgen.plan.learning import MadePiece
from sheetgen.plan.size import most_used

_OVER = 1_000_000
"""Picks over which a spacing is stated to the planner, so that its range is next to nothing."""


def measured_piece(project: Project, name: str) -> MadePiece | None:
    """What a piece teaches that was made and measured; None if it teaches nothing.

    Its measures are held against the formulas alone: without its sample, without what earlier
    pieces taught, and at the pick spacing that it was woven at. A piece whose warp was wound of
    another yarn than was planned teaches only the pace. A number of tablets that is not stated is
    the formula's: where another register may have chosen another, thickness and width are not
    taken.
    """
    made = project.made
    if made is None:
        return None
    spacing = pick_spacing(project, made)
    sample = Sample(picks=PicksOver(_OVER, _OVER * spacing)) if spacing else None
    gist = gist_of(replace(project, sample=sample, register=None))
    if not gist.pack.ends:
        return None
    yarn = most_used(gist.pack.ends_by_yarn, {yarn.yarn.name: yarn for yarn in gist.yarns})
    tells = dict(_pace(project, made))
    if not any(used.instead_of == yarn.name for used in made.yarns_used):
        if spacing:
            tells["pick_spacing"] = spacing / gist.figures["warp_diameter"].value
        tells |= _sizes(project, made, gist) | _take_up(project, made, gist)
    return MadePiece(name, yarn, tells) if tells else None


def woven_length(project: Project, made: Made) -> float | None:
    """Length of one piece before it shrank, mm; None where it was not measured."""
    return made.length.value / (1 - project.shrinkage) if made.length else None


def pick_spacing(project: Project, made: Made) -> float | None:
    """Length of one pick on the loom, mm: of the whole piece, else of the picks counted."""
    long = woven_length(project, made)
    if long and made.picks_woven:
        return long / made.picks_woven
    if made.picks:
        return made.picks.length / made.picks.picks / (1 - project.shrinkage)
    return None


def _sizes(project: Project, made: Made, gist: Gist) -> dict[str, float]:
    """Thickness and width as shares of what the formula says."""
    if project.tablets.number is None and project.register is not None:
        return {}
    kind = "cord" if project.is_tube else "band"
    found = {}
    if made.thickness:
        found[f"{kind}_thickness"] = made.thickness.value / gist.figures["thickness"].value
    if made.width and "width" in gist.figures:
        found[f"{kind}_width"] = made.width.value / gist.figures["width"].value
    return found


def _take_up(project: Project, made: Made, gist: Gist) -> dict[str, float]:
    """Take-up as a share of the helix's: as measured, else from the left-over warp."""
    factor, long = made.take_up, woven_length(project, made)
    if factor is None and made.left_over_warp and made.warp_end and long:
        pieces = project.pieces if project.one_warp else 1
        factor = (made.warp_end.value - made.left_over_warp.value) / (long * pieces)
    if factor is None or factor < 1:
        return {}
    return {"take_up": factor / gist.figures["take_up"].value}


def _pace(project: Project, made: Made) -> Iterator[tuple[str, float]]:
    """Picks a minute: of the times whose picks are told, else of all picks in all the time."""
    timed = [t for t in made.time if t.picks and t.took]
    took = fsum(t.took for t in timed)
    picks = sum(t.picks or 0 for t in timed)
    if not timed and made.picks_woven:
        took = fsum(t.took for t in made.time)
        picks = made.picks_woven * project.pieces
    if took and picks:
        yield "pace", picks / took
