"""The record: takes a Plan with what was made, gives find, plan and made held side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum

from sheetgen.model.made import Made
from sheetgen.model.values import UNKNOWN, Unknown
from sheetgen.plan import told
from sheetgen.plan.figure import Figure, Unit
from sheetgen.plan.plan import Plan
from sheetgen.plan.told import Told


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


def compare(plan: Plan) -> tuple[Row, ...]:
    """Every quantity that can be told of the find, the plan or the piece, in the sheet's order."""
    return (*_sizes(plan), *_weaving(plan), *_beads(plan), *_yarns(plan), *_time(plan))


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
                UNKNOWN if read is UNKNOWN else told.read(read),
                _figure(plan, key),
                told.read(getattr(made, attribute), "measured"),
            )


def _weaving(plan: Plan) -> Iterator[Row]:
    yield Row("warp_end", "mm", None, _figure(plan, "warp_end"), told.warp_end(plan))
    yield Row("picks", "picks", None, _figure(plan, "picks"), told.picks(plan))
    yield Row("pick_spacing", "mm", None, _figure(plan, "pick_spacing"), told.spacing(plan))
    yield Row("take_up", "ratio", None, _figure(plan, "take_up"), told.take_up(plan))
    stops = len(plan.turning.interventions)
    made = plan.project.made
    woven = (
        told.exactly(len(made.interventions), "measured") if made and made.interventions else None
    )
    yield Row("interventions", "times", None, told.exactly(stops, "computed"), woven)


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
            told.exactly(wanted, "stated") if name in planned else None,
            told.exactly(used[name], "measured") if name in used else None,
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
        taken = None
        if amount is not None:
            taken = told.exactly((amount.length if by_length else amount.mass) or 0.0, "measured")
        yield Row(f"yarn:{name}", unit, None, planned, taken)


def _time(plan: Plan) -> Iterator[Row]:
    made = plan.project.made
    taken = fsum(part.took for part in made.time) if made else 0.0
    yield Row(
        "weaving_time",
        "min",
        None,
        _figure(plan, "weaving_time"),
        told.exactly(taken, "measured") if taken else None,
    )
    yield Row("pace", "picks per min", None, _figure(plan, "pace"), told.pace(plan))


def _figure(plan: Plan, key: str) -> Told | None:
    figure: Figure | None = plan.figures.get(key)
    if figure is None:
        return None
    rule = figure.rests_on_rule
    return Told(figure.value, figure.low, figure.high, figure.origin, rule)
