"""The examples, planned and laid out on every paper, and a plan from a few lines of description."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest
from pdfplumber.page import Page

from sheetgen.cli.sets import shipped
from sheetgen.draw.fonts import text_width
from sheetgen.layout.blocks import Document
from sheetgen.layout.described import described
from sheetgen.layout.desk import Desk
from sheetgen.layout.facts import flags_of
from sheetgen.layout.fields import Fields
from sheetgen.layout.loom import loom_sheet
from sheetgen.layout.paper import PAPERS
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.resources import data_folder

EXAMPLES = sorted(
    p.stem for p in data_folder("example_projects").glob("*.yaml") if "stash" not in p.stem
)
PAPER_NAMES = tuple(PAPERS)
EDITIONS = [*((paper, "english") for paper in PAPERS), ("A4", "german"), ("A5", "german")]
"""Paper and language: German words are longer, so room is looked at in both."""


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "example" in metafunc.fixturenames:
        metafunc.parametrize("example", EXAMPLES)
    if "paper" in metafunc.fixturenames:
        metafunc.parametrize("paper", PAPER_NAMES)
    if "edition" in metafunc.fixturenames:
        metafunc.parametrize("edition", EDITIONS, ids="-".join)


@pytest.fixture(scope="session")
def template_of() -> Callable[[str], Template]:
    """The name of a set that comes with the program -> its template."""

    @cache
    def get(name: str) -> Template:
        result = shipped("loom", name)
        assert not result.about.diagnostics
        assert result.template is not None
        return result.template

    return get


@pytest.fixture(scope="session")
def template(template_of: Callable[[str], Template]) -> Template:
    return template_of("english")


@pytest.fixture(scope="session")
def plan_of() -> Callable[[str], Plan]:
    """Text of a description -> plan; fails on any error."""

    def make(text: str) -> Plan:
        read = read_description(text.encode())
        assert read.project is not None, read.diagnostics
        planned = make_plan(read.project)
        assert not [d for d in planned.diagnostics if d.is_error], planned.diagnostics
        return planned.plan

    return make


@pytest.fixture(scope="session")
def example_plan(plan_of: Callable[[str], Plan]) -> Callable[[str], Plan]:
    cache: dict[str, Plan] = {}

    def get(name: str) -> Plan:
        if name not in cache:
            path = data_folder("example_projects") / f"{name}.yaml"
            cache[name] = plan_of(path.read_text(encoding="utf-8"))
        return cache[name]

    return get


@pytest.fixture(scope="session")
def desk_of(template: Template) -> Callable[[Plan, str], Desk]:
    def make(plan: Plan, paper: str = "A4") -> Desk:
        fields = Fields(plan, described(plan, template) | {"paper": paper})
        return Desk(
            plan,
            template,
            fields,
            flags_of(plan),
            PAPERS[paper].frame_width,
            PAPERS[paper].frame_height,
            text_width,
        )

    return make


@pytest.fixture(scope="session")
def sheet_of(
    template_of: Callable[[str], Template], example_plan: Callable[[str], Plan]
) -> Callable[..., Document]:
    def make(name: str, paper: str, language: str = "english") -> Document:
        return loom_sheet(example_plan(name), template_of(language), PAPERS[paper], text_width)

    return make


@pytest.fixture(scope="session")
def overlapping() -> Callable[[Page], list[tuple[str, str]]]:
    """Words of a printed page that lie on each other."""

    def find(page: Page) -> list[tuple[str, str]]:
        words = page.extract_words(use_text_flow=True, keep_blank_chars=False)
        words.sort(key=lambda word: word["top"])
        found = []
        for i, a in enumerate(words):
            for b in words[i + 1 :]:
                if b["top"] >= a["bottom"]:
                    break
                across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
                down = min(a["bottom"], b["bottom"]) - b["top"]
                height = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
                if across > 1.0 and down > 0.45 * height:
                    found.append((a["text"], b["text"]))
        return found

    return find
