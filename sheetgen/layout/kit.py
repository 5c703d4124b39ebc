"""The kit sheet: takes a plan, its template and the paper, gives one sheet of paper, two sides.

It is for a guest who has nobody to ask: plain words, a drawing for every grip, and the turns as
boxes, several in one where there are many.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sheetgen.layout.blocks import Block, Boxed, Document, Heading, Para, Runs, Table
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.kit_finish import beads, finish, off
from sheetgen.layout.kit_threads import shorten_threading, threads
from sheetgen.layout.kit_weave import shorten_weaving, weave
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.layout.words import Words, plain
from sheetgen.model.template import Template
from sheetgen.plan.cautions import cautions_of
from sheetgen.plan.plan import Plan
from sheetgen.plan.supplies import weft_name

MOST_KINDS = 12
"""Kinds of beads, and of yarns, that a bag's list has room for."""


def bag(desk: Desk) -> Iterator[Block]:
    """What it will be, and what is in the bag, each thing to tick."""
    words = desk.words("bag")
    yield Heading(words.heading)
    for _, runs in words.lines("what"):
        yield Para(runs)
    rows = (*_supplies(desk, words), *_tools(words, "things"))
    heads = tuple(words.runs(h) for h in ("head thing", "head much"))
    yield Table(heads, rows, (0.7, 0.3), ticked=True)
    yield Para(words.runs("also"))


def _supplies(desk: Desk, words: Words) -> Iterator[tuple[Runs, ...]]:
    """Threads, weft, beads, with how many and how long."""
    plan = desk.plan
    for use in plan.yarns:
        if ends := plan.pack.ends_by_yarn.get(use.name):
            more = {"yarn": use.name, "letter": use.letter, "n": str(ends)}
            yield words.runs("warp threads", **more), words.runs("each long")
    yield words.runs("weft ball", yarn=weft_name(plan.project)), words.runs("weft long")
    if plan.string:
        for kind in plan.string.kinds:
            if count := plan.string.string.counts.get(kind.name):
                told = words.runs("beads", n=str(count), bead=kind.name)
                yield told, plain(desk.length(kind.diameter))


def _tools(words: Words, name: str) -> Iterator[tuple[Runs, ...]]:
    """Lines of two cells, parted by “|”."""
    for _, runs in words.lines(name):
        thing, _, much = "".join(run.text for run in runs).partition("|")
        yield plain(thing.strip()), plain(much.strip())


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


def kit_sheet(
    plan: Plan, template: Template, paper: Paper, measure: Measure, setting: Setting = AS_IT_IS
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not known here.

    In large print it may take two sheets, and on A5 two of A4, folded.
    """
    columns = 1 if paper.name == "A5" or setting.large else 2
    paper = _without_bar(paper)
    setting = replace(setting, printer_factor=1.0)
    document = lay_out(PARTS, plan, template, paper, measure, setting, columns=columns)
    most = 8 if paper.name == "A5" else 4 if setting.large else 2
    told = (*shorten_threading(plan), *shorten_weaving(plan), *_shorten_bag(plan))
    usual = "leave out what guests need not make: fewer yarns, kinds of bead or knots"
    return replace(document, most_pages=most, shorten="; ".join(told) or usual)


def _without_bar(paper: Paper) -> Paper:
    """The paper with narrow margins and no room for a bar: nothing here is at true scale."""
    return replace(paper, side=11.0, top=10.5, header=7.5, footer=5.0, foot=10.5)


def _shorten_bag(plan: Plan) -> Iterator[str]:
    if len(plan.yarns) > MOST_KINDS:
        yield f"“yarns”: {len(plan.yarns)} are used, at most about {MOST_KINDS} go on it"
    used = len(plan.string.string.counts) if plan.string else 0
    if used > MOST_KINDS:
        yield f"“beads.kinds”: {used} are used, at most about {MOST_KINDS} go on it"
