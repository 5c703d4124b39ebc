"""What was made against what was planned and against itself: takes read values, adds diagnostics.

Fields that could not be read are :class:`~sheetgen.read.walk.Unread`: no check finds fault there.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from sheetgen.diagnostics import Path
from sheetgen.model.made import BeadsUsed, Made, YarnUsed
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.read.findings import Findings, did_you_mean, listed, nearest
from sheetgen.read.walk import UNREAD

HERE: Path = ("made",)
_COUNTS_AGREE = 0.25
"""Picks counted over a length are few, so they may be off; by more than a quarter is a slip."""


def check_made(project: Project, findings: Findings) -> None:
    """Note everything about the piece as made that cannot be or does not agree."""
    made = project.made
    if not made:
        return
    _dates(made, findings)
    _form(project, made, findings)
    kinds = project.beads.kinds if project.beads else ()
    for path, used, known in (
        ((*HERE, "beads used"), made.beads_used, kinds),
        ((*HERE, "yarns used"), made.yarns_used, project.yarns),
    ):
        if known is not UNREAD:
            _names(path, used, [part.name for part in known], findings)
    _sessions(project, made, findings)
    _interventions(made, findings)
    _counts(made, findings)
    _take_up(made, findings)
    _photographs(made, findings)


def _dates(made: Made, findings: Findings) -> None:
    """Dates as written (year-month-day) are in the order of their letters."""
    if made.begun and made.finished and made.finished < made.begun:
        findings.error(
            "finished-before-begun",
            f"finished {made.finished}, before it was begun",
            (*HERE, "finished"),
            given=made.finished,
            allowed=f"{made.begun} or later",
            hint="look at both dates again: year, month, day",
        )


def _form(project: Project, made: Made, findings: Findings) -> None:
    if made.width is not None and project.is_tube:
        findings.warning(
            "not-for-tube",
            f"a {project.form} is woven round and has a thickness, no width",
            (*HERE, "width"),
            hint="write “thickness”, or take the line out",
        )
    if made.beads_used and project.form in ("cord", "band"):
        findings.error(
            "beads-not-strung",
            f"beads are strung on a loop or a straight string, not on a {project.form}",
            (*HERE, "beads used"),
            hint="choose form loop or straight, or take them out",
        )


def _names(
    path: Path, used: Iterable[BeadsUsed | YarnUsed], known: list[str], findings: Findings
) -> None:
    """What was not planned is let stand, unless it looks like a slip of the pen."""
    used = tuple(used)
    written = {part.name for part in used}
    for part in used:
        if part.instead_of and part.instead_of not in known:
            findings.error(
                "not-planned",
                f"“{part.instead_of[:40]}” was not planned, so nothing stands in its place",
                (*path, part.name, "instead of"),
                given=part.instead_of,
                allowed=listed(known) or "nothing was planned",
                hint=did_you_mean(part.instead_of, known, "name what was planned"),
            )
        near = nearest(part.name, [name for name in known if name not in written])
        if part.name not in known and near and part.instead_of is None:
            findings.warning(
                "not-planned",
                f"“{part.name[:40]}” was not planned",
                (*path, part.name),
                given=part.name,
                allowed=listed(known),
                hint=f"did you mean “{near}”? If not, add “instead of”, or let it stand",
            )


def _sessions(project: Project, made: Made, findings: Findings) -> None:
    known = [] if project.sessions is UNREAD else [session.name for session in project.sessions]
    for taken in made.time:
        near = nearest(taken.name, known)
        if taken.name not in known and near:
            findings.warning(
                "not-planned",
                f"no session “{taken.name[:40]}” was planned",
                (*HERE, "time", taken.name),
                given=taken.name,
                allowed=listed(known),
                hint=f"did you mean “{near}”? If not, let it stand",
            )


def _interventions(made: Made, findings: Findings) -> None:
    for i, done in enumerate(made.interventions):
        if made.picks_woven and done.pick and done.pick > made.picks_woven:
            findings.error(
                "beyond-the-end",
                f"pick {done.pick} of {made.picks_woven}",
                (*HERE, "interventions", i, "pick"),
                given=str(done.pick),
                allowed=f"0 to {made.picks_woven}",
                hint="count from the first pick of the piece",
            )
    for i, (first, second) in enumerate(pairwise(made.interventions), start=1):
        if second.pick and first.pick and second.pick < first.pick:
            findings.warning(
                "out-of-order",
                f"pick {second.pick} stands after pick {first.pick}",
                (*HERE, "interventions", i, "pick"),
                given=str(second.pick),
                hint="write them in the order of weaving",
            )


def _counts(made: Made, findings: Findings) -> None:
    """All picks over the whole length, and picks over a part of it, tell nearly the same."""
    counted, woven, length = made.picks, made.picks_woven, made.length
    if not counted or not woven or not isinstance(length, Reading):
        return
    by_part, by_whole = counted.picks / counted.length, woven / length.value
    if abs(by_part / by_whole - 1) > _COUNTS_AGREE:
        findings.warning(
            "picks-disagree",
            f"{woven} picks in {length.value:g} mm are {10 * by_whole:.3g} per cm, "
            f"but {10 * by_part:.3g} per cm were counted",
            (*HERE, "picks"),
            hint="count once more, and measure the length relaxed",
        )


def _take_up(made: Made, findings: Findings) -> None:
    if made.take_up and made.left_over_warp:
        findings.warning(
            "take-up-twice",
            "the take-up is stated, so that from the left-over warp is not used",
            (*HERE, "left-over warp"),
            hint="take one of the two out",
        )
    end, left = made.warp_end, made.left_over_warp
    if isinstance(end, Reading) and isinstance(left, Reading) and left.low >= end.high:
        findings.error(
            "more-left-than-warped",
            f"{left.value:g} mm are left over of a warp end of {end.value:g} mm",
            (*HERE, "left-over warp"),
            given=f"{left.value:g} mm",
            allowed=f"less than {end.value:g} mm",
            hint="measure one end, from the work to its two tips",
        )


def _photographs(made: Made, findings: Findings) -> None:
    seen: set[str] = set()
    for i, photograph in enumerate(made.photographs):
        if photograph.file and photograph.file in seen:
            findings.warning(
                "photograph-twice",
                f"“{photograph.file}” stands here twice",
                (*HERE, "photographs", i),
                given=photograph.file,
                hint="take one of the two out",
            )
        elif photograph.file:
            seen.add(photograph.file)
