"""Cut-outs: as large as they say, in the file and in a picture of the page, and all of the pack."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable

import numpy as np
import pdfplumber
import pypdfium2
import pytest

from sheetgen.cli.sets import shipped
from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.cutouts import EDGE, HOLE, LINE, SIDE, cutouts_sheet, tablet_face
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.shapes import Circle, Text
from sheetgen.layout.words import named_in
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

MM = 72 / 25.4  # published: PDF counts in 1/72 inch, an inch is 25.4 mm
PX = 600 / 25.4
BRIDGE, POKER = 57.15, 63.5  # trade custom: widths of playing cards, mm
CORD = "piece: Q\nform: cord\nyarns: {a: {diameter: 0.5 mm}}\nlength: 40 cm\n"


@pytest.fixture(scope="module")
def cutouts() -> Callable[..., bytes]:
    read = shipped("cutouts", "english")
    assert read.template is not None, read.about.diagnostics
    template: Template = read.template

    def make(plan: Plan, paper: str = "A4", factor: float = 1.0) -> bytes:
        setting = Setting(printer_factor=factor)
        return render(cutouts_sheet(plan, template, PAPERS[paper], text_width, setting))

    return make


def outlines(pdf: bytes, wide: float) -> list[list[tuple[float, float]]]:
    """Of every page: left and top (mm) of what is drawn as wide and as high as ``wide`` mm."""
    with pdfplumber.open(io.BytesIO(pdf)) as file:
        return [
            [
                (shape["x0"] / MM, shape["top"] / MM)
                for shape in (*page.curves, *page.rects)
                if abs(shape["width"] / MM - wide) < 0.01
                and abs(shape["height"] / MM - wide) < 0.01
            ]
            for page in file.pages
        ]


def test_a_tablet_can_be_cut_from_either_card():
    assert SIDE <= BRIDGE <= POKER
    # a hole's rim stays off the edge by more than it is wide
    assert EDGE - HOLE / 2 > HOLE


@pytest.mark.parametrize(("sheet", "factor"), [("A4", 1.0), ("A5", 1.0), ("Letter", 0.97)])
def test_all_tablets_are_there_with_both_faces_at_their_size(
    sheet: str, factor: float, plan_of: Callable[[str], Plan], cutouts: Callable[..., bytes]
):
    pdf = cutouts(plan_of(f"{CORD}tablets: 14"), sheet, factor)
    # geometry: a printer that makes 0.97 of everything makes 57 mm of 58.76 mm
    assert sum(map(len, outlines(pdf, SIDE / factor))) == 2 * 14
    assert sum(map(len, outlines(pdf, HOLE / factor))) == 2 * 14 * 4


@pytest.mark.parametrize("factor", [1.0, 1.03])
def test_a_tablet_measures_right_in_a_picture_of_the_page(
    factor: float, plan_of: Callable[[str], Plan], cutouts: Callable[..., bytes]
):
    pdf = cutouts(plan_of(f"{CORD}tablets: 6"), "A4", factor)
    left, top = min(outlines(pdf, SIDE / factor)[0], key=lambda at: (at[1], at[0]))
    page = pypdfium2.PdfDocument(pdf)[0]
    bitmap = page.render(scale=600 / 72, grayscale=True)
    dark = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128
    for line in (
        dark[round((top + 5) * PX), round((left - 0.7) * PX) : round((left + 58 / factor) * PX)],
        dark[round((top - 0.7) * PX) : round((top + 58 / factor) * PX), round((left + 5) * PX)],
    ):
        edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
        middles = (edges[::2] + edges[1::2]) / 2 / PX
        assert (middles[1] - middles[0]) * factor == pytest.approx(SIDE, abs=0.1)


@pytest.mark.parametrize("holes", range(2, 9))
def test_holes_stand_evenly_and_the_back_is_the_mirror(holes: int):
    places = {}
    for back in (False, True):
        face = tablet_face(holes, 1, back)
        found = [(s.cx, s.cy) for s in face if isinstance(s, Circle) and s.r == HOLE / 2]
        letters = [s.text for s in face if isinstance(s, Text) and s.text.isalpha()]
        assert letters == list("ABCDEFGH"[:holes])
        places[back] = found
    assert len(places[False]) == holes
    for (x, y), (u, v) in zip(places[False], places[True], strict=True):
        assert (u, v) == pytest.approx((SIDE - x, y))  # geometry: a mirror's image
    turn = [math.atan2(y - SIDE / 2, x - SIDE / 2) for x, y in places[False]]
    steps = [(a - b) % (2 * math.pi) for a, b in zip(turn, [*turn[1:], turn[0]], strict=True)]
    assert steps == pytest.approx([2 * math.pi / holes] * holes)
    near = [math.hypot(x - u, y - v) for i, (x, y) in enumerate(places[False])
            for u, v in places[False][:i]]  # fmt: skip
    assert min(near) - HOLE > HOLE  # more card between two holes than a hole is wide


def test_each_back_is_printed_behind_its_front(
    plan_of: Callable[[str], Plan], cutouts: Callable[..., bytes]
):
    for paper in ("A4", "A5"):
        fronts_and_backs = outlines(cutouts(plan_of(f"{CORD}tablets: 13"), paper), SIDE)
        faces = [page for page in fronts_and_backs if page]
        assert sum(map(len, faces)) == 2 * 13
        wide = PAPERS[paper].width
        for front, back in zip(faces[::2], faces[1::2], strict=True):
            # geometry: a sheet turned over its long edge shows what is x from the left at the right
            mirrored = [(wide - x - SIDE, y) for x, y in back]
            for (x, y), (u, v) in zip(sorted(front), sorted(mirrored), strict=True):
                assert (x, y) == pytest.approx((u, v), abs=0.05)


# as described: the beads, the skirt of the tassel; common practice: 20 mm of a strand to trim
TOOLS = {"mill-race-loop": ((9, 11), 55), "ferry-cross-string": ((6, 7), 45)}


@pytest.mark.parametrize(
    ("name", "factor"), [("mill-race-loop", 1.0), ("ferry-cross-string", 0.97)]
)
def test_gauge_shuttle_and_board_measure_right_in_the_file_and_in_a_picture_of_it(
    name: str, factor: float, example_plan: Callable[[str], Plan], cutouts: Callable[..., bytes]
):
    beads, skirt = TOOLS[name]
    pdf = cutouts(example_plan(name), "A4", factor)
    with pdfplumber.open(io.BytesIO(pdf)) as file:
        number = next(n for n, p in enumerate(file.pages) if "Bead gauge" in p.extract_text())
        shapes = [*file.pages[number].curves, *file.pages[number].rects]
    found = [tuple(shape[k] / MM for k in ("x0", "top", "x1", "bottom")) for shape in shapes]
    sizes = [((c - a) * factor, (d - b) * factor) for a, b, c, d in found]
    high = (2 * skirt + 20) / 2
    board = next(i for i, (w, h) in enumerate(sizes) if abs(h - high) < 0.01 and w > 50)
    holes = [next(i for i, (w, h) in enumerate(sizes) if abs(w - d) < 0.01 and abs(h - d) < 0.01)
             for d in beads]  # fmt: skip
    # a hand's width of weft goes round it, and it lies in a hand (common practice, no source)
    shuttle = next(i for i, (w, h) in enumerate(sizes) if 100 < w < 150 and 20 < h < 40)
    bitmap = pypdfium2.PdfDocument(pdf)[number].render(scale=600 / 72, grayscale=True)
    dark = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128
    for i in (board, shuttle, *holes):
        left, top, right, bottom = found[i]
        crop = dark[round((top - 0.7) * PX) : round((bottom + 0.7) * PX),
                    round((left - 0.7) * PX) : round((right + 0.7) * PX)]  # fmt: skip
        for axis, size in ((0, sizes[i][0]), (1, sizes[i][1])):
            at = np.flatnonzero(crop.any(axis=axis))
            across = (at[-1] - at[0] + 1) / PX - LINE  # from middle to middle of the lines
            # a line's sharp corner reaches up to its width beyond it (geometry of mitres)
            within = 0.1 + (LINE if i == shuttle else 0)
            assert across * factor == pytest.approx(size, abs=within)


def sentences(language: str) -> dict[tuple[str, ...], str]:
    template = shipped("cutouts", language).template
    assert template is not None
    found = {("words", key): word for key, word in template.words.items()}
    for part in template.parts:
        found[part.name, "heading"] = part.heading
        found |= {(part.name, "words", key): word for key, word in part.words.items()}
        for name, lines in part.lists.items():
            found |= {(part.name, name, line.key): line.say for line in lines}
    return found


def test_both_languages_say_the_same():
    english, german = sentences("english"), sentences("german")
    assert list(english) == list(german)
    for place, sentence in english.items():
        assert set(named_in(sentence)) == set(named_in(german[place])), place
        if len(re.sub(r"\{[^}]*\}|[^A-Za-z]", "", sentence)) > 12:
            assert sentence != german[place], place


def test_the_tassel_board_is_as_high_as_half_a_strand(
    example_plan: Callable[[str], Plan], cutouts: Callable[..., bytes]
):
    plan = example_plan("mill-race-loop")
    # as described: a skirt of 55 mm; common practice: 20 mm of a folded strand to trim
    with pdfplumber.open(io.BytesIO(cutouts(plan))) as file:
        heights = [r["height"] / MM for page in file.pages for r in page.rects]
        circles = [c["width"] / MM for page in file.pages for c in page.curves]
    assert any(h == pytest.approx((2 * 55 + 20) / 2, abs=0.01) for h in heights)
    for bead in (9, 11):  # as described
        assert any(c == pytest.approx(bead, abs=0.01) for c in circles)
