"""The organiser's sheet: takes the plan of the kits, its template and the paper, gives a Document.

What is to be bought, cut, packed and printed for all bags, when, and what to look at before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from sheetgen import amounts
from sheetgen.layout.blocks import (
    Block,
    Boxed,
    Document,
    Heading,
    NeedRoom,
    Para,
    Run,
    Runs,
    Step,
    Table,
)
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.labels import labels
from sheetgen.layout.materials import stand_in
from sheetgen.layout.packing import item_name, item_size, packing
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.layout.words import Words, plain
from sheetgen.model.template import Template
from sheetgen.model.values import Price
from sheetgen.plan.kits import KitPlan, Purchase, YarnCut

NARROW = 150.0
"""Frames up to so wide have five columns at most, mm."""

_WIDE: tuple[float, ...] = (0.27, 0.22, 0.19, 0.15, 0.17)
_NARROW: tuple[float, ...] = (0.28, 0.23, 0.25, 0.24)
"""Widths of the columns of what is bought, as shares."""

KitPart = Callable[[KitPlan, Desk], Iterator[Block]]


def organiser_sheet(
    kits: KitPlan, template: Template, paper: Paper, measure: Measure, setting: Setting = AS_IT_IS
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not known here."""
    parts: dict[str, Part] = {name: partial(part, kits) for name, part in PARTS.items()}
    return lay_out(parts, kits.plan, template, paper, measure, setting)


def money(desk: Desk, price: Price, times: int = 1) -> str:
    """An amount of money, its decimals all written."""
    text = amounts.money(price.minor * times, price.places, price.currency, desk.writing)
    return text.replace(" ", "\u00a0")


