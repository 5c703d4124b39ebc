"""Supplies: takes size, weaving and ends, gives tassel, weft and the yarn to have of each kind."""

from __future__ import annotations

from sheetgen.amounts import length, plain, significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.model.project import Project
from sheetgen.plan.constants import BAND_WEFT, RESERVE, SEWING_TAIL, TRIM, WEFT_TAIL
from sheetgen.plan.cord import radius_ratio, weft_per_pick_of_tube
from sheetgen.plan.figure import Ledger, Origin
from sheetgen.plan.materials import USES, YarnUse, give_letters
from sheetgen.plan.shortfall import shortfall
from sheetgen.plan.size import Size
from sheetgen.plan.tassel import Tassel, make_tassel
from sheetgen.plan.weaving import Weaving
from sheetgen.plan.words import counted


def weft_name(project: Project) -> str:
    """The weft's yarn: as described, else the first yarn."""
    return project.weft.yarn or project.yarns[0].name


def plan_weft(project: Project, size: Size, weaving: Weaving, ledger: Ledger) -> float:
    """Weft (mm) of one piece: every pick and two tails."""
    d = size.diameter.value
    if size.width is None:
        ends = max(1, round(size.pack.ends / len(size.pack.tablets)))
        cord = radius_ratio(ends) * d
        per_pick = weft_per_pick_of_tube(size.thickness.value, cord, d)
        working = (
            f"π × (cord {significant(size.thickness.value)} mm − one tablet’s cord "
            f"{significant(cord)} mm), at least π × d; d = {significant(d)} mm, a warp end"
        )
        rests_on: tuple[str, ...] = ("thickness", "warp_diameter")
    else:
        per_pick = size.width.value * BAND_WEFT.value
        working = f"the band’s width {length(size.width.value)} × {BAND_WEFT.value}"
        rests_on = ("width",)
    ledger.enter(
        "weft_per_pick", "weft in one pick", per_pick, "mm", "computed", working, rests_on=rests_on
    )
    picks = weaving.picks
    total = picks * per_pick + 2 * WEFT_TAIL.value
    ledger.enter(
        "weft",
        "weft of one piece",
        total,
        "mm",
        "computed",
        f"{picks} × {significant(per_pick)} mm + 2 tails of {length(WEFT_TAIL.value)}",
        rests_on=("picks", "weft_per_pick"),
    )
    return total


def plan_tassel(project: Project, size: Size, ledger: Ledger) -> Tassel | None:
    """The tassels, all alike; None if the piece has none."""
    wanted = project.tassels
    if wanted is None or not wanted.number:
        return None
    both = project.form == "loop" and wanted.number == 1
    tails = size.pack.ends * (2 if both else 1)
    yarn = size.yarns[wanted.yarn or project.yarns[0].name]
    d = yarn.diameter.value
    end = size.diameter.value
    tassel = make_tassel(tails, d, wanted.skirt, wanted.thickness, wanted.neck_wraps, end)
    alike = plain(tails * (end / d) ** 2, 1)
    ledger.enter("tassel_tails", "tails in a tassel", tails, "ends", "computed", "ends of the cord")
    thick = wanted.thickness
    ledger.enter(
        "tassel_strands",
        "strands added to a tassel",
        tassel.strands,
        "strands",
        "computed",
        f"(0.6 × ({length(thick)} / {length(d)})² − {alike} for {counted(tails, 'tail')}) / 2, "
        "folded"
        if thick
        else "none wanted",
    )
    ledger.enter(
        "tassel_strand",
        "length of a strand",
        tassel.strand_length,
        "mm",
        "computed",
        f"2 × {length(tassel.skirt)} + {length(TRIM.value)} to trim",
    )
    ledger.enter(
        "tassel_neck",
        "thickness of the neck",
        tassel.neck,
        "mm",
        "computed",
        f"{length(d)} × √(({alike} + 2 × {tassel.strands}) / 0.6)",
        between=(tassel.neck * 0.85, tassel.neck * 1.15),
    )
    ledger.enter(
        "binding",
        "binding of a neck",
        tassel.binding,
        "mm",
        "computed",
        f"{tassel.neck_wraps} × π × {length(tassel.neck)} + 2 × {length(SEWING_TAIL.value)}",
    )
    return tassel


