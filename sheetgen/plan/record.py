"""The record: takes a Plan with what was made, gives find, plan and made held side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.model.made import Made
from sheetgen.model.project import Project
from sheetgen.model.values import UNKNOWN, Reading, Unknown
from sheetgen.plan.figure import Figure, Origin, Unit
from sheetgen.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Told:
    """One value in the row's unit, with the range it may lie in and where it came from."""

    value: float
    low: float
    high: float
    origin: Origin
    by_rule: bool = False
    """True when it was worked out from a rule of thumb."""


@dataclass(frozen=True, slots=True)
class Row:
    """One quantity as it is on the find, in the plan and on the piece; None where nobody says.

    ``key`` is that of the plan's figure, or ``beads:name``, ``yarn:name``.
    """

    key: str
    unit: Unit
    find: Told | Unknown | None = None
    plan: Told | None = None
    made: Told | None = None

    @property
    def name(self) -> str:
        """The yarn or kind of bead that the row is about; empty for the piece itself."""
        return self.key.partition(":")[2]

    @property
    def from_plan(self) -> float | None:
        """Made less planned, in the row's unit; None where either is not told."""
        return self.made.value - self.plan.value if self.made and self.plan else None

    @property
    def from_find(self) -> float | None:
        """Made less the find, or planned less the find while nothing is made."""
        ours = self.made or self.plan
        return ours.value - self.find.value if ours and isinstance(self.find, Told) else None


def share(difference: float, of: float) -> float | None:
    """A difference as a share of what it is a difference from; None of nothing.

    >>> share(1.0, 4.0), share(1.0, 0.0)
    (0.25, None)
    """
    return difference / of if of else None


def take_up_from_left_over(warp_end: float, left_over: float, woven: float) -> float:
    """Warp used per length woven: (warp end − left over) / woven, all mm; 1 at the least.

    ``left_over`` is what of one end is not in the weave, both tails and what lies between pieces
    included; ``woven`` is the length of all pieces on that end, before they shrink. Definition of
    take-up; a warp of 180 in of which 31 in stay on the loom and 136 in are woven has
    (180 − 31) / 136 = 1.096 (Handwoven, March/April 2011, pp. 52-53).

    >>> round(take_up_from_left_over(180, 31, 136), 3)
    1.096
    """
    return (warp_end - left_over) / woven


def compare(plan: Plan) -> tuple[Row, ...]:
    """Every quantity that can be told of the find, the plan or the piece, in the sheet's order."""
    return (*_sizes(plan), *_weaving(plan), *_beads(plan), *_yarns(plan), *_time(plan))


def on_the_loom(project: Project, length: float) -> float:
    """A length (mm) of the finished piece as it was on the loom: length / (1 − shrinkage)."""
    return length / (1 - project.shrinkage)


def woven_in_all(plan: Plan) -> float | None:
    """Length (mm) woven on one warp end before shrinkage, as measured; None if it was not."""
    made = plan.project.made
    if made is None or made.length is None:
        return None
    return on_the_loom(plan.project, made.length.value) * plan.warp.pieces


def _sizes(plan: Plan) -> Iterator[Row]:
    project, find = plan.project, plan.project.find
    made = project.made or Made()
    length = "finished_length" if "finished_length" in plan.figures else "cord_length"
    for key, attribute in ((length, "length"), ("width", "width"), ("thickness", "thickness")):
        read = getattr(find, attribute) if find else None
        if key in plan.figures:
            yield Row(
                key,
                "mm",
                UNKNOWN if read is UNKNOWN else _read(read),
                _figure(plan, key),
                _read(getattr(made, attribute), "measured"),
            )


def _weaving(plan: Plan) -> Iterator[Row]:
    yield Row("warp_end", "mm", None, _figure(plan, "warp_end"), _warp_end(plan))
    yield Row("picks", "picks", None, _figure(plan, "picks"), _picks(plan))
    yield Row("pick_spacing", "mm", None, _figure(plan, "pick_spacing"), _spacing(plan))
    yield Row("take_up", "ratio", None, _figure(plan, "take_up"), _take_up(plan))
    stops = len(plan.turning.interventions)
    made = plan.project.made
    woven = _exactly(len(made.interventions), "measured") if made and made.interventions else None
    yield Row("interventions", "times", None, _exactly(stops, "computed"), woven)


def _beads(plan: Plan) -> Iterator[Row]:
    """Kinds in the order of the plan, then those that were not planned; of all pieces together."""
    made = plan.project.made
    used = {part.name: part.number for part in made.beads_used} if made else {}
    planned = dict(plan.string.string.counts) if plan.string else {}
    for name in dict.fromkeys((*planned, *used)):
        wanted = planned.get(name, 0) * plan.project.pieces
        yield Row(
            f"beads:{name}",
            "beads",
            None,
            _exactly(wanted, "stated") if name in planned else None,
            _exactly(used[name], "measured") if name in used else None,
        )