def at_a_glance(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """How many, of what, for how much."""
    words = desk.words("at a glance")
    yield Heading(words.heading)
    told = {
        "people": str(kits.people),
        "bags": str(kits.bags),
        "spares": str(kits.bags - kits.people),
    }
    spare = "with spares" if kits.bags > kits.people else "no spares"
    yield Para((*words.runs("what", **told), Run(" "), *words.runs(spare, **told)))
    if kits.in_all and kits.per_head:
        costs = {
            "in_all": money(desk, kits.in_all),
            "per_head": money(desk, kits.per_head),
            "people": str(kits.people),
        }
        yield Para(words.runs("costs", **costs))
        if kits.unpriced:
            own = desk.words("buy")
            names = (item_name(own, p.sort, p.name) if p.sort == "need" else p.name
                     for p in kits.purchases if p.name in kits.unpriced)  # fmt: skip
            yield Para(words.runs("unpriced", names=", ".join(names)))
    else:
        yield Para(words.runs("no prices"))
    for _, runs in words.lines("notes"):
        yield Para(runs, small=True)


def buying(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """What to buy in the units that are sold, pooled over all bags."""
    words = desk.words("buy")
    yield Heading(words.heading)
    yield Para(words.runs("how", bags=str(kits.bags)))
    rows = [_bought(desk, words, purchase) for purchase in kits.purchases]
    columns, widths = ["what", "needed", "buy", "left", "price"], _WIDE
    if desk.width <= NARROW:
        columns.remove("left")
        widths = _NARROW
        rows = [(*row[:2], _beneath(words, row[2], row[3]), row[4]) for row in rows]
    heads = tuple(words.runs(f"head {column}") for column in columns)
    right = (len(columns) - 1,)
    yield Table(heads, tuple(rows), widths, ticked=True, right=right)
    if kits.in_all and kits.per_head:
        total = {"in_all": money(desk, kits.in_all), "per_head": money(desk, kits.per_head)}
        yield Para(words.runs("total", people=str(kits.people), **total))


def _beneath(words: Words, bought: Runs, left: Runs) -> Runs:
    """What is to be bought and what is left of it in one cell, where paper is narrow."""
    return (*bought, *plain(f" {words.text('left over', left=left[0].text)}"))


def _bought(desk: Desk, words: Words, bought: Purchase) -> tuple[Runs, ...]:
    """One row: what, how much with its reserve, what to buy, what is left, what it costs."""
    is_yarn = bought.sort == "yarn"

    def amount(number: int) -> str:
        return desk.length(number) if is_yarn else str(number)

    needed = amount(bought.needed)
    if bought.reserve:
        needed = words.text("with reserve", needed=needed, reserve=amount(bought.reserve))
    if bought.at_hand:
        needed += " " + words.text("at hand", amount=amount(bought.at_hand))
    buy, left, price = words.text("not described"), "–", words.text("no price")
    if bought.units == 0:
        buy, left, price = words.text("nothing"), amount(bought.left or 0), "–"
    elif bought.units is not None and bought.left is not None:
        buy, left = _units(desk, words, bought), amount(bought.left)
        if bought.price is not None:
            each = money(desk, bought.price)
            price = words.text("price", all=money(desk, bought.price, bought.units), each=each)
    name = item_name(words, bought.sort, bought.name)
    if colour := bought.colour.partition("#")[0].strip():
        name = name if colour in name else f"{name}, {colour}"
    return plain(name, bold=True), plain(needed), plain(buy, bold=True), plain(left), plain(price)


def _units(desk: Desk, words: Words, bought: Purchase) -> str:
    """So many balls, packs or pieces."""
    number = "one" if bought.units == 1 else "more"
    holds = desk.length(bought.holds or 0) if bought.sort == "yarn" else str(bought.holds)
    return words.text(f"{bought.unit} {number}", n=str(bought.units), holds=holds)


def cutting(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """Which lengths to cut from which ball."""
    words = desk.words("cut")
    yield Heading(words.heading)
    yield Para(words.runs("how"))
    for cut in kits.cuts:
        if cut.items:
            yield from _one_yarn(desk, words, cut, kits.bags)


def _one_yarn(desk: Desk, words: Words, cut: YarnCut, bags: int) -> Iterator[Block]:
    """A table of ways of cutting, each for so many balls, and how good it is."""
    name = f"{cut.use.name} ({cut.use.letter})"
    yield NeedRoom(35)
    yield Heading(words.text("yarn", name=name, total=desk.length(cut.total)), level=2)
    if cut.cutting is None:
        for item in cut.items:
            told = {"n": str(item.number * bags), "length": desk.length(item.length)}
            yield Step(words.runs("length alone", what=words.text(f"use {item.use}"), **told))
        return
    rows, number = [], 1
    for alike, ball in cut.cutting.alike:
        last = number + alike - 1
        numbers = str(number) if alike == 1 else f"{number} – {last}"
        pieces = [
            words.text(
                "pieces", n=str(n), length=desk.length(mm),
                what=", ".join(_uses(words, cut, mm)),
            )
            for n, mm in zip(ball.counts, cut.cutting.lengths, strict=True)
            if n
        ]  # fmt: skip
        left = desk.length(ball.left) if ball.left else words.text("none left")
        row = (plain(numbers, bold=True), plain("; ".join(pieces)), plain(left))
        rows.append(row)
        number = last + 1
    heads = tuple(words.runs(f"head {column}") for column in (cut.use.figures.yarn.sold_as, "cut"))
    heads = (*heads, words.runs("head left"))
    yield Table(heads, tuple(rows), (0.2, 0.62, 0.18), ticked=True)
    told = {
        "n": str(len(cut.cutting.balls)),
        "left": desk.length(cut.cutting.left),
        "least": str(cut.cutting.least),
        "left_at_least": desk.length(cut.cutting.left_at_least),
    }
    yield Para(words.runs("proven" if cut.cutting.proven else "not proven", **told), small=True)


def _uses(words: Words, cut: YarnCut, mm: int) -> list[str]:
    """What a length is for."""
    return [words.text(f"use {item.use}") for item in cut.items if item.length == mm]


def bag(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """What goes into one bag, numbered as in the packing list."""
    words = desk.words("bag")
    yield NeedRoom(60)
    yield Heading(words.heading)
    yield Para(words.runs("how"))
    rows = []
    for number, item in enumerate(kits.items, start=1):
        name, size = item_name(words, item.sort, item.name), item_size(desk, words, item)
        rows.append((plain(str(number), bold=True), plain(name), plain(size)))
    rows.append((plain(str(len(rows) + 1), bold=True), plain(words.text("kit sheet")), plain("1")))
    heads = tuple(words.runs(f"head {column}") for column in ("number", "what", "how many"))
    yield Table(heads, tuple(rows), (0.12, 0.43, 0.45))
    yield Heading(words.text("lent"), level=2)
    for thing in kits.ready:
        if thing.number:
            yield Step(words.runs("lent thing", n=str(thing.number), name=thing.name))
        else:
            instead = stand_in(words, thing.name)
            yield Step(words.runs(f"ready {thing.name}", instead=instead))


def time_plan(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """What a guest reaches by the end of each session."""
    words, plan = desk.words("time"), kits.plan
    yield Heading(words.heading)
    yield Para(words.runs("pace"))
    for line in ("slower", "slower by rule"):
        if _slower(kits) == line:
            times = amounts.plain(kits.kit.times_slower or 3, 1, desk.writing)
            yield Para(words.runs(line, times=times))
    if not plan.pauses:
        yield Para(words.runs("no sessions"))
        return
    in_all = plan.turning.picks * plan.project.pieces
    # a place along the work says nothing of several pieces, and narrow paper has no room for it
    places = plan.project.pieces == 1 and desk.width > NARROW
    rows: list[tuple[Runs, ...]] = []
    for pause in plan.pauses:
        share = f"{amounts.plain(100 * pause.picks / in_all, 0)}\u00a0%"
        weaving, aside = desk.time(pause.lasts), desk.time(kits.kit.set_aside)
        reached = words.text("done" if pause.done else "reached", picks=str(pause.picks))
        cells = [pause.name, weaving, aside, reached, share]
        if places:
            cells.insert(4, desk.along(pause.picks * plan.turning.spacing))
        rows.append(tuple(map(plain, cells)))
    columns = ["session", "weaving", "aside", "picks", "share"]
    if places:
        columns.insert(4, "along")
    heads = tuple(words.runs(f"head {column}") for column in columns)
    widths = (0.2, 0.17, 0.16, 0.2, 0.15, 0.12) if places else (0.22, 0.21, 0.2, 0.21, 0.16)
    yield Table(heads, tuple(rows), widths)
    if not plan.pauses[-1].done:
        left = str(in_all - plan.pauses[-1].picks)
        yield Para(words.runs("not done", left=left, picks=str(in_all)))


def _slower(kits: KitPlan) -> str:
    """Which sentence says how a guest's pace was come by; none if it is stated."""
    if kits.plan.project.slower is None:
        return ""
    return "slower" if kits.kit.times_slower else "slower by rule"


def checks(kits: KitPlan, desk: Desk) -> Iterator[Block]:
    """What to look at before the doors open."""
    words = desk.words("checks")
    yield Heading(words.heading)
    if any(p.units is None for p in kits.purchases):
        names = ", ".join(p.name for p in kits.purchases if p.units is None)
        yield Step(words.runs("not described", names=names))
    for thing in kits.kit.things:
        if thing.lent:
            yield Step(words.runs("lent", n=str(thing.lent), name=thing.name))
    spares = kits.bags - kits.people
    told = {"bags": str(kits.bags), "people": str(kits.people), "spares": str(spares)}
    for key, runs in words.lines("list", **told):
        if spares or key != "spares":
            yield Step(runs)
    if cautions := tuple(Para(runs) for _, runs in words.lines("cautions")):
        yield Boxed(cautions, words.text("cautions"))


PARTS: dict[str, KitPart] = {
    "at a glance": at_a_glance,
    "buy": buying,
    "cut": cutting,
    "bag": bag,
    "packing": packing,
    "time": time_plan,
    "checks": checks,
    "labels": labels,
}
