"""Described: takes a Plan, gives the names and texts for sentences that are not figures."""

from __future__ import annotations

import math

from sheetgen import amounts
from sheetgen.layout.fields import rounded_up, whole
from sheetgen.model.project import Project
from sheetgen.plan.constants import WEFT_TAIL
from sheetgen.plan.plan import Plan
from sheetgen.plan.supplies import weft_name

STRONG_THREAD, CHECK = 500.0, 2 * amounts.MM_PER_INCH
"""Thread that draws beads on, and (in inches) what is woven before the bar is looked at, mm."""


def described(plan: Plan) -> dict[str, str]:
    """Every named text; a name is there only where the plan has what it names."""
    project, find = plan.project, plan.project.find
    fields = {
        "piece": project.piece,
        "number": project.number or "",
        "maker": project.maker or "",
        "belongs_to": project.belongs_to or "",
        "version": project.digest,
        "date": project.date or "",
        "event": _event(project),
        "find": find.name if find else "",
        "pieces": str(project.pieces),
        "paper": project.paper,
    }
    return fields | _loom(plan) | _ends(plan) | _string(plan) | _verdict(plan)


def yarn_name(plan: Plan, name: str) -> str:
    """A yarn as a step names it: name and letter."""
    return f"{name} ({plan.use(name).letter})"


def _length(plan: Plan, mm: float) -> str:
    return whole(amounts.length(mm, plan.project.units))


def _event(project: Project) -> str:
    """Name, place and dates of the event, as far as they are stated."""
    event = project.event
    if event is None:
        return ""
    return ", ".join(text for text in (event.name, event.place, event.dates) if text)


def _loom(plan: Plan) -> dict[str, str]:
    """What the steps at the loom name."""
    project, pack = plan.project, plan.pack
    half = math.ceil(pack.ends / 2)
    units = project.units
    return {
        "holes": str(pack.holes),
        "ends_in_tablet": str(max(tablet.ends for tablet in pack.tablets)),
        "half_ends": str(half),
        "ends_made": str(2 * half),
        "enters": project.weft.enters,
        "returns": project.weft.returns,
        "weft_yarn": yarn_name(plan, weft_name(project)),
        "weft_tail": _length(plan, rounded_up(WEFT_TAIL.value, 10.0, units)),
        "check_length": _length(plan, CHECK) if units == "inches" else "5\u00a0cm",
        "thread_length": _length(plan, rounded_up(STRONG_THREAD, 10.0, units)),
        "woven_length_of_piece": _length(plan, plan.warp.woven),
        "between_pieces": _length(plan, plan.warp.near_tail + plan.warp.far_tail),
        "turned_tablets": ", ".join(map(str, plan.winding.turned)),
        "turned_top": plan.winding.turned_top,
    }


def _ends(plan: Plan) -> dict[str, str]:
    """Tassels and aglets."""
    project, fields = plan.project, dict[str, str]()
    if plan.tassel and project.tassels:
        strands = project.tassels.yarn or project.yarns[0].name
        fields |= {
            "tassels": str(project.tassels.number),
            "skirt": _length(plan, plan.tassel.skirt),
            "neck": _length(plan, round(plan.tassel.neck * 2) / 2),
            "neck_wraps": str(plan.tassel.neck_wraps),
            "board": _length(plan, plan.tassel.strand_length / 2),
            "strand_yarn": yarn_name(plan, strands) if plan.tassel.strands else "",
            "binding_yarn": yarn_name(plan, project.tassels.binding or strands),
        }
    if aglets := project.aglets:
        fields |= {
            "aglets_in_all": str(aglets.number * project.pieces),
            "aglet_length": _length(plan, aglets.length),
            "aglet_material": aglets.material,
            "aglet_inside_stated": "" if aglets.inside is None else _length(plan, aglets.inside),
        }
    return fields


def _string(plan: Plan) -> dict[str, str]:
    """Beads and finial."""
    string = plan.string
    if string is None:
        return {}
    fields = {
        "knots_take": _length(plan, string.string.knots_take),
        "string_length": _length(plan, string.cord - string.string.knots_take),
    }
    if finial := string.finial:
        takes = finial.takes if finial.takes is not None else finial.length or 0.0
        fields |= {"finial": finial.name, "finial_takes": _length(plan, takes)}
    return fields


def _verdict(plan: Plan) -> dict[str, str]:
    """Predicted against the find."""
    verdict = plan.verdict
    if verdict is None:
        return {}
    return {
        "difference": _length(plan, abs(verdict.difference)),
        "difference_share": whole(amounts.percent(abs(verdict.share)).lstrip("+")),
        "best_size": _length(plan, verdict.best_size),
    }
