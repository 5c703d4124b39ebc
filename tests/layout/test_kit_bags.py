"""What the organiser packs is what the guest's sheet lists, whatever the kit, thing by thing."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from sheetgen.cli.sets import shipped
from sheetgen.draw.fonts import text_width
from sheetgen.layout.blocks import Block, Boxed, Document, Para, SideBySide, Step, Table, Together
from sheetgen.layout.kit import kit_sheet
from sheetgen.layout.organiser import organiser_sheet
from sheetgen.layout.paper import PAPERS
from sheetgen.model.kit import COILS, CUT, Kit, Thing
from sheetgen.model.template import Template
from sheetgen.plan.kits import KitPlan, plan_kits
from sheetgen.plan.plan import Plan
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.resources import data_folder

USED = ("needle", "wax", "ribbon", "safety pin", "belt", "scissors", "ruler", "pencil", "awl")
THINGS = ("safety pin", "blunt needle", "Beeswax", "ribbon", "scissors", "belt", "apple", "ruler")


def template(sheet: str) -> Template:
    result = shipped(sheet, "english")
    assert result.template is not None, result.about.diagnostics
    return result.template


def guests_plan(example: str) -> Plan:
    data = (data_folder("example_projects") / f"{example}.yaml").read_bytes()
    project = read_description(data).project
    assert project is not None
    return make_plan(project.kit_piece or project).plan


def random_kit(chance: random.Random) -> Kit:
    chosen = chance.sample(THINGS, chance.randint(0, len(THINGS)))
    things = tuple(
        Thing(name, each=chance.randint(1, 4)) if chance.random() < 0.7 else
        Thing(name, lent=chance.randint(1, 9))
        for name in chosen
    )  # fmt: skip
    return Kit(handed_out=chance.choice((COILS, CUT)), things=things)


def sheets(plan: Plan, kit: Kit) -> tuple[KitPlan, Document, Document]:
    plan = replace(plan, project=replace(plan.project, kit=kit))
    kits = plan_kits(plan, kit, 5, 1).kits
    organiser = organiser_sheet(kits, template("organiser"), PAPERS["A4"], text_width)
    return kits, organiser, kit_sheet(plan, template("kit"), PAPERS["A4"], text_width)


def said(runs: object) -> str:
    return "".join(run.text for run in runs)  # type: ignore[attr-defined]


def table_under(document: Document, head: str) -> list[list[str]]:
    tables = [b for b in document.blocks if isinstance(b, Table)]
    found = next(t for t in tables if head in map(said, t.head))
    return [[said(cell) for cell in row] for row in found.rows]


def texts(blocks: tuple[Block, ...]) -> Iterator[str]:
    for block in blocks:
        if isinstance(block, Para | Step):
            yield said(block.runs)
        elif isinstance(block, SideBySide | Boxed | Together):
            yield from texts(block.blocks)


def lengths(text: str) -> list[str]:
    return re.findall(r"[\d.]+\u00a0c?m+", text)


@pytest.mark.parametrize("seed", range(2))
def test_both_lists_agree_thing_by_thing(example: str, seed: int):
    plan, chance = guests_plan(example), random.Random(f"{example} {seed}")
    kits, organiser, kit = sheets(plan, random_kit(chance))
    packed = table_under(organiser, "How many")
    assert packed.pop()[1:] == ["kit sheet", "1"]
    listed = table_under(kit, "In the bag")
    assert len(packed) == len(listed) == len(kits.items)
    for item, (_, name, much), (listed_name, listed_much) in zip(
        kits.items, packed, listed, strict=True
    ):
        if item.sort == "yarn":
            yarn = name.removeprefix("yarn: ")
            assert listed_name.startswith(yarn) or f" {yarn} (" in listed_name
            assert lengths(much)[0] in lengths(listed_much)  # a coil's length, or each end's
            if item.ends:
                assert f"cuts {item.ends} ends" in much
                assert f"for {item.ends} threads" in listed_name
        else:
            assert listed_name.removeprefix("for the end: ").removeprefix("metal tips: ") in (
                name, name.removeprefix("aglets: "))  # fmt: skip
            assert re.match(r"\d+", much)[0] == re.match(r"\d+", listed_much)[0]  # type: ignore[index]
            if item.sort != "bead":
                assert lengths(much) == lengths(listed_much)


@pytest.mark.parametrize("seed", range(2))
def test_nothing_is_used_that_nobody_packs_or_lays_out(example: str, seed: int):
    plan, chance = guests_plan(example), random.Random(f"{example} {seed} used")
    kits, organiser, kit = sheets(plan, random_kit(chance))
    packed = " ".join(name for _, name, _ in table_under(organiser, "How many")).casefold()
    out = next(t for t in texts(kit.blocks) if t.startswith("Lies ready for all")).casefold()
    ready = " ".join(texts(organiser.blocks)).casefold()
    steps = " ".join(t for t in texts(kit.blocks) if not t.startswith("Lies ready")).casefold()
    for used in USED:
        if re.search(rf"\b{used}\b", steps):
            assert used in packed or (used in out and used in ready), used
    for thing in kits.kit.things:
        assert (thing.name.casefold() in out) == bool(thing.lent)
    # what is made of coils must be cut first
    assert ("for threads" in steps) == any(item.ends for item in kits.items)


def test_the_guest_of_a_piece_without_a_kit_is_given_the_same(example: str):
    plan = guests_plan(example)
    plan = replace(plan, project=replace(plan.project, kit=None))
    kits, _, _ = sheets(plan, Kit())
    listed = table_under(kit_sheet(plan, template("kit"), PAPERS["A4"], text_width), "In the bag")
    assert len(listed) == len(kits.items)
