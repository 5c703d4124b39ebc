"""Names used against names given, holes against beads: takes the read values, adds diagnostics."""

from __future__ import annotations

from itertools import islice

from sheetgen.diagnostics import Path
from sheetgen.model.beads import BeadKind, Finial
from sheetgen.model.pack import Group
from sheetgen.model.project import Project
from sheetgen.model.yarn import Yarn
from sheetgen.read.findings import Findings, did_you_mean, listed, nearest
from sheetgen.read.walk import UNREAD, Named, Walk

_MOST_LISTED = 20


def check_names(project: Project, walk: Walk) -> None:
    """Every name used is the name of something."""
    known: dict[Named, tuple[Yarn | BeadKind | Group, ...]] = {
        "yarn": project.yarns,
        "kind of bead": project.beads.kinds if project.beads is not None else (),
        "group": project.tablets.groups,
    }
    names = {
        what: None if parts is UNREAD else dict.fromkeys(part.name for part in parts)
        for what, parts in known.items()
    }
    for mention in walk.mentions:
        there = names[mention.what]
        if there is None or mention.name in there or walk.findings.full:
            continue
        allowed = listed(islice(there, _MOST_LISTED))
        otherwise = f"use one of {allowed}" if there else f"no {mention.what} has been named"
        walk.findings.error(
            f"no-such-{mention.what.split()[-1]}",
            f"no {mention.what} is called “{mention.name[:40]}”",
            mention.path,
            span=mention.span,
            given=mention.name,
            allowed=allowed,
            hint=did_you_mean(mention.name, there, otherwise),
        )


def check_unused_beads(project: Project, walk: Walk) -> None:
    """A kind of bead that is never strung is worth a word."""
    if not project.beads or project.beads.order is UNREAD:
        return
    used = {mention.name for mention in walk.mentions if mention.what == "kind of bead"}
    names = [kind.name for kind in project.beads.kinds]
    meant = {nearest(name, names) for name in used - {*names}}
    for kind in project.beads.kinds:
        if kind and kind.name not in used | meant:
            walk.findings.warning(
                "unused-bead",
                f"no “{kind.name}” is in the order",
                ("beads", "kinds", kind.name),
                hint="string it in the order, or take the kind out",
            )


def check_holes(project: Project, findings: Findings) -> None:
    """A hole is narrower than what it is bored through."""
    if not project.beads:
        return
    parts: list[tuple[str, Path, BeadKind | Finial]] = [
        ("bead", ("beads", "kinds", kind.name), kind) for kind in project.beads.kinds
    ]
    if project.beads.finial:
        parts.append(("finial", ("beads", "finial"), project.beads.finial))
    for what, path, part in parts:
        hole, across = part.hole, part.diameter
        if hole and across and hole >= across:
            than = "as wide as" if hole == across else "wider than"
            findings.error(
                "hole-too-wide",
                f"the hole of {hole:g} mm is {than} the {what} of {across:g} mm",
                (*path, "hole"),
                given=f"{hole:g} mm",
                allowed=f"less than {across:g} mm",
                hint="measure both again: the diameter is across the string, over all",
            )
