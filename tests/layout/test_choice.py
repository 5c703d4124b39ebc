"""The page to compare yarns by: bars measured in the file, turns counted, both languages whole."""

from __future__ import annotations

import io
import re

import pdfplumber
import pytest

from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Figure
from sheetgen.layout.choice import Compared, choice_sheet, turns
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.shapes import Rect
from sheetgen.layout.words import named_in
from sheetgen.plan.choice import choose
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.read.stash import read_stash
from sheetgen.read.templates import read_template
from sheetgen.resources import data_folder

MM = 72 / 25.4  # published: PDF counts in 1/72 inch, an inch is 25.4 mm
PIECE = """piece: c
form: %s
length: 1 m
find: {name: f, invented: yes, thickness: %s}
yarns: {red: {fibre: wool, diameter: 0.5 mm}}
tablets: {number: 5}
"""
STASH = b"""stash: s
yarns:
  fine: {diameter: 0.4 mm, fibre: wool, at hand: 500 m}
  rough: {diameter: 0.6 mm, fibre: linen, soft: yes}
"""


def template(language: str = ""):
    file = data_folder("templates") / language / "choice.yaml"
    result = read_template(file.read_bytes())
    assert not result.diagnostics
    return result.template


def page(paper="A4", language="", form="cord", find="2.4 mm", setting=None):
    project = read_description((PIECE % (form, find)).encode()).project
    found = choose(project, read_stash(STASH).stash.yarns, "red").candidates
    document = choice_sheet(
        Compared(make_plan(project).plan, found, "s", "red"), template(language), PAPERS[paper],
        text_width, setting or Setting(),
    )  # fmt: skip
    with pdfplumber.open(io.BytesIO(render(document))) as pdf:
        rects = [r for p in pdf.pages for r in p.rects]
        return rects, "\n".join(p.extract_text() for p in pdf.pages), len(pdf.pages)


def bars(rects):
    """Heights in mm of all bars, which are 24 mm wide; an open one by its outer edges."""
    found = []
    for r in rects:
        if abs(r["width"] / MM - 24) < 0.5:
            line = 0 if r["fill"] else r["linewidth"] / MM
            found.append(round(r["height"] / MM + line, 2))
    return sorted(found)


def test_bars_are_as_thick_as_find_and_prediction(paper: str):
    rects, _, _ = page(paper)
    # published: Specht's table, R(20) = 5.122321
    wanted = sorted([2.4, 2.4, 2.4, 0.4 * 5.122321, 0.6 * 5.122321])
    assert bars(rects) == pytest.approx(wanted, abs=0.02)


def test_a_reading_with_a_range_has_bars_for_its_ends():
    rects, text, _ = page(find="2.2 to 2.6 mm")
    assert {2.2, 2.4, 2.6} <= set(bars(rects))
    assert "2.2 mm: the least" in text


def test_the_printers_factor_makes_bars_longer_to_come_out_right():
    rects, _, _ = page(setting=Setting(printer_factor=0.98))
    heights = [r["height"] / MM + (0 if r["fill"] else r["linewidth"] / MM) for r in rects]
    assert any(abs(h - 2.4 / 0.98) < 0.02 for h in heights)


def test_two_threads_of_each_turn_of_the_ring():
    # geometry: a ring drawn out flat has two threads for every turn
    assert [turns(n) for n in (1, 2, 20, 36)] == [1, 1, 10, 18]
    _, text, _ = page()
    assert "Wind 10 times, which makes 20 threads for 5 tablets" in text


def test_each_yarn_has_four_boxes_that_are_large_enough_to_tick():
    project = read_description((PIECE % ("cord", "2.4 mm")).encode()).project
    found = choose(project, read_stash(STASH).stash.yarns, "red").candidates
    document = choice_sheet(
        Compared(make_plan(project).plan, found, "s", "red"), template(), PAPERS["A4"], text_width
    )
    rows = [b.picture for b in document.blocks if isinstance(b, Figure)][1:]
    assert len(rows) == 2
    for picture in rows:
        boxes = [s for s in picture.shapes if isinstance(s, Rect) and s.w == s.h]
        assert len(boxes) == 4
        assert all(box.w >= 5 and box.x + box.w <= picture.width for box in boxes)


def test_a_band_and_an_unknown_find():
    _, text, _ = page(form="band", find="unknown")
    assert "Twist 4 threads together" in text
    assert "not known" in text


def test_both_languages_have_the_same_sentences_and_figures():
    english, german = template(), template("german")
    assert english.words.keys() == german.words.keys()
    for here, there in zip(english.parts, german.parts, strict=True):
        assert here.words.keys() == there.words.keys()
        for key, sentence in here.words.items():
            assert sorted(named_in(sentence)) == sorted(named_in(there.words[key]))
            assert sentence != there.words[key]
    _, text, _ = page("A5", "german")
    assert "Wind" not in re.sub("Wickle", "", text)
    assert "10-mal wickeln" in text
    assert "2,4" in text


def test_words_of_the_page_stand_apart(overlapping):
    for paper, language in (("A5", "german"), ("A4", "")):
        project = read_description((PIECE % ("cord", "about 2.4 mm")).encode()).project
        found = choose(project, read_stash(STASH).stash.yarns, "red").candidates
        document = choice_sheet(
            Compared(make_plan(project).plan, found, "s", "red"), template(language),
            PAPERS[paper], text_width,
        )  # fmt: skip
        with pdfplumber.open(io.BytesIO(render(document))) as pdf:
            assert not [pair for p in pdf.pages for pair in overlapping(p)]


def test_large_print_is_large_in_every_row():
    with pdfplumber.open(io.BytesIO(render(document(Setting(large=True))))) as pdf:
        sizes = {c["size"] for p in pdf.pages for c in p.chars if c["top"] < p.height - 35 * MM}
        rows = [c["size"] for p in pdf.pages for c in p.chars if c["text"] == "W"]
    assert min(rows) >= 12, sizes  # common practice, no source: large print is 12 points and more


def test_a_band_is_told_its_width():
    text = PIECE.replace("thickness: %s", "thickness: unknown, width: %s") % ("band", "20 mm")
    project = read_description(text.encode()).project
    found = choose(project, read_stash(STASH).stash.yarns, "red").candidates
    page = choice_sheet(
        Compared(make_plan(project).plan, found, "s", "red"), template(), PAPERS["A4"], text_width
    )
    with pdfplumber.open(io.BytesIO(render(page))) as pdf:
        text = "\n".join(p.extract_text() for p in pdf.pages)
    assert text.count("wide; the find is 20 mm") == 2
    assert "open bar" not in text
    assert "along the bar of its row" in text


def document(setting: Setting):
    project = read_description((PIECE % ("cord", "2.4 mm")).encode()).project
    found = choose(project, read_stash(STASH).stash.yarns, "red").candidates
    return choice_sheet(
        Compared(make_plan(project).plan, found, "s", "red"), template(), PAPERS["A4"],
        text_width, setting,
    )  # fmt: skip