def _yarns(plan: Plan) -> Iterator[Row]:
    """Yarn used without reserve, by mass unless the length was measured."""
    made = plan.project.made
    used = {part.name: part.amount for part in made.yarns_used} if made else {}
    uses = {use.name: use for use in plan.yarns}
    for name in dict.fromkeys((*uses, *used)):
        amount, use = used.get(name), uses.get(name)
        by_length = amount is not None and amount.length is not None
        unit: Unit = "mm" if by_length else "g"
        planned = None
        if use is not None:
            rule = (
                use.figures.tex.origin == "rule of thumb" or plan.figures["warp_end"].rests_on_rule
            )
            value = use.used if by_length else use.mass_of(use.used)
            planned = Told(value, value, value, "computed", rule)
        told = None
        if amount is not None:
            told = _exactly((amount.length if by_length else amount.mass) or 0.0, "measured")
        yield Row(f"yarn:{name}", unit, None, planned, told)


def _time(plan: Plan) -> Iterator[Row]:
    made = plan.project.made
    taken = sum(part.took for part in made.time) if made else 0.0
    yield Row(
        "weaving_time",
        "min",
        None,
        _figure(plan, "weaving_time"),
        _exactly(taken, "measured") if taken else None,
    )
    yield Row("pace", "picks per min", None, _figure(plan, "pace"), _pace(plan))


def _warp_end(plan: Plan) -> Told | None:
    made = plan.project.made
    return _read(made.warp_end, "measured") if made else None


def _picks(plan: Plan) -> Told | None:
    """Picks of one piece as counted, else from those counted over a part of its length."""
    made = plan.project.made
    if made is None:
        return None
    if made.picks_woven is not None:
        return _exactly(made.picks_woven, "measured")
    if made.picks is None or made.length is None:
        return None
    each = made.picks.length / made.picks.picks
    return _between(*(n / each for n in _ends(made.length)))


def _spacing(plan: Plan) -> Told | None:
    """Length of one pick on the loom, mm: length / picks, before the piece shrank."""
    made, project = plan.project.made, plan.project
    if made is None:
        return None
    origin: Origin = "computed" if project.shrinkage else "measured"
    if made.picks is not None:
        each = on_the_loom(project, made.picks.length / made.picks.picks)
        return _exactly(each, origin)
    if made.picks_woven is None or made.length is None:
        return None
    return _between(*(on_the_loom(project, n / made.picks_woven) for n in _ends(made.length)))


def _take_up(plan: Plan) -> Told | None:
    """As stated, else from the warp that was left over: see :func:`take_up_from_left_over`."""
    made = plan.project.made
    if made is None:
        return None
    if made.take_up is not None:
        return _exactly(made.take_up, "measured")
    woven, left = woven_in_all(plan), made.left_over_warp
    if woven is None or left is None or made.length is None:
        return None
    end = made.warp_end.value if made.warp_end else plan.warp.length
    scale = woven / made.length.value
    return _between(
        take_up_from_left_over(end, left.value, woven),
        take_up_from_left_over(end, left.high, scale * made.length.high),
        take_up_from_left_over(end, left.low, scale * made.length.low),
    )


def _pace(plan: Plan) -> Told | None:
    """Picks a minute: of the sessions whose picks were counted, else of all picks and all time."""
    made = plan.project.made
    if made is None or not made.time:
        return None
    counted = [part for part in made.time if part.picks is not None and part.took]
    if counted:
        picks = sum(part.picks or 0 for part in counted)
        return _exactly(picks / sum(part.took for part in counted), "computed")
    time = sum(part.took for part in made.time)
    if made.picks_woven is None or not time:
        return None
    return _exactly(made.picks_woven * plan.project.pieces / time, "computed")


def _figure(plan: Plan, key: str) -> Told | None:
    figure: Figure | None = plan.figures.get(key)
    if figure is None:
        return None
    rule = figure.rests_on_rule
    return Told(figure.value, figure.low, figure.high, figure.origin, rule)


def _read(reading: object, origin: Origin = "stated") -> Told | None:
    if not isinstance(reading, Reading):
        return None
    return Told(reading.value, reading.low, reading.high, origin)


def _ends(reading: Reading) -> tuple[float, float, float]:
    return reading.value, reading.low, reading.high


def _between(value: float, low: float, high: float) -> Told:
    return Told(value, low, high, "computed")


def _exactly(value: float, origin: Origin) -> Told:
    return Told(value, value, value, origin)
