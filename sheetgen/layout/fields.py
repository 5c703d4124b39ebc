"""Fields: takes a Plan, gives every named figure as it stands in a sentence, and the flags.

For a figure ``x`` there are ``{x}`` (the value), ``{x.range}`` (about value, low to high; the value
alone where there is no range) and ``{x.origin}``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sheetgen import amounts
from sheetgen.model.project import Project
from sheetgen.model.values import Reading, Unknown
from sheetgen.plan.figure import Figure
from sheetgen.plan.plan import Plan


def written(value: float, unit: str, units: str) -> str:
    """A figure's value with its unit, as a weaver reads it."""
    match unit:
        case "mm":
            return amounts.length(value, units)
        case "g":
            return amounts.mass(value, units)
        case "min":
            return amounts.minutes(value)
        case "per mm":
            return amounts.per_length(value, units)
        case "tex":
            return f"{amounts.significant(value)} tex"
        case "ratio":
            return f"× {amounts.plain(value, 3)}"
        case "share":
            return f"{amounts.plain(100 * value, 0)} %"
        case "turns per mm":
            return f"{amounts.plain(1000 * value, 0)} turns/m"
        case "degrees":
            return f"{amounts.plain(value, 0)}°"
        case "turns":
            return amounts.plain(value, 1)
        case _:
            return amounts.plain(value, 0 if value >= 10 or value == int(value) else 1)


def written_range(figure: Figure, units: str) -> str:
    """Value with its range: ``1.6 mm (1.4 – 1.9 mm)``; the value alone where there is none.

    Where both units are wanted the range stands in metric units alone, to stay readable.
    """
    value = written(figure.value, figure.unit, units)
    if not figure.has_range:
        return value
    single = "mm" if units == "both" else units
    low, high = (written(end, figure.unit, single) for end in (figure.low, figure.high))
    if low == high:
        return value
    number, _, unit = low.partition(" ")
    if high.partition(" ")[2] == unit:
        low = number
    return f"{value} ({low} – {high})"


class Fields(Mapping[str, str]):
    """Named figures of a plan as text, worked out when asked for."""

    def __init__(self, plan: Plan, more: Mapping[str, str]) -> None:
        self.plan = plan
        self.more = more

    def __getitem__(self, name: str) -> str:
        if name in self.more:
            return self.more[name]
        key, _, part = name.partition(".")
        figure, units = self.plan.figures[key], self.plan.project.units
        if part == "range":
            return written_range(figure, units)
        if part == "origin":
            return figure.origin
        return written(figure.value, figure.unit, units)

    def __iter__(self) -> Iterator[str]:
        yield from self.more
        for key in self.plan.figures:
            yield from (key, f"{key}.range", f"{key}.origin")

    def __len__(self) -> int:
        return len(self.more) + 3 * len(self.plan.figures)

    def __contains__(self, name: object) -> bool:
        key, _, part = str(name).partition(".")
        return name in self.more or (key in self.plan.figures and part in ("", "range", "origin"))


def described(plan: Plan) -> dict[str, str]:
    """Fields that are not figures: names and texts of the description."""
    project, find = plan.project, plan.project.find
    fields = {
        "piece": project.piece,
        "number": project.number or "",
        "maker": project.maker or "",
        "belongs_to": project.belongs_to or "",
        "version": project.digest,
        "paper": project.paper,
        "holes": str(plan.pack.holes),
        "ends_in_tablet": str(max(tablet.ends for tablet in plan.pack.tablets)),
        "pieces": str(project.pieces),
        "enters": project.weft.enters,
        "returns": project.weft.returns,
        "find": find.name if find else "",
        "date": project.date or "",
        "event": _event(project),
        "between_pieces": amounts.length(plan.warp.near_tail + plan.warp.far_tail, project.units),
        "turned_tablets": ", ".join(map(str, plan.winding.turned)),
    }
    if plan.tassel and project.tassels:
        skirt = amounts.length(plan.tassel.skirt, project.units)
        fields |= {
            "tassels": str(project.tassels.number),
            "skirt": skirt,
            "neck_wraps": str(plan.tassel.neck_wraps),
            "skirt_ends": str(plan.tassel.skirt_ends),
            "board": amounts.length(plan.tassel.strand_length / 2, project.units),
        }
    if verdict := plan.verdict:
        fields |= {
            "difference": amounts.length(abs(verdict.difference), project.units),
            "difference_share": amounts.percent(abs(verdict.share)).lstrip("+"),
            "best_size": amounts.length(verdict.best_size, project.units),
        }
    if project.aglets:
        fields |= {
            "aglets": str(project.aglets.number),
            "aglet_length": amounts.length(project.aglets.length, project.units),
            "aglet_material": project.aglets.material,
        }
    if project.beads and project.beads.finial:
        fields["finial"] = project.beads.finial.name
    return fields


def _event(project: Project) -> str:
    """Name, place and dates of the event, as far as they are stated."""
    event = project.event
    if event is None:
        return ""
    return ", ".join(text for text in (event.name, event.place, event.dates) if text)


def flags_of(plan: Plan) -> frozenset[str]:
    """What is true of this plan, for the ``when`` of templates."""
    project, turning = plan.project, plan.turning
    find, tassels = project.find, project.tassels
    facts = {
        project.form: True,
        "tube": project.is_tube,
        "number": bool(project.number),
        "maker": bool(project.maker),
        "belongs to": bool(project.belongs_to),
        "date": bool(project.date),
        "event": project.event is not None,
        "string": plan.string is not None,
        "find": find is not None,
        "invented": bool(find and find.invented),
        "find thickness": bool(find and isinstance(find.thickness, Reading)),
        "find unknown": bool(find and (find.not_known or isinstance(find.thickness, Unknown))),
        "tassels": bool(plan.tassel),
        "two tassels": bool(plan.tassel and tassels and tassels.number == 2),
        "strands": bool(plan.tassel and plan.tassel.strands),
        "aglets": project.aglets is not None,
        "cut ends": project.warping.way == "cut ends",
        "between posts": project.warping.way == "between posts",
        "tablets turned": bool(plan.winding.turned),
        "twist dealt with": bool(turning.interventions),
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
    if verdict := plan.verdict:
        facts |= {
            "within find": verdict.within,
            "under find": not verdict.within and verdict.difference < 0,
            "over find": not verdict.within and verdict.difference > 0,
            "other tablets": verdict.best_tablets != len(plan.pack.tablets),
        }
    if plan.string:
        facts |= _string_facts(plan)
    return frozenset(name for name, true in facts.items() if true)


def _string_facts(plan: Plan) -> dict[str, bool]:
    string, beads = plan.string, plan.project.beads
    assert string is not None, "asked only for strings of beads"
    assert beads is not None, "a string plan comes from beads"
    hard = ("glass", "bone", "shell", "stone", "coral", "amber", "jet", "antler", "horn")
    materials = " ".join((k.material or "").casefold() for k in string.kinds)
    return {
        string.stringing: True,
        "finial": string.finial is not None,
        "join": bool(beads.join),
        "knots": string.string.knots_take > 0,
        "dividers": any(k.divider for k in string.kinds),
        "substitutions": bool(string.substitutions),
        "tight holes": any(f.verdict == "tight" for f in string.fits),
        "unknown holes": any(f.verdict == "not known" for f in string.fits),
        "hard beads": any(word in materials for word in hard),
    }
