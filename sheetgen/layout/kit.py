"""The kit sheet: takes a plan, its template and the paper, gives one sheet of paper, two sides.

It is for a guest who has nobody to ask: plain words, a drawing for every grip, and the turns as
boxes, several in one where there are many.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import count

from sheetgen.diagnostics import Diagnostic
from sheetgen.layout.blocks import Block, Boxed, Document, Heading, Para, Runs, Table
from sheetgen.layout.described import yarn_name
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.kit_boxes import crowded
from sheetgen.layout.kit_finish import beads, finish, off
from sheetgen.layout.kit_room import Room
from sheetgen.layout.kit_threads import shorten_threading, threads
from sheetgen.layout.kit_weave import picks_a_box, shorten_weaving, weave
from sheetgen.layout.materials import stand_in
from sheetgen.layout.packing import item_name, item_size
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.layout.words import Words, plain
from sheetgen.model.kit import Kit
from sheetgen.model.template import Template
from sheetgen.plan.bags import BagItem, bag_of
from sheetgen.plan.cautions import cautions_of
from sheetgen.plan.needs import Ready, ready_of
from sheetgen.plan.plan import Plan

MOST_KINDS = 12
"""Kinds of beads, and of yarns, that a bag's list has room for."""


def bag(desk: Desk) -> Iterator[Block]:
    """What it will be, what is in the bag, each thing to tick, and what lies ready for all."""
    words, kit = desk.words("bag"), desk.plan.project.kit or Kit()
    yield Heading(words.heading)
    for _, runs in words.lines("what"):
        yield Para(runs)
    rows = tuple(_packed(desk, words, item) for item in bag_of(desk.plan, kit))
    heads = tuple(words.runs(h) for h in ("head thing", "head much"))
    yield Table(heads, rows, (0.7, 0.3), ticked=True)
    ready = "; ".join(_ready(words, thing) for thing in ready_of(desk.plan, kit))
    yield Para(words.runs("ready", names=ready))


def _packed(desk: Desk, words: Words, item: BagItem) -> tuple[Runs, Runs]:
    """One thing of the bag, and how many of it or how long it is."""
    if item.sort == "yarn":
        told = {"yarn": yarn_name(desk.plan, item.name), "n": str(item.number)}
        much = desk.length(item.length)
        if item.number > 1:
            much = words.text("of each", n=told["n"], length=much)
        return words.runs(f"yarn {item.use}", ends=str(item.ends), **told), plain(much)
    much = item_size(desk, words, item)
    if item.sort == "bead" and desk.plan.string:
        across = next(k.diameter for k in desk.plan.string.kinds if k.name == item.name)
        much = words.text("of size", n=much, length=desk.length(across))
    return plain(item_name(words, item.sort, item.name)), plain(much)


def _ready(words: Words, thing: Ready) -> str:
    """Something that lies ready: a thing by its own name, a need by the sheet's word."""
    if thing.number:
        return thing.name
    return words.text(f"ready {thing.name}", instead=stand_in(words, thing.name))


def trouble(desk: Desk) -> Iterator[Block]:
    """What is wrong, and what to do then."""
    words = desk.words("trouble")
    yield Heading(words.heading)
    for _, runs in words.lines("wrong"):
        yield Para(runs)


def care(desk: Desk) -> Iterator[Block]:
    """Cautions by what is in the bag, each with its rule; the rules of the place come first."""
    words = desk.words("care")
    lines = [Para(runs) for _, runs in words.lines("cautions")]
    for caution in cautions_of(desk.plan):
        more = {
            "rule": caution.rule,
            "limit": desk.length(caution.limit),
            "value": desk.length(caution.value),
            "names": ", ".join(caution.names),
        }
        lines += [Para(r) for key, r in words.lines("rules", **more) if key == caution.key]
    lines += [Para(runs) for _, runs in words.lines("defer")]
    yield Boxed(tuple(lines), words.heading)


PARTS: dict[str, Part] = {
    "bag": bag,
    "threads": threads,
    "weave": weave,
    "off": off,
    "beads": beads,
    "finish": finish,
    "trouble": trouble,
    "care": care,
}


SMALLER = 9.0
"""Size of text where the usual one is too large for a sheet, points: still read at arm's length."""
STEPS = ("threads", "weave", "off", "beads", "finish")
"""Parts to be done one after the other: their headings bear numbers."""


def _numbered(part: Part, numbers: Iterator[int]) -> Part:
    """A part with the next number before its heading, if it has anything on it."""

    def with_number(desk: Desk) -> Iterator[Block]:
        for block in part(desk):
            if isinstance(block, Heading):
                block = replace(block, text=f"{next(numbers)}. {block.text}")
            yield block

    return with_number


def kit_sheet(
    plan: Plan, template: Template, paper: Paper, measure: Measure, setting: Setting = AS_IT_IS
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not known here.

    In large print it may take two sheets, and on A5 two of A4, folded.
    """
    columns = 1 if paper.name == "A5" or setting.large else 2
    paper = _without_bar(paper)
    setting = replace(setting, printer_factor=1.0)
    numbers, told = count(1), list[Diagnostic]()

    def weave_and_tell(desk: Desk) -> Iterator[Block]:
        told.extend(crowded(plan, picks_a_box(desk)))
        yield from weave(desk)

    parts = PARTS | {"weave": weave_and_tell}
    parts |= {name: _numbered(parts[name], numbers) for name in STEPS}
    document = lay_out(parts, plan, template, paper, measure, setting, columns=columns)
    most = 8 if paper.name == "A5" else 4 if setting.large else 2
    cure = "change it for guests with “differs” under “kit”"
    return replace(
        document,
        most_pages=most,
        smaller_text=None if setting.large else SMALLER,
        too_much=too_much(plan),
        cure=cure,
        told=tuple(told),
    )


def too_much(plan: Plan) -> str:
    """Which keys bring more than a sheet has room for, each with how much; else the nearest."""
    found = [*shorten_threading(plan), *shorten_weaving(plan), *_shorten_bag(plan)]
    over = [room for room in found if room.over > 0]
    return "; ".join(map(str, over or [max(found, key=lambda room: room.share)]))


def _without_bar(paper: Paper) -> Paper:
    """The paper with narrow margins and no room for a bar: nothing here is at true scale."""
    return replace(paper, side=11.0, top=10.5, header=7.5, footer=5.0, foot=10.5)


def _shorten_bag(plan: Plan) -> Iterator[Room]:
    yield Room("yarns", "yarns are used", len(plan.yarns), MOST_KINDS)
    if plan.string:
        yield Room("beads.kinds", "kinds are used", len(plan.string.string.counts), MOST_KINDS)
