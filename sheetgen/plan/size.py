"""Size: takes a Project, gives its yarns, its pack, and how thick and wide the work will be."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from sheetgen.amounts import length, plain, significant
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.plan.constants import BAND_RANGE, FINGER_TEST, SPECHT
from sheetgen.plan.cord import cord_thickness, mean_diameter, radius_ratio, tablets_for_thickness
from sheetgen.plan.courses import by_course
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.learning import Learned, YarnKey
from sheetgen.plan.pack import Pack, Tablet, build_pack
from sheetgen.plan.plan import SizeVerdict
from sheetgen.plan.verdict import hold_against_find
from sheetgen.plan.words import counted
from sheetgen.plan.yarn import YarnFigures, measure_yarn


@dataclass(frozen=True, slots=True)
class Size:
    """Yarns by name, pack, mean warp diameter, thickness, width (bands), verdict: mm."""

    yarns: dict[str, YarnFigures]
    pack: Pack
    diameter: Figure
    thickness: Figure
    width: Figure | None
    verdict: SizeVerdict | None

    def tablet_diameter(self, tablet: Tablet) -> float:
        """Mean diameter (mm) of the threads of one tablet."""
        return _tablet_diameter(tablet, self.yarns)


def size_up(project: Project, ledger: Ledger) -> Size:
    """Work out yarns, pack, thickness and width, and hold them against the find."""
    yarns = {yarn.name: measure_yarn(yarn, ledger) for yarn in project.yarns}
    pack = _pack(project, yarns, ledger)
    if pack.ends:
        ledger.warp_yarn = most_used(pack.ends_by_yarn, yarns)
    diameter = _warp_diameter(pack, yarns, ledger)
    ledger.enter(
        "ends",
        "warp ends",
        pack.ends,
        "ends",
        "computed",
        " + ".join(f"{n} × {counted(ends, 'thread')}" for n, ends in _tablets_by_ends(pack)),
    )
    if project.is_tube:
        thickness = _cord_thickness(project, pack.ends, diameter, ledger)
        width = None
    else:
        thickness, width = _band(project, pack, yarns, diameter, ledger)
    verdict = hold_against_find(project, pack, diameter, thickness, width, ledger)
    return Size(yarns, pack, diameter, thickness, width, verdict)


def most_used(ends: Mapping[str, int], yarns: dict[str, YarnFigures]) -> YarnKey:
    """The yarn of most ends, of equals the first: what past pieces of it teach is asked for."""
    return yarns[max(ends, key=lambda name: ends[name])].key


def _tablet_diameter(tablet: Tablet, yarns: dict[str, YarnFigures]) -> float:
    """Mean diameter (mm) of a tablet's threads; 0 for a tablet without any."""
    return mean_diameter([yarns[y].diameter.value for y in tablet.holes if y])


def _tablets_by_ends(pack: Pack) -> list[tuple[int, int]]:
    counts: dict[int, int] = {}
    for tablet in pack.tablets:
        counts[tablet.ends] = counts.get(tablet.ends, 0) + 1
    return [(n, ends) for ends, n in counts.items()]


def _pack(project: Project, yarns: dict[str, YarnFigures], ledger: Ledger) -> Pack:
    """The pack as stated, or with the number of tablets that meets the find's thickness."""
    stated = project.tablets
    first = project.yarns[0].name
    number = stated.number
    if number is not None:
        ledger.enter("tablets", "tablets", number, "tablets", "stated", "as described")
        return _threaded(project, number)
    find = project.find
    assert find is not None, "the reader asks for a number of tablets or a find"
    assert isinstance(find.thickness, Reading), "the reader asks for its thickness"
    repeat = build_pack(replace(stated, except_=(), groups=()), max(1, len(stated.draft)), first)
    threads = max(1, round(repeat.ends / len(repeat.tablets)))
    used = [name for tablet in repeat.tablets for name in tablet.holes if name]
    if used:
        ledger.warp_yarn = most_used(repeat.ends_by_yarn, yarns)
    diameter = mean_diameter([yarns[name].diameter.value for name in used or [first]])
    wanted = find.thickness.value
    lesson = ledger.learned("cord_thickness")
    ratio = lesson.value if lesson else 1.0
    number = tablets_for_thickness(wanted / ratio, diameter, threads)
    ledger.enter(
        "tablets",
        "tablets",
        number,
        "tablets",
        "computed",
        f"nearest to {length(wanted)} with {counted(threads, 'thread')} of {length(diameter)} a "
        f"tablet{_as_made(lesson)}",
        source=SPECHT,
        next_measure=FINGER_TEST,
    )
    return _threaded(project, number)