def plan_yarns(
    project: Project,
    size: Size,
    weaving: Weaving,
    weft: float,
    tassel: Tassel | None,
    ledger: Ledger,
    told: list[Diagnostic],
) -> tuple[YarnUse, ...]:
    """What is used of every yarn in all pieces, with letters, reserve, put-ups and shortfalls."""
    uses = lengths_by_use(project, size, weaving, weft, tassel)
    stated = {y.name: y.letter for y in project.yarns if y.letter}
    names = [y.name for y in project.yarns if y.name in uses]
    letters = give_letters(names, stated, HOLE_LETTERS[: size.pack.holes])
    reserve = RESERVE.value if project.reserve is None else project.reserve
    origin: Origin = "rule of thumb" if project.reserve is None else "stated"
    ledger.enter("reserve", "reserve of yarn", reserve, "share", origin, "beyond what is used")
    found = []
    for place, name in enumerate(names):
        parts = tuple((use, uses[name][use]) for use in USES if uses[name].get(use))
        found.append(YarnUse(size.yarns[name], letters[name], place, parts, reserve))
    for use in found:
        _enter_use(use, ledger)
        told.extend(shortfall(project, use))
    for yarn in project.yarns:
        if yarn.name not in uses:
            told.append(
                Diagnostic(
                    "yarn-unused",
                    "warning",
                    f"the yarn “{yarn.name}” is not used anywhere",
                    ("yarns", yarn.name),
                )
            )
    return tuple(found)


def lengths_by_use(
    project: Project, size: Size, weaving: Weaving, weft: float, tassel: Tassel | None
) -> dict[str, dict[str, float]]:
    """Yarn name -> use -> mm, for all pieces."""
    warps = 1 if project.one_warp else project.pieces
    uses: dict[str, dict[str, float]] = {}

    def add(name: str, use: str, mm: float) -> None:
        part = uses.setdefault(name, {})
        part[use] = part.get(use, 0.0) + mm

    for name, ends in size.pack.ends_by_yarn.items():
        add(name, "warp", warps * ends * weaving.end.length)
    add(weft_name(project), "weft", project.pieces * weft)
    if tassel and project.tassels:
        count = project.pieces * project.tassels.number
        strands = project.tassels.yarn or project.yarns[0].name
        if tassel.strands:
            add(strands, "tassel", count * tassel.strands * tassel.strand_length)
        add(project.tassels.binding or strands, "binding", count * tassel.binding)
    return uses


def _enter_use(use: YarnUse, ledger: Ledger) -> None:
    parts = " + ".join(f"{name} {length(mm)}" for name, mm in use.by_use)
    more = f", + {plain(use.reserve * 100, 0)} %"
    roots = {"warp": "warp_end", "weft": "weft", "tassel": "tassel_strand", "binding": "binding"}
    ledger.enter(
        f"length:{use.name}",
        f"{use.name} to have",
        use.wanted,
        "mm",
        "computed",
        parts + more,
        rests_on=("reserve", *(roots[name] for name, _ in use.by_use)),
    )
    tex = use.figures.tex
    ledger.enter(
        f"mass:{use.name}",
        f"mass of {use.name} to have",
        use.mass_wanted,
        "g",
        "computed",
        f"{length(use.wanted)} × {significant(tex.value)} tex",
        between=(use.wanted / 1e6 * tex.low, use.wanted / 1e6 * tex.high),
        rests_on=(f"length:{use.name}", tex.key),
    )
    if use.put_ups is not None:
        sold = use.figures.yarn.put_up
        assert sold is not None, "put-ups are counted only where the put-up is stated"
        ledger.enter(
            f"put_ups:{use.name}",
            f"balls of {use.name} to have",
            use.put_ups,
            "pieces",
            "computed",
            f"{length(use.wanted)} / {length(sold.length)} each",
            rests_on=(f"length:{use.name}",),
        )
