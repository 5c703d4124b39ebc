"""Described: takes a Plan, gives the names and texts for sentences that are not figures."""

from __future__ import annotations

import math
from collections.abc import Callable

from sheetgen import amounts
from sheetgen.layout.fields import rounded_up, whole
from sheetgen.layout.words import writing_of
from sheetgen.model.ends import Aglets
from sheetgen.model.project import Project
from sheetgen.model.schema import entries
from sheetgen.model.template import Template
from sheetgen.plan.constants import WEFT_TAIL
from sheetgen.plan.needs import STRONG_THREAD
from sheetgen.plan.plan import Plan
from sheetgen.plan.supplies import weft_name

Length = Callable[[float], str]
"""mm -> what stands on paper."""
CHECK = 2 * amounts.MM_PER_INCH
"""In inches, what is woven before the bar is looked at, mm."""


def described(plan: Plan, template: Template) -> dict[str, str]:
    """Every named text; a name is there only where the plan has what it names."""
    project, find = plan.project, plan.project.find
    writing = writing_of(template)

    def length(mm: float) -> str:
        return whole(amounts.length(mm, project.units, writing))

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
    loom = _loom(plan, template, length)
    return (
        fields
        | loom
        | _ends(plan, template, length)
        | _string(plan, length)
        | _verdict(plan, length)
    )


def yarn_name(plan: Plan, name: str) -> str:
    """A yarn as a step names it: name and letter."""
    return f"{name} ({plan.use(name).letter})"


def _event(project: Project) -> str:
    """Name, place and dates of the event, as far as they are stated."""
    event = project.event
    if event is None:
        return ""
    return ", ".join(text for text in (event.name, event.place, event.dates) if text)


def _loom(plan: Plan, template: Template, length: Length) -> dict[str, str]:
    """What the steps at the loom name."""
    project, pack = plan.project, plan.pack
    half = math.ceil(pack.ends / 2)
    units, cm = project.units, writing_of(template)("cm")
    return {
        "holes": str(pack.holes),
        "ends_in_tablet": str(max(tablet.ends for tablet in pack.tablets)),
        "half_ends": str(half),
        "ends_made": str(2 * half),
        "enters": template.words[project.weft.enters],
        "returns": template.words[project.weft.returns],
        "weft_yarn": yarn_name(plan, weft_name(project)),
        "weft_tail": length(rounded_up(WEFT_TAIL.value, 10.0, units)),
        "check_length": length(CHECK) if units == "inches" else f"5\u00a0{cm}",
        "thread_length": length(rounded_up(STRONG_THREAD, 10.0, units)),
        "woven_length_of_piece": length(plan.warp.woven),
        "between_pieces": length(plan.warp.near_tail + plan.warp.far_tail),
        "turned_tablets": ", ".join(map(str, plan.winding.turned)),
        "turned_top": plan.winding.turned_top,
    }


def _ends(plan: Plan, template: Template, length: Length) -> dict[str, str]:
    """Tassels and aglets."""
    project, fields = plan.project, dict[str, str]()
    if plan.tassel and project.tassels:
        strands = project.tassels.yarn or project.yarns[0].name
        fields |= {
            "tassels": str(project.tassels.number),
            "skirt": length(plan.tassel.skirt),
            "neck": length(round(plan.tassel.neck * 2) / 2),
            "neck_wraps": str(plan.tassel.neck_wraps),
            "board": length(plan.tassel.strand_length / 2),
            "strand_yarn": yarn_name(plan, strands) if plan.tassel.strands else "",
            "binding_yarn": yarn_name(plan, project.tassels.binding or strands),
        }
    if aglets := project.aglets:
        fields |= {
            "aglets_in_all": str(aglets.number * project.pieces),
            "aglet_length": length(aglets.length),
            "aglet_material": _material(aglets.material, template),
            "aglet_inside_stated": "" if aglets.inside is None else length(aglets.inside),
        }
    return fields


def _material(material: str, template: Template) -> str:
    """What aglets are made of, in the template's word where the description left it out."""
    usual = entries(Aglets)["material"][0].default
    return template.words["sheet brass"] if material == usual else material


def _string(plan: Plan, length: Length) -> dict[str, str]:
    """Beads and finial."""
    string = plan.string
    if string is None:
        return {}
    fields = {
        "knots_take": length(string.string.knots_take),
        "string_length": length(string.cord - string.string.knots_take),
    }
    if finial := string.finial:
        takes = finial.takes if finial.takes is not None else finial.length or 0.0
        fields |= {"finial": finial.name, "finial_takes": length(takes)}
    return fields


def _verdict(plan: Plan, length: Length) -> dict[str, str]:
    """Predicted against the find."""
    verdict = plan.verdict
    if verdict is None:
        return {}
    return {
        "difference": length(abs(verdict.difference)),
        "difference_share": whole(amounts.percent(abs(verdict.share)).lstrip("+")),
        "best_size": length(verdict.best_size),
    }