def _threaded(project: Project, number: int) -> Pack:
    """The pack of ``number`` tablets, its groups parted where steps single tablets out."""
    groups, _ = by_course(project.tablets, project.turning, number)
    return build_pack(replace(project.tablets, groups=groups), number, project.yarns[0].name)


def _warp_diameter(pack: Pack, yarns: dict[str, YarnFigures], ledger: Ledger) -> Figure:
    """Mean diameter of the warp ends, with the mean of their ranges."""
    by_yarn = pack.ends_by_yarn or {next(iter(yarns)): 1}  # a pack without a thread is an error

    def mean(part: str) -> float:
        return mean_diameter(
            [
                getattr(yarns[name].diameter, part)
                for name, ends in by_yarn.items()
                for _ in range(ends)
            ]
        )

    first = yarns[next(iter(by_yarn))].diameter
    several = len(by_yarn) > 1
    return ledger.enter(
        "warp_diameter",
        "diameter of a warp end",
        mean("value"),
        "mm",
        "computed" if several else first.origin,
        "root of the mean square of all ends" if several else first.working,
        between=(mean("low"), mean("high")),
        source=first.source,
        next_measure=first.next_measure,
    )


def _on_sample(key: str, name: str, reading: Reading, ledger: Ledger) -> Figure:
    """Enter a size that was measured on a sample: it outranks every formula."""
    between = (reading.low, reading.high)
    return ledger.enter(
        key, name, reading.value, "mm", "measured", "on the sample", between=between
    )


def _as_made(lesson: Learned | None) -> str:
    """What a size of the formula is multiplied by, in a line of working."""
    return f", × {significant(lesson.value)}, {lesson.said()}" if lesson else ""


def _cord_thickness(project: Project, ends: int, diameter: Figure, ledger: Ledger) -> Figure:
    """Thickness of a pressed round cord: measured on a sample, else d R(N)."""
    if project.sample and project.sample.diameter:
        return _on_sample("thickness", "thickness of the cord", project.sample.diameter, ledger)
    ends = max(ends, 1)
    ratio = radius_ratio(ends)
    if lesson := ledger.learned("cord_thickness"):
        formula = cord_thickness(diameter.value, ends)
        usual = (diameter.low * ratio, diameter.high * ratio)
        return ledger.enter(
            "thickness",
            "thickness of the cord, as made before",
            lesson.value * formula,
            "mm",
            "measured",
            f"{significant(formula)} mm for {counted(ends, 'end')}, pressed{_as_made(lesson)}",
            between=lesson.between(formula, usual),
            next_measure="" if lesson.enough else FINGER_TEST,
        )
    return ledger.enter(
        "thickness",
        "thickness of the cord, pressed",
        cord_thickness(diameter.value, ends),
        "mm",
        "computed",
        f"{significant(diameter.value)} mm × {plain(ratio, 2)} for {counted(ends, 'end')}",
        between=(diameter.low * ratio, diameter.high * ratio),
        source=SPECHT,
        next_measure=FINGER_TEST,
    )


def _band(
    project: Project, pack: Pack, yarns: dict[str, YarnFigures], diameter: Figure, ledger: Ledger
) -> tuple[Figure, Figure]:
    """Thickness and width of a flat band: every tablet's threads make one pressed cord."""
    cords = [cord_thickness(_tablet_diameter(t, yarns), t.ends) for t in pack.tablets if t.ends]
    cords = cords or [diameter.value]
    wide, sample = math.fsum(cords), project.sample
    thick = wide / len(cords)
    ratio = plain(thick / diameter.value, 2)
    sizes = (
        (
            "thickness",
            thick,
            sample.diameter if sample else None,
            f"as one tablet's cord: {ratio} × {significant(diameter.value)} mm",
        ),
        (
            "width",
            wide,
            sample.width if sample else None,
            f"{counted(len(pack.tablets), 'tablet')} × {significant(thick)} mm each",
        ),
    )
    thickness, width = (_band_size(*size, ledger) for size in sizes)
    return thickness, width


def _band_size(
    key: str, value: float, measured: Reading | None, working: str, ledger: Ledger
) -> Figure:
    """Thickness or width (mm) of a band, measured or with the spread of bands."""
    name, spread = f"{key} of the band", BAND_RANGE.value
    if measured is not None:
        return _on_sample(key, name, measured, ledger)
    usual = (value * (1 - spread), value * (1 + spread))
    lesson = ledger.learned(f"band_{key}")
    known = lesson is not None and lesson.enough
    return ledger.enter(
        key,
        name,
        value * (lesson.value if lesson else 1.0),
        "mm",
        "measured" if lesson else "computed",
        f"{working}{_as_made(lesson)}",
        between=lesson.between(value, usual) if lesson else usual,
        source=SPECHT,
        next_measure="" if known else "weave a hand's breadth and measure it",
    )
