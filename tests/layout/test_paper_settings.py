"""Large print, margins, two sides, fonts in every file: read back from the printed pages."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace

import pdfplumber
import pytest
from pdfplumber.page import Page
from pypdf import PdfReader

from sheetgen.archive.booklet import fold
from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.loom import loom_sheet
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

MM = 72 / 25.4
BINDING = 8.0

Printing = Callable[..., bytes]
Overlapping = Callable[[Page], list[tuple[str, str]]]


@pytest.fixture(scope="module")
def printing(example_plan: Callable[[str], Plan], template: Template) -> Printing:
    """Example, paper and setting -> the file; each is printed once."""
    cache: dict[object, bytes] = {}

    def get(
        name: str, paper: str, binding: float = 0.0, two_sided: bool = False, large: bool = False
    ) -> bytes:
        key = name, paper, binding, two_sided, large
        if key not in cache:
            chosen = replace(PAPERS[paper], binding=binding, two_sided=two_sided)
            plan, setting = example_plan(name), Setting(large=large)
            cache[key] = render(loom_sheet(plan, template, chosen, text_width, setting))
        return cache[key]

    return get


def pages_in(data: bytes) -> list[Page]:
    return list(pdfplumber.open(io.BytesIO(data)).pages)


def sides(page: Page) -> tuple[float, float]:
    """What is free at the left and right of a page, mm."""
    things = [*page.chars, *page.lines, *page.rects, *page.curves]
    return min(t["x0"] for t in things) / MM, (page.width - max(t["x1"] for t in things)) / MM


def test_large_print_is_13_points_and_nothing_overlaps(
    example: str, paper: str, printing: Printing, overlapping: Overlapping
):
    sizes: list[float] = []
    for page in pages_in(printing(example, paper, large=True)):
        assert min(sides(page)) >= 10 - 0.01
        assert max(c["bottom"] for c in page.chars) <= page.height - 10 * MM
        assert not overlapping(page)
        sizes += [c["size"] for c in page.chars if c["upright"]]
    # asked for: body text of 13 points; drawings keep their size, so not all of it is larger
    assert sum(size >= 13 - 0.01 for size in sizes) > 0.5 * len(sizes)
    assert min(sizes) >= 7 - 0.01


@pytest.mark.parametrize("two_sided", [False, True])
def test_room_for_the_binding_is_at_the_inner_edge(
    example: str, two_sided: bool, printing: Printing
):
    for number, page in enumerate(pages_in(printing(example, "A4", BINDING, two_sided)), start=1):
        left, right = sides(page)
        inner, outer = (right, left) if two_sided and number % 2 == 0 else (left, right)
        # geometry: margin 13 mm and binding; only the upright bar may stand in a right margin
        assert inner >= 10 + BINDING - 0.01
        assert outer >= 10 - 0.01
        ruled = max((h for h in page.lines if h["top"] < 20 * MM), key=lambda h: h["width"])
        frame = ruled["x0"] / MM, (page.width - ruled["x1"]) / MM
        wanted = (13.0, 13.0 + BINDING) if inner == right else (13.0 + BINDING, 13.0)
        assert frame == pytest.approx(wanted, abs=0.01)


def test_the_page_number_is_at_the_outer_edge(example: str, printing: Printing):
    pages = pages_in(printing(example, "A5", BINDING, two_sided=True))
    for number, page in enumerate(pages, start=1):
        top = page.crop((0, 0, page.width, 17 * MM)).extract_text()
        at_left = top.startswith(f"page {number} of {len(pages)}")
        at_right = top.endswith(f"page {number} of {len(pages)}")
        assert (at_left, at_right) == ((True, False) if number % 2 == 0 else (False, True))


def test_a_one_sided_sheet_asks_for_nothing_and_a_two_sided_for_both_sides(printing: Printing):
    for two_sided, wish in ((False, None), (True, "/DuplexFlipLongEdge")):
        reader = PdfReader(io.BytesIO(printing("mill-race-loop", "A4", 0.0, two_sided)))
        assert reader.trailer["/Root"]["/ViewerPreferences"].get("/Duplex") == wish
        assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_every_font_of_every_file_is_in_it(example: str, printing: Printing):
    plain = printing(example, "A5")
    for data in (plain, printing(example, "A4"), fold(plain)):
        reader = PdfReader(io.BytesIO(data))
        objects = [reader.get_object(n) for n in range(1, reader.trailer["/Size"])]
        fonts = [o for o in objects if isinstance(o, dict) and o.get("/Type") == "/Font"]
        assert fonts
        for font in fonts:
            assert font["/Subtype"] == "/TrueType"
            assert "DejaVu" in font["/BaseFont"]
            assert "/FontFile2" in font["/FontDescriptor"].get_object()


def test_the_bars_of_every_setting_stay_in_the_frame(
    example_plan: Callable[[str], Plan], template: Template, overlapping: Overlapping
):
    """On the narrowest frame there is: widest binding on the smallest paper, largest bars."""
    for large in (False, True):
        chosen = replace(PAPERS["A5"], binding=20.0)
        setting = Setting(large=large, printer_factor=0.97)
        plan = example_plan("ferry-cross-string")
        document = loom_sheet(plan, template, chosen, text_width, setting)
        for page in pages_in(render(document)):
            left, right = sides(page)
            assert left >= 20 + 10 - 0.01
            assert right >= 10 - 0.01
            assert not overlapping(page)
