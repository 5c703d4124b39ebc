"""The plan to words: takes a Plan, gives a table fitted to the terminal, or JSON."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sheetgen.cli.terminal import BOLD, Paint, cells, padded, seen, wrapped
from sheetgen.layout.fields import written
from sheetgen.plan.figure import Figure
from sheetgen.plan.looks import OTHER_SIDE
from sheetgen.plan.plan import Plan

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Yarns", ("diameter", "tex", "warp_diameter")),
    (
        "Cord or band",
        (
            "tablets",
            "ends",
            "thickness",
            "width",
            "find_thickness",
            "thickness_difference",
            "find_width",
            "width_difference",
            "tablets_for_find",
        ),
    ),
    (
        "Beads and cord",
        (
            "beads",
            "beads_length",
            "finger_room_wanted",
            "ends_take",
            "cord_length",
            "finger_room",
            "pressed_cord",
        ),
    ),
    ("Weaving", ("finished_length", "woven_length", "pick_spacing", "picks_per_length", "picks")),
    (
        "Warp",
        (
            "take_up",
            "near_tail",
            "in_weave",
            "far_tail",
            "loom_waste",
            "warp_end",
            "cut_length",
            "post_distance",
        ),
    ),
    ("Twist", ("twist_limit", "interventions", "worst_twist", "spiral_angle", "spiral_lead")),
    (
        "Weft, tassel and ends",
        (
            "weft_per_pick",
            "weft",
            "tassel_tails",
            "tassel_strands",
            "tassel_strand",
            "tassel_neck",
            "binding",
            "aglet_inside",
        ),
    ),
    ("Yarn to have", ("reserve", "length", "mass", "put_ups")),
    ("Time", ("pace", "weaving_time")),
)
"""Headings and the figures under them; ``tex:red`` goes by what stands before the colon."""

OTHERS = "Also"
_WORKING_LEAST = 36
_GAP = "  "
_LOOKS = {
    "straight": "straight",
    "spiral S": "a spiral climbing like S",
    "spiral Z": "a spiral climbing like Z",
}
_Row = tuple[str, str, str, str, str]
"""Name, value, range, origin, working."""


WRITTEN_WITH_UNIT = frozenset(
    {"mm", "g", "min", "per mm", "tex", "ratio", "share", "turns per mm", "degrees"}
)
"""Units that :func:`sheetgen.layout.fields.written` puts behind the number itself."""


def grouped(figures: Iterable[Figure]) -> list[tuple[str, list[Figure]]]:
    """The figures under their headings, in the order in which they were worked out."""
    heading_of = {key: heading for heading, keys in GROUPS for key in keys}
    found: dict[str, list[Figure]] = {heading: [] for heading, _ in GROUPS}
    for figure in figures:
        heading = heading_of.get(figure.key.partition(":")[0], OTHERS)
        found.setdefault(heading, []).append(figure)
    return [(heading, members) for heading, members in found.items() if members]


def table(plan: Plan, paint: Paint, width: int, sources: bool = False) -> str:
    """Every figure with its value, range, origin and working, in at most ``width`` columns.

    The working stands in a column of its own where there is room, else below the figure.
    """
    units = plan.project.units
    groups = [(h, [(_row(f, units), f) for f in fs]) for h, fs in grouped(plan.figures.values())]
    widths = _widths([row for _, pairs in groups for row, _ in pairs])
    out = [paint(seen(plan.project.piece), BOLD) + f" (plan {plan.project.digest})"]
    for heading, pairs in groups:
        out += ["", paint(heading, BOLD)]
        for row, figure in pairs:
            out += _lines(row, widths, width)
            if sources and figure.source:
                out += [f"      {line}" for line in wrapped(f"from {figure.source}", width - 6)]
    return "\n".join(out)


def value_of(figure: Figure, units: str) -> str:
    """A figure's value with its unit, the counted thing included (``62 picks``)."""
    return _with_unit(figure.value, figure, units)


def _with_unit(value: float, figure: Figure, units: str) -> str:
    text = written(value, figure.unit, units).replace("\xa0", " ")  # wanted on paper only
    if figure.unit in WRITTEN_WITH_UNIT:
        return text
    return f"{text} {figure.unit.removesuffix('s') if text == '1' else figure.unit}"


def _row(figure: Figure, units: str) -> _Row:
    found = between(figure, units)
    value = value_of(figure, units)
    return seen(figure.name), value, found, figure.origin, seen(figure.working)


