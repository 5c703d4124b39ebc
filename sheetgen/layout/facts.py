"""Facts: takes a Plan, gives the flags that a template's ``when`` may ask for."""

from __future__ import annotations

from sheetgen.model.kit import CUT
from sheetgen.model.project import FORMS
from sheetgen.model.turning import WAYS
from sheetgen.model.values import Reading, Unknown
from sheetgen.plan.beads import BARE_END, LOOP_OF_THREAD
from sheetgen.plan.needs import is_pin
from sheetgen.plan.plan import Plan
from sheetgen.plan.planner import surest_figure
from sheetgen.plan.warp import CUT_ENDS


def flags_of(plan: Plan) -> frozenset[str]:
    """What is true of this plan, for the ``when`` of templates."""
    return frozenset(name for name, true in facts_of(plan).items() if true)


def facts_of(plan: Plan) -> dict[str, bool]:
    """Every flag that a ``when`` may name, and whether it is true of this plan."""
    project, turning = plan.project, plan.turning
    find = project.find
    facts = {
        **{form: project.form == form for form in FORMS},
        "tube": project.is_tube,
        "number": bool(project.number),
        "maker": bool(project.maker),
        "belongs to": bool(project.belongs_to),
        "date": bool(project.date),
        "event": project.event is not None,
        "string": plan.string is not None,
        "find": find is not None,
        "made": project.made is not None,
        "invented": bool(find and find.invented),
        "find thickness": bool(find and isinstance(find.thickness, Reading)),
        "find width": bool(find and isinstance(find.width, Reading)),
        "find unknown": bool(find and (find.not_known or isinstance(find.thickness, Unknown))),
        "cut ends": project.warping.way == "cut ends",
        "between posts": project.warping.way == "between posts",
        "tablets turned": bool(plan.winding.turned),
        "turned start": plan.winding.turned_top not in ("", "A"),
        "twist dealt with": bool(turning.interventions),
        **dict.fromkeys(WAYS, False),
        "one stop": len(turning.interventions) == 1,
        "odd flips": len(turning.flips_at) % 2 == 1,
        "something to measure": surest_figure(plan) is not None,
        "patterned": turning.patterned,
        "spirals": "spiral_lead" in plan.figures,
        "groups": len(turning.courses) > 1,
        "several pieces": project.pieces > 1,
        "one warp": project.one_warp and project.pieces > 1,
        "shrinkage": project.shrinkage > 0,
        "sessions": bool(project.sessions),
        "soft yarn": any(use.figures.yarn.soft for use in plan.yarns),
        "mixed threading": plan.pack.threaded is None,
        "empty holes": any(yarn is None for t in plan.pack.tablets for yarn in t.holes),
    }
    if turning.interventions:
        facts[turning.way] = True
    kit = project.kit
    facts["pins"] = bool(kit and any(is_pin(thing) and thing.each for thing in kit.things))
    facts["ends handed out"] = bool(
        kit and kit.handed_out == CUT and project.warping.way == CUT_ENDS
    )
    return facts | _verdict_facts(plan) | _end_facts(plan) | _string_facts(plan)


def _verdict_facts(plan: Plan) -> dict[str, bool]:
    """Predicted against what was read off the find."""
    verdict = plan.verdict
    outside = verdict.difference if verdict and not verdict.within else 0.0
    return {
        "against find": verdict is not None,
        "by width": bool(verdict and verdict.what == "width"),
        "within find": bool(verdict and verdict.within),
        "under find": outside < 0,
        "over find": outside > 0,
        "other tablets": bool(verdict and verdict.best_tablets != len(plan.pack.tablets)),
    }


def _end_facts(plan: Plan) -> dict[str, bool]:
    """Tassels, aglets, and whether an end is left without either."""
    project, aglets = plan.project, plan.project.aglets
    tassels = project.tassels.number if plan.tassel and project.tassels else 0
    finished = tassels + (aglets.number if aglets else 0)
    inside = aglets.inside if aglets else None
    return {
        "tassels": bool(tassels),
        "two tassels": tassels == 2,
        "strands": bool(plan.tassel and plan.tassel.strands),
        "aglets": aglets is not None,
        "one aglet": bool(aglets and aglets.number == 1),
        "aglet size": inside is not None,
        "wide aglets": inside is not None and inside > (plan.width or plan.thickness),
        "plain end": finished < (1 if project.form == "loop" else 2),
    }


def _string_facts(plan: Plan) -> dict[str, bool]:
    string, beads = plan.string, plan.project.beads
    kinds, fits = (string.kinds, string.fits) if string else ((), ())
    hard = ("glass", "bone", "shell", "stone", "coral", "amber", "jet", "antler", "horn")
    materials = " ".join((k.material or "").casefold() for k in kinds)
    return {
        **{way: bool(string and string.stringing == way) for way in (LOOP_OF_THREAD, BARE_END)},
        "finial": bool(string and string.finial),
        "cord inside ends": bool(string and string.ends_take > 0),
        "join": bool(string and beads and beads.join),
        "knots": bool(string and string.string.knots_take > 0),
        "dividers": any(k.divider for k in kinds),
        "substitutions": bool(string and string.substitutions),
        "tight holes": any(f.verdict == "tight" for f in fits),
        "unknown holes": any(f.verdict == "not known" for f in fits),
        "hard beads": any(word in materials for word in hard),
    }
