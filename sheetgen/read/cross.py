"""What must agree between the parts of a description: takes the read values, adds diagnostics.

Fields that could not be read are :class:`~sheetgen.read.walk.Unread`: no check finds fault there.
"""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.diagnostics import Path, Span
from sheetgen.model.pack import Tablets
from sheetgen.model.project import Project
from sheetgen.model.values import UNKNOWN, Reading
from sheetgen.model.yarn import Yarn
from sheetgen.read.counts import SPUN_SILK
from sheetgen.read.findings import Findings
from sheetgen.read.kits import check_kit
from sheetgen.read.made import check_made
from sheetgen.read.prices import check_prices
from sheetgen.read.uses import check_holes, check_names, check_unused_beads
from sheetgen.read.walk import UNREAD, Walk

_LETTERS = 2
"""Characters that fit beside a thread on a chart."""


def check_agreement(project: Project, walk: Walk, spans: Mapping[Path, Span]) -> None:
    """Note everything that does not agree; ``spans`` tells what was written and what is default."""
    check_names(project, walk)
    check_unused_beads(project, walk)
    _letters(project, walk.findings)
    for yarn in project.yarns:
        check_yarn(yarn, walk.findings)
    _length(project, walk.findings)
    _pack_size(project, walk.findings, ("tablets",) if ("tablets",) in spans else ("form",))
    _drafts(project.tablets, walk.findings)
    _beads_and_form(project, walk.findings)
    check_holes(project, walk.findings)
    _ends(project, walk.findings)
    _weft_of_band(project, walk.findings, spans)
    check_made(project, walk.findings)
    check_kit(project, walk)
    check_prices(project, walk)


def _letters(project: Project, findings: Findings) -> None:
    seen: dict[str, str] = {}
    for yarn in project.yarns:
        if not yarn.letter:
            continue
        path = ("yarns", yarn.name, "letter")
        if len(yarn.letter) > _LETTERS or " " in yarn.letter:
            findings.error(
                "letter",
                f"“{yarn.letter[:40]}” is too long to stand for a yarn on the charts",
                path,
                given=yarn.letter,
                allowed="1 or 2 characters",
                hint=f"write e.g. {yarn.name[:1].upper()}",
            )
        elif yarn.letter in seen:
            findings.error(
                "letter",
                f"“{yarn.letter}” already stands for {seen[yarn.letter]}",
                path,
                given=yarn.letter,
                hint="give each yarn a letter of its own",
            )
        else:
            seen[yarn.letter] = yarn.name


def check_yarn(yarn: Yarn, findings: Findings) -> None:
    """What must agree within one yarn, of a description or of the stash."""
    _thickness(yarn, findings)
    _spun_silk(yarn, findings)


def _thickness(yarn: Yarn, findings: Findings) -> None:
    """Every yarn has some thickness; from its mass it needs the fibre's density too."""
    path = ("yarns", yarn.name)
    if yarn.diameter is not None or yarn.wraps is not None:
        return
    if yarn.count is None and yarn.put_up is None:
        findings.error(
            "no-thickness",
            f"nothing tells how thick {yarn.name} is",
            path,
            allowed="count, put-up, wraps or diameter",
            hint="wind it round a ruler and write e.g. “wraps: 16 per cm”",
        )
    elif yarn.fibre is None:
        findings.error(
            "no-fibre",
            f"the thickness of {yarn.name} follows from its mass only when the fibre is known",
            path,
            hint="add “fibre”, or give wraps or diameter",
        )


def _spun_silk(yarn: Yarn, findings: Findings) -> None:
    """Spun silk in the cotton count is written by the whole yarn, all else by the single."""
    count = yarn.count
    if not count or count.plies < 2 or (yarn.fibre, yarn.preparation) != ("silk", "spun"):
        return
    if count.system == "NeC" and SPUN_SILK not in count.text:
        findings.error(
            "ambiguous-count",
            "spun silk is written by what the whole yarn wraps, other yarns by the single",
            ("yarns", yarn.name, "count"),
            given=count.text,
            hint=f"write “{count.text} {SPUN_SILK}”, or the count of the whole yarn without plies",
        )


