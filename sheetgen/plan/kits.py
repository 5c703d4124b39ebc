"""Kits: takes the plan of a kit's piece, guests and spares, gives bags, purchases, cuts, time."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sheetgen.diagnostics import Diagnostic
from sheetgen.model.kit import Kit
from sheetgen.model.values import Price
from sheetgen.plan.bags import BagItem, Sort, bag_of
from sheetgen.plan.cutting import Cutting, cut_from_balls
from sheetgen.plan.materials import YarnUse
from sheetgen.plan.needs import Ready, ready_of
from sheetgen.plan.plan import Plan

Unit = Literal["ball", "hank", "skein", "cone", "spool", "pack", "piece"]


@dataclass(frozen=True, slots=True)
class Purchase:
    """One thing for all bags. ``needed`` goes into the bags, ``reserve`` is on top of it.

    Of yarn they are mm, of all else numbers. ``units`` are to be bought of ``unit``, each holding
    ``holds``; None where nothing says how it is sold. ``left`` is what is left when the bags are
    packed, of what is bought and ``at_hand``.
    """

    sort: Sort
    name: str
    needed: int
    reserve: int
    at_hand: int
    unit: Unit
    holds: int | None
    units: int | None
    left: int | None
    price: Price | None = None
    colour: str = ""

    @property
    def cost(self) -> int | None:
        """Minor units of money for all that is bought; None without a price."""
        if self.price is None or self.units is None:
            return None
        return self.units * self.price.minor


@dataclass(frozen=True, slots=True)
class YarnCut:
    """How one yarn is cut for all bags; ``cutting`` is None where its balls are not described."""

    use: YarnUse
    items: tuple[BagItem, ...]
    cutting: Cutting | None
    total: int


@dataclass(frozen=True, slots=True)
class KitPlan:
    """Everything for ``people`` guests and ``bags`` bags; money in whole minor units.

    ``in_all`` is the price of all that has one, ``per_head`` its share for each guest, rounded up
    so that the shares cover it; ``unpriced`` is bought too, and nothing says for how much.
    ``ready`` lies ready for all.
    """

    plan: Plan
    kit: Kit
    people: int
    bags: int
    items: tuple[BagItem, ...]
    purchases: tuple[Purchase, ...]
    cuts: tuple[YarnCut, ...]
    ready: tuple[Ready, ...]
    in_all: Price | None
    per_head: Price | None
    unpriced: tuple[str, ...]

    def guest(self, bag: int) -> str:
        """Whose bag it is, as far as names are given."""
        return self.kit.names[bag - 1] if bag <= len(self.kit.names) else ""

    def is_spare(self, bag: int) -> bool:
        """True for the bags beyond one a guest."""
        return bag > self.people


@dataclass(frozen=True, slots=True)
class KitPlanned:
    """The plan of the kits, and what is wrong with it: with an error it must not be printed."""

    kits: KitPlan
    diagnostics: tuple[Diagnostic, ...]


def plan_kits(plan: Plan, kit: Kit, people: int, spares: int) -> KitPlanned:
    """Everything that ``people`` guests and ``spares`` more bags need. Pure."""
    bags = people + spares
    told: list[Diagnostic] = []
    items = tuple(bag_of(plan, kit))
    cuts = tuple(_cut(use, items, bags, told) for use in plan.yarns)
    bought = (
        *(_yarn(cut) for cut in cuts),
        *_fittings(plan, kit, items, bags),
        *_things(kit, bags),
        *_needs(items, bags),
    )
    priced = [(p.cost, p.price) for p in bought if p.price is not None and p.units]
    in_all = per_head = None
    if priced:
        currency = priced[0][1].currency
        total = sum(cost or 0 for cost, _ in priced)
        in_all = Price(total, currency)
        per_head = Price(-(-total // people), currency)
    unpriced = tuple(p.name for p in bought if p.price is None and p.units != 0)
    if len(kit.names) > people:
        told.append(
            Diagnostic(
                "more-names-than-people",
                "error",
                f"{len(kit.names)} names for {people} people",
                ("kit", "names"),
                hint="ask for as many people as there are names, or take names out",
            )
        )
    kits = KitPlan(
        plan,
        kit,
        people,
        bags,
        items,
        bought,
        cuts,
        ready_of(plan, kit),
        in_all,
        per_head,
        unpriced,
    )
    return KitPlanned(kits, tuple(told))


def _cut(use: YarnUse, items: tuple[BagItem, ...], bags: int, told: list[Diagnostic]) -> YarnCut:
    """The lengths of one yarn, and from which balls they are cut."""
    own = tuple(item for item in items if item.yarn == use.name)
    total = sum(item.length * item.number for item in own) * bags
    sold = use.figures.yarn.put_up
    if sold is None:
        return YarnCut(use, own, None, total)
    wanted = [(item.length, item.number * bags) for item in own]
    whole = int(sold.length)
    if any(mm > whole for mm, _ in wanted):
        told.append(
            Diagnostic(
                "longer-than-a-ball",
                "error",
                f"one length of {use.name} is longer than what is sold in one piece",
                ("yarns", use.name, "put-up"),
                hint="choose a larger ball, a shorter piece, or tie the warp on shorter",
            )
        )
        return YarnCut(use, own, None, total)
    return YarnCut(use, own, cut_from_balls(wanted, whole), total)


def _yarn(cut: YarnCut) -> Purchase:
    """Balls of one yarn. What is at hand is taken whole balls at a time, since cuts need them."""
    yarn, cutting = cut.use.figures.yarn, cut.cutting
    reserve = sum(item.of_which_reserve for item in cut.items)
    bags = cut.total // max(1, sum(item.length * item.number for item in cut.items))
    spare = reserve * bags
    at_hand = int(cut.use.at_hand or 0)
    needed = cut.total - spare
    unit: Unit = yarn.sold_as  # type: ignore[assignment]
    if cutting is None or yarn.put_up is None:
        return Purchase(
            "yarn", cut.use.name, needed, spare, at_hand, unit, None, None, None, None,
            yarn.colour or "",
        )  # fmt: skip
    holds = int(yarn.put_up.length)
    here = min(len(cutting.balls), at_hand // holds)
    return Purchase(
        "yarn", cut.use.name, needed, spare, here * holds, unit, holds,
        len(cutting.balls) - here, cutting.left, yarn.price, yarn.colour or "",
    )  # fmt: skip


def _fittings(plan: Plan, kit: Kit, items: tuple[BagItem, ...], bags: int) -> Iterator[Purchase]:
    """Beads, finials, aglets and cards, with the reserve of the kit's piece."""
    share = plan.figures["reserve"].value
    beads, aglets, cards = plan.project.beads, plan.project.aglets, kit.cards
    kinds = {kind.name: kind for kind in beads.kinds} if beads else {}
    finial = beads.finial if beads else None
    for item in items:
        pack, price, at_hand, per, colour = None, None, 0, 1, ""
        match item.sort:
            case "bead":
                kind = kinds[item.name]
                pack, price, at_hand = kind.pack, kind.price, kind.at_hand or 0
                colour = kind.colour or ""
            case "finial" if finial:
                pack, price = finial.pack, finial.price
            case "aglet" if aglets:
                pack, price = aglets.pack, aglets.price
            case "tablet":
                pack, price, per = cards.pack, cards.price, cards.tablets
            case _:
                continue
        needed = -(-item.number * bags // per)
        reserve = math.ceil(needed * share - 1e-9)
        yield _packs(item.sort, item.name, needed, reserve, at_hand, pack, price, colour)


def _things(kit: Kit, bags: int) -> Iterator[Purchase]:
    """What else the description names; of these there is no reserve but the spare bags."""
    for thing in kit.things:
        needed = thing.each * bags + thing.lent
        yield _packs("thing", thing.name, needed, 0, thing.at_hand, thing.pack, thing.price, "")


def _needs(items: tuple[BagItem, ...], bags: int) -> Iterator[Purchase]:
    """What the steps need and the description does not name, without a price."""
    for item in items:
        if item.sort == "need":
            yield _packs("need", item.name, item.number * bags, 0, 0, None, None, "")


def _packs(
    sort: Sort,
    name: str,
    needed: int,
    reserve: int,
    at_hand: int,
    pack: int | None,
    price: Price | None,
    colour: str,
) -> Purchase:
    """Whole packs of what is counted; single pieces where nothing says how many are in one."""
    wanting = max(0, needed + reserve - at_hand)
    holds = pack or 1
    units = -(-wanting // holds)
    left = units * holds + at_hand - needed
    unit: Unit = "piece" if holds == 1 else "pack"
    return Purchase(sort, name, needed, reserve, at_hand, unit, holds, units, left, price, colour)
