"""Photocopied: yarns are told apart without colour, and every word can be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise, product

import numpy as np
import pypdfium2
import pytest

from sheetgen.draw.fonts import text_width
from sheetgen.draw.patterns import GREY, tint
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Block, Boxed, Document, Figure, SideBySide, Together
from sheetgen.layout.chart import CELL_H, CELL_W, LABEL_W, chart_rows
from sheetgen.layout.desk import Desk
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import PATTERNS, Circle, Fill, Path, Picture, Rect, Shape, Text
from sheetgen.layout.swatch import tint_of
from sheetgen.plan.plan import Plan

LEAST = 4.5  # published: W3C, WCAG 2.1, §1.4.3, text of ordinary size


def luminance(colour: str) -> float:
    """Relative luminance of a colour in hex (published: W3C, WCAG 2.1, its definition)."""
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in shares]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(a: str, b: str) -> float:
    """Contrast ratio (published: W3C, WCAG 2.1, its definition)."""
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_ends():
    # published: W3C, WCAG 2.1: from 1:1 to 21:1
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#808080", "#808080") == pytest.approx(1.0)


def test_black_lines_and_letters_are_read_on_any_yarns_colour():
    parts = ("00", "40", "80", "c0", "ff")
    for colour in ("".join(p) for p in product(parts, repeat=3)):
        ground = tint_of(f"a colour #{colour}")
        assert ground is not None
        assert contrast("#000000", ground) >= LEAST, colour
    assert contrast("#000000", GREY) >= LEAST


def pictures_in(blocks: tuple[Block, ...]) -> Iterator[Picture]:
    for block in blocks:
        if isinstance(block, Figure | SideBySide):
            yield block.picture
        if isinstance(block, SideBySide | Boxed | Together):
            yield from pictures_in(block.blocks)


def ground_under(text: Text, below: list[Shape]) -> Fill | None:
    """The fill of the last shape that has the middle of a text in it."""
    width = text_width(text.text, text.size, text.bold)
    x = text.x + {"start": width / 2, "middle": 0.0, "end": -width / 2}[text.anchor]
    y = text.y - text.size * 0.12  # half the height of its capitals, mm
    for shape in reversed(below):
        fill = getattr(shape, "fill", None)
        if fill is None:
            continue
        if isinstance(shape, Rect):
            inside = shape.x <= x <= shape.x + shape.w and shape.y <= y <= shape.y + shape.h
        elif isinstance(shape, Circle):
            inside = (x - shape.cx) ** 2 + (y - shape.cy) ** 2 <= shape.r**2
        else:
            assert isinstance(shape, Path)
            xs = [float(n) for move in shape.moves for n in move[1::2]]
            ys = [float(n) for move in shape.moves for n in move[2::2]]
            inside = min(xs) <= x <= max(xs) and min(ys) <= y <= max(ys)
        if inside:
            return fill
    return None


def test_every_word_on_a_drawing_stands_on_a_quiet_light_ground(
    example: str, paper: str, sheet_of: Callable[[str, str], Document]
):
    for picture in pictures_in(sheet_of(example, paper).blocks):
        for i, shape in enumerate(picture.shapes):
            if not isinstance(shape, Text) or shape.halo:
                continue  # a halo is white
            fill = ground_under(shape, list(picture.shapes[:i]))
            if fill is not None:
                assert fill.pattern in ("plain", "solid"), (picture.name, shape.text)
                assert contrast("#000000", tint(fill) or "#ffffff") >= LEAST, shape.text


MANY = "form: band\npiece: x\nlength: 50 mm\nyarns:\n" + "".join(
    # the same mid grey for all: nothing but the patterns can tell them apart
    f"  y{n}: {{diameter: 0.4 mm, colour: 'grey #808080'}}\n" for n in range(len(PATTERNS))
) + "tablets: {number: 20, draft: [" + ", ".join(
    f"S {' '.join(f'y{(t + hole) % len(PATTERNS)}' for hole in range(4))}"
    for t in range(len(PATTERNS))
) + "]}\n"  # fmt: skip


def grey_cells(desk: Desk, sheet: Callable[..., Document]) -> np.ndarray:
    """The cells of the first row of the chart as a copier sees them: hole, tablet, y, x."""
    picture, tablets = chart_rows(desk, desk.width)[0]
    document = sheet(Figure(picture))
    scale = 300 / 25.4
    bitmap = pypdfium2.PdfDocument(render(document))[0].render(scale=300 / 72, grayscale=True)
    page = bitmap.to_numpy().reshape(bitmap.height, bitmap.width).astype(float)
    paper = document.paper
    cells = [s for s in picture.shapes if isinstance(s, Rect) and s.w == CELL_W]
    assert len(cells) == desk.plan.pack.holes * len(tablets)
    left, top = paper.side, paper.top + paper.header
    high, wide = int(CELL_H * scale) - 6, int(CELL_W * scale) - 6
    found = np.empty((desk.plan.pack.holes, len(tablets), high, wide))
    for cell in cells:
        column = round((cell.x - LABEL_W) / CELL_W)
        row = round((cell.y - min(c.y for c in cells)) / CELL_H)
        y, x = round((top + cell.y) * scale) + 3, round((left + cell.x) * scale) + 3
        found[row, column] = page[y : y + high, x : x + wide]
    return found


def test_neighbouring_cells_of_different_yarns_differ_on_a_photocopy(
    plan_of: Callable[[str], Plan], desk_of: Callable[..., Desk], template: object
):
    desk = desk_of(plan_of(MANY))

    def sheet(*blocks: Block) -> Document:
        return Document("t", "s", "h", "v", PAPERS["A4"], blocks, "{page}", "x", "y")

    cells = grey_cells(desk, sheet)
    # The letter in the middle is left out: the pattern alone must do.
    high, wide = cells.shape[2:]
    rim = np.ones((high, wide), dtype=bool)
    rim[high // 4 : -high // 4, wide // 4 : -wide // 4] = False
    _, tablets = chart_rows(desk, desk.width)[0]
    compared = set()
    for (i, a), (j, b) in pairwise(enumerate(tablets)):
        for hole in range(desk.plan.pack.holes):
            if a.holes[hole] != b.holes[hole]:
                # common practice: a difference of a tenth of black is seen on a copy
                apart = np.abs(cells[hole, i] - cells[hole, j])[rim].mean() / 255
                assert apart > 0.1, (a.holes[hole], b.holes[hole], apart)
                compared.add(frozenset((a.holes[hole], b.holes[hole])))
    assert len(compared) >= len(PATTERNS)


def test_every_yarn_has_its_own_letter_and_of_ten_its_own_pattern(
    plan_of: Callable[[str], Plan], desk_of: Callable[..., Desk]
):
    plan = plan_of(MANY)
    assert len({use.letter for use in plan.yarns}) == len(plan.yarns) == len(PATTERNS)
    assert {use.place % len(PATTERNS) for use in plan.yarns} == set(range(len(PATTERNS)))