def between(figure: Figure, units: str) -> str:
    """The range of a figure, ``0.3 to 0.5 mm``; empty where it has none."""
    if not (figure.has_range or figure.low > figure.high):
        return ""
    low, high = sorted((figure.low, figure.high))
    return _unit_once(f"{_with_unit(low, figure, units)} to {_with_unit(high, figure, units)}")


def _unit_once(words: str) -> str:
    """``0.3 mm to 0.5 mm`` as ``0.3 to 0.5 mm``."""
    low, _, high = words.partition(" to ")
    number, _, unit = low.partition(" ")
    return f"{number} to {high}" if unit == high.partition(" ")[2] else words


def _widths(rows: Sequence[_Row]) -> list[int]:
    return [max((cells(row[i]) for row in rows), default=0) for i in range(4)]


def _lines(row: _Row, widths: list[int], width: int) -> list[str]:
    """One figure, its working beside it or below it; in a very narrow window all in a column."""
    name, value, between, origin, working = row
    left = sum(widths) + 4 * len(_GAP)
    if left > width:
        facts = ", ".join(filter(None, (value, between, origin)))
        below = [f"    {line}" for text in (facts, working) for line in wrapped(text, width - 4)]
        return [f"  {line}" for line in wrapped(name, width - 2)] + below
    head = _GAP + _GAP.join(padded(text, w) for text, w in zip(row[:4], widths, strict=True))
    room = width - left - len(_GAP)
    if room < _WORKING_LEAST:
        return [head.rstrip(), *(f"      {line}" for line in wrapped(working, width - 6))]
    first, *rest = wrapped(working, room)
    return [f"{head}{_GAP}{first}".rstrip(), *(" " * (left + len(_GAP)) + line for line in rest)]


def as_json(
    plan: Plan, measure_next: str, chosen: Iterable[Figure] | None = None
) -> dict[str, Any]:
    """The figures (all, or those asked for) for a program to read, in their internal units."""
    from sheetgen.cli import working

    figures = plan.figures.values() if chosen is None else chosen
    return {
        "piece": plan.project.piece,
        "form": plan.project.form,
        "version": plan.project.digest,
        "figures": [
            {
                "key": f.key,
                "name": f.name,
                "value": f.value,
                "unit": f.unit,
                "origin": f.origin,
                "low": f.low,
                "high": f.high,
                "working": f.working,
                "source": f.source,
                "next_measure": f.next_measure,
                **working.as_json(plan, f),
            }
            for f in figures
        ],
        "measure_next": measure_next,
    }


def in_short(plan: Plan) -> str:
    """The three figures to look at before printing, by the form of the piece."""
    figures, units = plan.figures, plan.project.units
    warp_end = f"warp end {value_of(figures['warp_end'], units)}"
    picks = value_of(figures["picks"], units)
    if plan.width is not None:
        band = f"band {value_of(figures['width'], units)} wide{_found(plan, 'find_width')}"
        return ", ".join((band, warp_end, picks))
    thick = value_of(figures["thickness"], units)
    cord = f"cord {thick} thick{_found(plan, 'find_thickness')}"
    if plan.string is not None:
        long = f"{value_of(figures['cord_length'], units)} of cord"
        return ", ".join((cord, long, warp_end))
    return ", ".join((cord, warp_end, picks))


def changes(before: Plan, now: Plan) -> list[str]:
    """What stands otherwise in the second plan: ``warp end: 1.2 m → 1.3 m``, new, or no more."""
    found = []
    for key, figure in now.figures.items():
        value = value_of(figure, now.project.units)
        old = before.figures.get(key)
        was = value_of(old, before.project.units) if old else ""
        if was != value:
            found.append(f"{figure.name}: {f'{was} → ' if was else 'now '}{value}")
    gone = [f"{f.name}: no more" for key, f in before.figures.items() if key not in now.figures]
    return [*found, *gone]


def _found(plan: Plan, key: str) -> str:
    """What the find has, in brackets, if it is known."""
    figure = plan.figures.get(key)
    return f" (find {value_of(figure, plan.project.units)})" if figure else ""


def look(plan: Plan) -> str:
    """How a tube will look from end to end, and what makes it spiral; nothing for a band."""
    looks = [*dict.fromkeys(part.look for part in plan.turning.lengths)]
    if not looks or "flat" in looks or "cannot tell" in looks:
        return ""
    if len(looks) > 1:
        return f"{' and '.join(_LOOKS[each] for each in looks)}, in turn"
    if looks == ["straight"]:
        side = OTHER_SIDE[plan.turning.lengths[0].side]
        return f"straight from end to end; it spirals with the weft in at the {side}"
    return f"{_LOOKS[looks[0]]}, from end to end"
