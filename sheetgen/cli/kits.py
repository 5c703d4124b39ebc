"""Kits of a description: takes its outcome and how many guests, gives their plan, or why none."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from sheetgen.amounts import money
from sheetgen.cli.run import Outcome, file_error
from sheetgen.diagnostics import Diagnostic, has_errors, placed
from sheetgen.model.kit import Kit
from sheetgen.model.values import Price
from sheetgen.plan.kits import KitPlan, Purchase, plan_kits
from sheetgen.plan.plan import Plan
from sheetgen.plan.planner import make_plan
from sheetgen.read.kits import of_guests


@dataclass(frozen=True, slots=True)
class KitOutcome:
    """The kits, or None where one of the diagnostics of ``about`` is an error."""

    about: Outcome
    kits: KitPlan | None


def fault_of_people(outcome: Outcome, people: int | None) -> Diagnostic | None:
    """Why nobody knows how many guests there are."""
    assert outcome.plan is not None, "only a plan without errors has kits"
    kit = outcome.plan.project.kit
    if people is not None or (kit is not None and kit.people is not None):
        return None
    hint = "write --people 12, or “people: 12” under “kit” in the description"
    return file_error("no-people", "nothing says how many guests there are", hint=hint)


def plan_all(outcome: Outcome, people: int | None, spares: int | None) -> KitOutcome:
    """The kits for so many guests; what is not said here is as the description says."""
    assert outcome.plan is not None, "only a plan without errors has kits"
    kit = outcome.plan.project.kit or Kit()
    guests = kit.people if people is None else people
    assert guests is not None, "asked only when somebody said how many"
    planned = plan_kits(guests_plan(outcome), kit, guests, kit.spares if spares is None else spares)
    told = placed((*outcome.diagnostics, *planned.diagnostics), outcome.spans)
    about = replace(outcome, diagnostics=told)
    return KitOutcome(about, None if has_errors(told) else planned.kits)


def guests_plan(outcome: Outcome) -> Plan:
    """The plan of the kit's piece; without a kit the piece itself, woven by guests."""
    assert outcome.plan is not None, "only a plan without errors has kits"
    if outcome.kit is not None:
        return outcome.kit
    piece = replace(outcome.plan.project, sessions=())
    return make_plan(of_guests(piece, Kit())).plan


def json_of(outcome: KitOutcome) -> dict[str, Any]:
    """The kits for a program to read: mm, min, and money in words."""
    from sheetgen.cli import report

    kits = outcome.kits
    assert kits is not None, "only kits without errors are told"
    return report.as_json(str(outcome.about.file), outcome.about.diagnostics) | {
        "people": kits.people,
        "bags": kits.bags,
        "bag": [
            {
                "sort": item.sort,
                "name": item.name,
                "number": item.number,
                "length_mm": item.length or None,
                "use": item.use or None,
            }
            for item in kits.items
        ],
        "buy": [_bought(purchase) for purchase in kits.purchases],
        "cut": [
            {
                "yarn": cut.use.name,
                "lengths_mm": cut.cutting.lengths,
                "balls": [
                    {"counts": ball.counts, "left_mm": ball.left} for ball in cut.cutting.balls
                ],
                "fewest_possible": cut.cutting.least,
                "proven": cut.cutting.proven,
            }
            for cut in kits.cuts
            if cut.cutting is not None
        ],
        "price": _money(kits.in_all),
        "price_per_head": _money(kits.per_head),
        "sessions": [
            {"name": p.name, "weaving_min": p.lasts, "picks": p.picks, "done": p.done}
            for p in kits.plan.pauses
        ],
        "picks": kits.plan.turning.picks * kits.plan.project.pieces,
    }


def _bought(bought: Purchase) -> dict[str, Any]:
    in_mm = "_mm" if bought.sort == "yarn" else ""
    cost = bought.cost
    return {
        "sort": bought.sort,
        "name": bought.name,
        f"needed{in_mm}": bought.needed,
        f"reserve{in_mm}": bought.reserve,
        f"at_hand{in_mm}": bought.at_hand,
        "unit": bought.unit,
        f"unit_holds{in_mm}": bought.holds,
        "units": bought.units,
        f"left{in_mm}": bought.left,
        "price_of_unit": _money(bought.price),
        "price": None
        if cost is None or bought.price is None
        else _money(replace(bought.price, minor=cost)),
    }


def _money(price: Price | None) -> str | None:
    return None if price is None else money(price.minor, price.places, price.currency)
