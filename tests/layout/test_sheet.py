"""The printed loom sheet of every example on every paper: text, positions, true scale."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise

import pdfplumber
import pytest
from pdfplumber.page import Page

from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Block, Boxed, Document, Figure, SideBySide, Step, Table, Together
from sheetgen.layout.described import described
from sheetgen.layout.facts import flags_of
from sheetgen.layout.fields import Fields
from sheetgen.layout.loom import PARTS, loom_sheet
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import Text
from sheetgen.layout.words import Words
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

MM = 72 / 25.4

Sheet = Callable[..., Document]
Pages = Callable[..., list[Page]]
Edition = tuple[str, str]


def pages_in(data: bytes) -> list[Page]:
    return list(pdfplumber.open(io.BytesIO(data)).pages)


@pytest.fixture(scope="session")
def pages_of(sheet_of: Sheet) -> Pages:
    """Example and paper -> the printed pages; each is printed and read once."""

    @cache
    def get(name: str, paper: str, language: str = "english") -> list[Page]:
        return pages_in(render(sheet_of(name, paper, language)))

    return get


def blocks_of(blocks: tuple[Block, ...]) -> Iterator[Block]:
    for block in blocks:
        yield block
        if isinstance(block, SideBySide | Boxed | Together):
            yield from blocks_of(block.blocks)


def said(block: Block) -> str:
    return "".join(run.text for run in block.runs) if isinstance(block, Step) else ""


def test_nothing_is_printed_outside_the_margins(example: str, edition: Edition, pages_of: Pages):
    # common practice, no source: home printers leave up to 8.5 mm unprinted
    for page in pages_of(example, *edition):
        for thing in [*page.chars, *page.lines, *page.rects, *page.curves]:
            assert thing["x0"] >= 10 * MM - 0.01
            assert thing["x1"] <= page.width - 10 * MM + 0.01
            assert thing["top"] >= 10 * MM - 0.01
            assert thing["bottom"] <= page.height - 10 * MM + 0.01


def test_no_two_words_lie_on_each_other(example: str, edition: Edition, pages_of: Pages):
    for number, page in enumerate(pages_of(example, *edition), start=1):
        words = page.extract_words(use_text_flow=True, keep_blank_chars=False)
        for i, a in enumerate(words):
            for b in words[i + 1 :]:
                across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
                down = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"])
                height = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
                assert not (across > 1.0 and down > 0.45 * height), (number, a["text"], b["text"])


def test_text_is_large_enough(example: str, pages_of: Pages):
    # common practice, no source: below 7 pt nobody reads outdoors; body text is 10 pt
    sizes = [c["size"] for page in pages_of(example, "A4") for c in page.chars if c["upright"]]
    assert min(sizes) >= 7 - 0.01
    assert sum(s >= 10 - 0.01 for s in sizes) > 0.5 * len(sizes), "most of it is body text"


def test_every_page_but_the_last_is_well_filled(example: str, paper: str, pages_of: Pages):
    pages = pages_of(example, paper)
    for number, page in enumerate(pages[:-1], start=1):
        body = [c["bottom"] for c in page.chars if c["bottom"] < page.height - 30 * MM]
        bodies = [*body, *[r["bottom"] for r in page.rects if r["bottom"] < page.height - 28 * MM]]
        assert max(bodies) > page.height / 3, f"page {number} is nearly empty"


def test_all_eight_parts_are_there(
    example: str, pages_of: Pages, template: Template, example_plan: Callable[[str], Plan]
):
    text = "\n".join(page.extract_text() for page in pages_of(example, "A4"))
    strung = example_plan(example).project.is_string
    for part in template.parts:
        assert (part.heading in text) is (strung or part.name != "bead strip")


def test_header_and_page_numbers(example: str, paper: str, pages_of: Pages):
    pages = pages_of(example, paper)
    for number, page in enumerate(pages, start=1):
        top = page.crop((0, 0, page.width, 22 * MM)).extract_text()
        assert f"page {number} of {len(pages)}" in top
        assert re.search(r"plan [0-9a-f]{8}", top)


def test_beads_of_the_strip_measure_right_in_the_file(pages_of: Pages):
    """As described: 30 round beads of 9 mm and 2 rings 8 mm long, 11 mm across, touching."""
    for page in pages_of("mill-race-loop", "A4"):
        found = page.search("Bead strip at true scale")
        if not found:
            continue
        circles = [c for c in page.curves if abs(c["width"] - 9 * MM) < 0.1 * MM
                   and c["top"] > found[0]["bottom"]]  # fmt: skip
        assert len(circles) == 30
        for circle in circles:
            assert circle["width"] / MM == pytest.approx(9.0, abs=0.1)
            assert circle["height"] / MM == pytest.approx(9.0, abs=0.1)
        lefts = sorted(c["x0"] for c in circles if abs(c["top"] - circles[0]["top"]) < 1)
        steps = {round((b - a) / MM, 1) for a, b in pairwise(lefts)}
        assert steps <= {9.0, 17.0}, "beads touch; a ring of 8 mm stands between two"
        return
    pytest.fail("no bead strip found")


def test_the_bar_measures_100_mm_wherever_something_is_at_scale(
    example: str, paper: str, pages_of: Pages
):
    bars = 0
    for page in pages_of(example, paper):
        foot = page.crop((0, page.height - 34 * MM, page.width, page.height))
        if "100 mm" not in (foot.extract_text() or "").replace("100 %", ""):
            continue
        level = [line for line in foot.lines if abs(line["top"] - line["bottom"]) < 0.01]
        lengths = [(line["x1"] - line["x0"]) / MM for line in level]
        assert [x for x in lengths if 90 < x < 110] == [pytest.approx(100.0, abs=0.1)]
        bars += 1
    assert bars >= 1


def test_every_step_that_must_be_found_again_has_its_own_number(example: str, sheet_of: Sheet):
    numbers = [b.number for b in blocks_of(sheet_of(example, "A4").blocks)
               if isinstance(b, Step) and b.number]  # fmt: skip
    assert len(numbers) == len(set(numbers)) > 10


THINGS = ("shuttle", "needle", "belt", "scissors", "comb", "board", "thread", "aglet", "tablets")


def test_the_bag_list_has_everything_that_the_steps_use(example: str, sheet_of: Sheet):
    blocks = list(blocks_of(sheet_of(example, "A4").blocks))
    steps = " ".join(said(b) for b in blocks if isinstance(b, Step) and b.number).casefold()
    bag = " ".join(said(b) for b in blocks if isinstance(b, Step) and not b.number)
    for table in (b for b in blocks if isinstance(b, Table) and b.ticked):
        bag += " ".join(run.text for row in table.rows for run in row[0])
    missing = [t for t in THINGS if t in steps and t not in bag.casefold()]
    assert not missing


def test_names_on_drawings_fit_inside_them(example: str, edition: Edition, sheet_of: Sheet):
    for block in blocks_of(sheet_of(example, *edition).blocks):
        picture = block.picture if isinstance(block, Figure | SideBySide) else None
        if picture is None:
            continue
        assert picture.width <= PAPERS[edition[0]].frame_width + 0.01
        for shape in picture.shapes:
            if isinstance(shape, Text) and not shape.turn:
                width = text_width(shape.text, shape.size, shape.bold)
                left = shape.x - {"start": 0, "middle": width / 2, "end": width}[shape.anchor]
                assert left >= -0.6, (picture.name, shape.text)
                assert left + width <= picture.width + 0.6, (picture.name, shape.text)


def test_sentences_of_the_template_name_only_figures_that_exist(
    example: str, example_plan: Callable[[str], Plan], template: Template
):
    """Every line that applies to an example can be filled; words are filled by the sheets."""
    plan = example_plan(example)
    more = dict.fromkeys(
        ("n", "pick", "at", "before", "after", "bead", "next", "turns", "yarn", "value"), ""
    )
    for part in template.parts:
        words = Words(
            part, Fields(plan, described(plan, template) | {"paper": "A4"}), flags_of(plan)
        )
        for name in part.lists:
            if name == "figures" or name in ("flip and keep the side", "flip and change the side"):
                continue
            assert list(words.lines(name, **more)) is not None


def test_template_and_layout_know_the_same_parts(template: Template):
    assert {part.name for part in template.parts} == set(PARTS)


def test_texts_of_a_description_are_printed_as_written(
    plan_of: Callable[[str], Plan], template: Template
):
    hostile = "<b>bold</b> & **stars** {ends} <img src='x'>"
    plan = plan_of(
        "form: cord\nlength: 12 cm\ntablets: 3\n"
        f'piece: "{hostile}"\nnotes: "{hostile}"\n'
        "yarns: {red: {diameter: 0.4 mm, fibre: wool}}\n"
    )
    pdf = render(loom_sheet(plan, template, PAPERS["A4"], text_width))
    text = " ".join(pages_in(pdf)[0].extract_text().split())
    assert text.count(hostile) >= 2
