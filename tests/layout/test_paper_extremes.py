"""The largest and the smallest descriptions: nothing overlaps, is cut off, or stands alone."""

from __future__ import annotations

import io
from collections.abc import Callable

import pdfplumber
import pytest
from pdfplumber.page import Page

from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.loom import loom_sheet
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

MM = 72 / 25.4
WORDS = " ".join(
    ("a", "fillet", "with", "long", "names", "found", "under", "the", "old", "sill") * 4
)
WORD = "thresholdfilletwithoutasinglespaceinitsname" * 3
NAME = "a-name-as-long-as-names-may-be-at-most"
HEAVY = f"""
piece: "{WORDS}"
form: loop
number: "{WORD}"
maker: "{WORDS}"
belongs to: "{WORDS}"
notes: ["{WORDS} {WORDS}", "{WORD}{WORD}"]
find: {{name: "{WORDS}", thickness: about 6 mm, dated: "{WORDS}", uncertain: ["{WORDS}", "{WORD}"]}}
yarns:
  {NAME}-a: {{fibre: wool, count: 20/2 Nm, colour: "{WORDS}", put-up: "50 g, 500 m"}}
  {NAME}-b: {{fibre: silk, preparation: reeled, count: 60/2 Nm, source: "{WORDS}"}}
  c: {{fibre: linen, count: 40/2 NeL}}
tablets: {{number: 300, colours: [{NAME}-a, {NAME}-a, {NAME}-b, c]}}
beads:
  kinds:
    {NAME}-c: {{diameter: 6 mm, length: 9 mm, material: "{WORDS}", stands for: "{WORDS}"}}
    {NAME}-d: {{diameter: 40 mm, length: 30 mm, shape: barrel, hole: 30 mm, divider: yes}}
    tiny: {{diameter: 2 mm}}
  order: [{{repeat: 20, of: [9 {NAME}-c, {NAME}-d, 10 tiny]}}]
tassels: {{number: 1, skirt: 60 mm, thickness: 20 mm}}
sessions: {{"{WORDS[:80]}": 2 h, "{WORD[:80]}": 5 h}}
event: {{name: "{WORDS}", place: "{WORDS}"}}
tools: ["{WORDS}", "{WORD}"]
units: both
"""
BARE = """
piece: x
form: cord
length: 5 mm
tablets: 1
yarns: {a: {diameter: 0.3 mm}}
"""
PRINTS = [
    (HEAVY, "A4", False),
    (HEAVY, "A5", True),
    (HEAVY, "Letter", False),
    (BARE, "A4", True),
    (BARE, "A5", False),
]
NAMES = ["heavy on A4", "heavy on A5, large", "heavy on Letter", "bare, large", "bare on A5"]


@pytest.fixture(scope="module", params=PRINTS, ids=NAMES)
def printed(
    request: pytest.FixtureRequest, plan_of: Callable[[str], Plan], template: Template
) -> tuple[list[Page], Setting]:
    text, paper, large = request.param
    setting = Setting(large=large)
    document = loom_sheet(plan_of(text), template, PAPERS[paper], text_width, setting)
    return list(pdfplumber.open(io.BytesIO(render(document))).pages), setting


def test_nothing_is_cut_off(printed: tuple[list[Page], Setting]):
    for page in printed[0]:
        for thing in [*page.chars, *page.lines, *page.rects, *page.curves]:
            assert thing["x0"] >= 10 * MM - 0.01
            assert thing["x1"] <= page.width - 10 * MM + 0.01
            assert thing["top"] >= 10 * MM - 0.01
            assert thing["bottom"] <= page.height - 10 * MM + 0.01


def test_nothing_overlaps(
    printed: tuple[list[Page], Setting], overlapping: Callable[[Page], list[tuple[str, str]]]
):
    for number, page in enumerate(printed[0], start=1):
        assert not overlapping(page), number


def test_no_page_is_empty_and_no_heading_ends_one(printed: tuple[list[Page], Setting]):
    pages, setting = printed
    paper = PAPERS["A4"]
    head, foot = paper.top + paper.header - 2, paper.foot + setting.on(paper).footer
    for number, page in enumerate(pages, start=1):
        body = [c for c in page.chars if head * MM < c["top"] < page.height - foot * MM]
        assert body, f"page {number} is empty"
        lowest = max(body, key=lambda c: c["bottom"])
        drawn = [t["bottom"] for t in [*page.rects, *page.curves, *page.lines]
                 if t["bottom"] < page.height - foot * MM]  # fmt: skip
        # headings are 1.3 and 1.1 of the body text, and bold
        heading = lowest["size"] > 1.05 * setting.text_size and "Bold" in lowest["fontname"]
        assert not heading or max(drawn, default=0) > lowest["bottom"], (number, lowest["text"])


def test_every_bead_and_tablet_is_there(plan_of: Callable[[str], Plan], template: Template):
    """As described: 300 tablets, and 20 times 20 beads."""
    plan = plan_of(HEAVY)
    assert len(plan.pack.tablets) == 300
    assert plan.string is not None
    assert sum(placed.what == "bead" for placed in plan.string.string.placed) == 400
    document = loom_sheet(plan, template, PAPERS["A4"], text_width)
    pages = pdfplumber.open(io.BytesIO(render(document))).pages
    text = " ".join(page.extract_text() for page in pages)
    assert all(f" {number} " in f" {' '.join(text.split())} " for number in range(1, 301))
    joined = "".join(c["text"] for page in pages for c in page.chars)
    assert joined.replace(" ", "").count(WORD) >= 3  # number, uncertain, tool; parted over lines