def _length(project: Project, findings: Findings) -> None:
    if project.length is None and project.form in ("cord", "band"):
        findings.error(
            "no-length",
            f"a {project.form} needs its finished length",
            ("form",),
            hint="add e.g. “length: 1.2 m”",
        )


def _pack_size(project: Project, findings: Findings, path: Path) -> None:
    """The number of tablets is given, or follows from the find's thickness."""
    if not project.tablets or project.tablets.number is not None:
        return
    if project.form == "band":
        findings.error(
            "no-tablets", "a band needs the number of tablets", path, hint="add e.g. “tablets: 20”"
        )
        return
    thickness = project.find.thickness if project.find is not None else None
    if thickness is UNREAD or isinstance(thickness, Reading):
        return
    unknown = thickness is UNKNOWN
    findings.error(
        "no-tablets",
        "nothing tells how many tablets there are",
        ("find", "thickness") if unknown else path,
        allowed="the number of tablets"
        if unknown
        else "the number of tablets, or the thickness of the find",
        hint="add e.g. “tablets: 3”"
        if unknown
        else "add e.g. “tablets: 3”, or to the find “thickness: about 3 mm”",
    )


def _drafts(tablets: Tablets, findings: Findings) -> None:
    whole = (("tablets",), tablets.draft, tablets.colours)
    parts = [
        (("tablets", "except", i), part.draft, part.colours)
        for i, part in enumerate(tablets.except_)
    ]
    for path, draft, colours in (whole, *parts):
        if draft and colours:
            findings.warning(
                "colours-not-used",
                "the draft gives every colour, so these are not used",
                (*path, "colours"),
                hint="take out the colours, or the draft",
            )
    if tablets.draft and tablets.number and len(tablets.draft) > tablets.number:
        findings.warning(
            "draft-too-long",
            f"more lines in the draft ({len(tablets.draft)}) than tablets ({tablets.number})",
            ("tablets", "draft"),
            hint="lines beyond the last tablet are not used",
        )


def _beads_and_form(project: Project, findings: Findings) -> None:
    if project.beads is None and project.is_string:
        findings.error(
            "no-beads",
            f"a {project.form} is a string of beads, and none are given",
            ("form",),
            hint="add “beads”, or make it a cord",
        )
    if project.beads is not None and project.form in ("cord", "band"):
        findings.withdraw_at("wrong-kind", ("beads",))
        findings.error(
            "beads-not-strung",
            f"beads are strung on a loop or a straight string, not on a {project.form}",
            ("beads",),
            hint="choose form loop or straight, or take the beads out",
        )
    if project.beads is None and project.twist.under_beads:
        findings.warning(
            "under-beads",
            "there are no beads under which a reversal could lie",
            ("twist", "under beads"),
            hint="take the line out",
        )


def _ends(project: Project, findings: Findings) -> None:
    """A loop has one place for a tassel, where its ends meet; every other piece has two ends."""
    tassels = project.tassels.number if project.tassels else 0
    aglets = project.aglets.number if project.aglets else 0
    if project.form == "loop":
        if project.aglets is not None:
            findings.error(
                "aglets-on-loop",
                "a loop has no ends for aglets",
                ("aglets",),
                hint="take them out, or choose form straight or cord",
            )
        if tassels and tassels > 1:
            findings.error(
                "tassels-on-loop",
                "both ends of a loop meet in one tassel",
                ("tassels", "number"),
                given=str(tassels),
                allowed="0 or 1",
                hint="write number: 1",
            )
    elif tassels and aglets and tassels + aglets > 2:
        findings.error(
            "too-many-ends",
            f"more tassels ({tassels}) and aglets ({aglets}) than the two ends can take",
            ("aglets",),
            hint="state both numbers: left out, there are 1 tassel and 2 aglets",
        )


def _weft_of_band(project: Project, findings: Findings, spans: Mapping[Path, Span]) -> None:
    for key in ("enters", "returns"):
        path = ("weft", key)
        if project.form == "band" and path in spans:
            findings.warning(
                "not-for-band",
                f"“{key}” is for tubes: the weft of a band goes from side to side",
                path,
                hint="take the line out",
            )
