"""Names used against names given: takes the read values and what they mention, adds diagnostics."""

from __future__ import annotations

from itertools import islice

from sheetgen.model.beads import BeadKind
from sheetgen.model.pack import Group
from sheetgen.model.project import Project
from sheetgen.model.yarn import Yarn
from sheetgen.read.findings import did_you_mean, listed
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
    for kind in project.beads.kinds:
        if kind and kind.name not in used:
            walk.findings.warning(
                "unused-bead",
                f"no “{kind.name}” is in the order",
                ("beads", "kinds", kind.name),
                hint="string it in the order, or take the kind out",
            )
