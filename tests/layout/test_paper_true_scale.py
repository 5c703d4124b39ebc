"""One millimetre is one millimetre: measured to 0.1 mm in pictures of the printed pages.

The pages are drawn by another renderer at 600 dpi. Where to look is told by the drawing; what is
found there is held against the description.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
import pypdfium2
import pytest
from pypdf import PdfReader

from sheetgen.draw.boxes import PictureBox
from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.gauges import gauge_sizes
from sheetgen.layout.loom import loom_sheet
from sheetgen.layout.paper import PAPERS, Paper, Setting
from sheetgen.layout.shapes import Circle, Path, Picture, Rect, Shape, Text
from sheetgen.model.template import Template
from sheetgen.plan.beads import bead_length
from sheetgen.plan.plan import Plan

MM = 72 / 25.4  # published: PDF counts in 1/72 inch, an inch is 25.4 mm
DPI = 600
PX = DPI / 25.4
SIZES = {"A4": (210.0, 297.0), "A5": (148.0, 210.0), "Letter": (215.9, 279.4)}  # published: ISO 216
STRING = "mill-race-loop"


@dataclass(frozen=True)
class Placed:
    """A picture on a page (from 0), its top left corner in mm from the page's."""

    page: int
    x: float
    y: float
    picture: Picture


@dataclass(frozen=True)
class Print:
    """A printed sheet, and where its pictures at true scale are."""

    plan: Plan
    paper: Paper
    factor: float
    pdf: bytes
    placed: tuple[Placed, ...]

    def ink(self, page: int, x: float, y: float, w: float, h: float) -> np.ndarray:
        """What is dark in a part of a page, mm, a pixel 1/600 inch."""
        sheet = self.document[page]
        width, height = sheet.get_size()
        crop = (x * MM, height - (y + h) * MM, width - (x + w) * MM, y * MM)
        bitmap = sheet.render(scale=DPI / 72, crop=crop, grayscale=True)
        return bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128

    @property
    def document(self) -> pypdfium2.PdfDocument:
        return pypdfium2.PdfDocument(self.pdf)


Printing = Callable[..., Print]


@pytest.fixture(scope="module")
def printing(example_plan: Callable[[str], Plan], template: Template) -> Iterator[Printing]:
    """Example, paper, printer factor -> the sheet; each is printed once."""
    cache: dict[object, Print] = {}
    found: list[Placed] = []
    plain = PictureBox.draw

    def draw(box: PictureBox) -> None:
        x, foot = box.canv.absolutePosition(0, 0)
        top = box.canv._pagesize[1] - foot - box.height
        if box._picture.true_scale:
            page = box.canv.getPageNumber() - 1
            found.append(Placed(page, x / MM, top / MM, box._picture))
        plain(box)

    def get(name: str, paper: str, factor: float = 1.0) -> Print:
        key = name, paper, factor
        if key not in cache:
            found.clear()
            plan = example_plan(name)
            setting = Setting(printer_factor=factor)
            document = loom_sheet(plan, template, PAPERS[paper], text_width, setting)
            pdf = render(document)
            cache[key] = Print(plan, document.paper, factor, pdf, tuple(found))
        return cache[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(PictureBox, "draw", draw)
        yield get


def outline(shape: Shape) -> tuple[float, float, float, float, float]:
    """Left, top, width and height of an outline's middle line, and how wide it is, mm."""
    if isinstance(shape, Circle):
        r = shape.r
        return shape.cx - r, shape.cy - r, 2 * r, 2 * r, shape.width
    if isinstance(shape, Rect):
        return shape.x, shape.y, shape.w, shape.h, shape.width
    assert isinstance(shape, Path)
    xs, ys = zip(*curve(shape), strict=True)
    return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys), shape.width


def curve(path: Path) -> Iterator[tuple[float, float]]:
    """Points along a path (geometry: a cubic Bézier curve in Bernstein's form)."""
    at = (0.0, 0.0)
    for kind, *numbers in path.moves:
        points = [at, *zip(map(float, numbers[::2]), map(float, numbers[1::2]), strict=True)]
        if kind == "C":
            for t in np.linspace(0, 1, 51):
                shares = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                yield tuple(sum(s * p[i] for s, p in zip(shares, points, strict=True))
                            for i in (0, 1))  # fmt: skip
        elif kind != "Z":
            yield points[-1]
        at = points[-1] if numbers else at


def beads_of(picture: Picture) -> Iterator[Shape]:
    """The outlines of beads in a picture of beads: what is white and has an edge."""
    if picture.name.startswith(("strip", "bead")):
        for shape in picture.shapes:
            fill = getattr(shape, "fill", None)
            if fill is not None and fill.tint == "#ffffff":
                yield shape


def extent(dark: np.ndarray) -> float:
    """From the first to the last ink along a stretch, mm."""
    found = np.flatnonzero(dark)
    return (found[-1] - found[0] + 1) / PX if len(found) else 0.0


def between_lines(dark: np.ndarray) -> float:
    """From the middle of the first line across a stretch to the middle of the last, mm.

    The lines of two beads that touch lie on each other, whichever is the heavier.
    """
    edges = np.flatnonzero(np.diff(np.concatenate(([0], dark.astype(np.int8), [0]))))
    return (edges[-1] + edges[-2] - edges[1] - edges[0]) / 2 / PX


def measured(sheet: Print, placed: Placed, shape: Shape) -> tuple[float, float]:
    """Width and height of a bead in the picture of its page, to the middle of its line, mm."""
    k = 1 / sheet.factor
    left, top, w, h, _ = (k * v for v in outline(shape))
    slack = 0.5  # a neighbour's number or outline is farther off than this
    dark = sheet.ink(placed.page, placed.x + left - slack, placed.y + top - slack,
                     w + 2 * slack, h + 2 * slack)  # fmt: skip
    middle, centre = dark.shape[0] // 2, dark.shape[1] // 2
    return between_lines(dark[middle]), between_lines(dark[:, centre])


def test_the_file_asks_for_no_scaling_and_is_as_large_as_the_paper(
    example: str, paper: str, printing: Printing
):
    reader = PdfReader(io.BytesIO(printing(example, paper).pdf))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    for page in reader.pages:
        size = float(page.mediabox.width) / MM, float(page.mediabox.height) / MM
        assert size == pytest.approx(SIZES[paper], abs=0.01)


def bars(sheet: Print, page: int) -> list[float]:
    """Lengths of the level lines at the foot of a page, mm: the longest row of ink of each."""
    paper = sheet.paper
    top = paper.height - paper.foot - paper.footer + 1.0
    left, width = paper.left(page + 1), paper.frame_width
    dark = sheet.ink(page, left - 1, top, width + 2, paper.footer - 5)
    found, last = [], -10
    for row in range(dark.shape[0]):
        run = longest_run(dark[row])
        if run > 90 and row - last > 5:
            found.append(run)
        last = row if run > 90 else last
    return found


def longest_run(row: np.ndarray) -> float:
    """The longest stretch of ink without a gap, mm."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(np.int8), [0]))))
    return max(edges[1::2] - edges[::2], default=0) / PX


BAR_LINE = 0.3  # as drawn: half of the first and last tick's width stands beyond each end


@pytest.mark.parametrize("factor", [1.0, 0.97, 1.03])
def test_the_bar_is_100_mm_wherever_something_is_at_true_scale(
    example: str, paper: str, printing: Printing, factor: float
):
    if factor != 1 and example != STRING:
        pytest.skip("one example shows what the factor does")
    sheet = printing(example, paper, factor)
    pages = {placed.page for placed in sheet.placed}
    assert pages
    for page in pages:
        # geometry: a printer that makes 0.97 of everything makes 100 mm of 103.09 mm
        wanted = [100.0 / factor] if factor == 1 else [100.0 / factor, 100.0]
        assert bars(sheet, page) == pytest.approx([w + BAR_LINE for w in wanted], abs=0.1)


@pytest.mark.parametrize("factor", [1.0, 0.97, 1.03])
def test_beads_are_as_large_as_described(
    example: str, paper: str, printing: Printing, factor: float
):
    sheet = printing(example, paper, factor)
    string = sheet.plan.string
    if string is None or (factor != 1 and (example != STRING or paper == "Letter")):
        return
    sizes = [(bead_length(kind), kind.diameter) for kind in string.kinds]
    if string.finial and string.finial.length:
        sizes.append((string.finial.length, string.finial.diameter or string.finial.length))
    seen = dict.fromkeys(("strip", "bead", "beads"), 0)
    for placed in sheet.placed:
        for shape in beads_of(placed.picture):
            # What a printer with this factor makes of the file is as described.
            found = tuple(v * factor for v in measured(sheet, placed, shape))
            assert any(found == pytest.approx(size, abs=0.1) for size in sizes), (found, sizes)
            seen[placed.picture.name.split()[0]] += 1
    placed_beads = sum(p.what == "bead" for p in string.string.placed)
    finials = 1 if string.finial and string.finial.length else 0
    assert seen["strip"] == placed_beads + finials
    assert seen["beads"] == len(string.string.counts)


@pytest.mark.parametrize("factor", [1.0, 0.97])
def test_gauge_bars_are_as_thick_as_they_say(
    example: str, paper: str, printing: Printing, factor: float
):
    if factor != 1 and example != STRING:
        return
    sheet = printing(example, paper, factor)
    (placed,) = (p for p in sheet.placed if p.picture.name == "thickness gauge")
    find = sheet.plan.figures.get("find_thickness")
    sizes = gauge_sizes(find.value if find else None, sheet.plan.thickness)
    blacks = [s for s in placed.picture.shapes if isinstance(s, Rect)]
    assert len(blacks) == len(sizes)
    for size, bar in zip(sizes, blacks, strict=True):
        dark = sheet.ink(placed.page, placed.x + (bar.x + bar.w / 2) / factor,
                         placed.y + (bar.y - 1) / factor, 1.0, (bar.h + 2) / factor)  # fmt: skip
        assert extent(dark[:, dark.shape[1] // 2]) * factor == pytest.approx(size, abs=0.1)


def test_the_bar_of_the_picks_is_as_long_as_it_says(example: str, paper: str, printing: Printing):
    sheet = printing(example, paper)
    (placed,) = (p for p in sheet.placed if p.picture.name == "pick bar")
    frame = next(s for s in placed.picture.shapes if isinstance(s, Rect))
    last = max(int(s.text) for s in placed.picture.shapes if isinstance(s, Text) and s.y == 8.0)
    dark = sheet.ink(placed.page, placed.x + frame.x - 1, placed.y + frame.y - 1,
                     frame.w + 2, frame.h + 2)  # fmt: skip
    wide = max(longest_run(row) for row in dark)
    assert wide == pytest.approx(10.0 * last + frame.width, abs=0.1)  # its numbers count cm


def test_nothing_is_within_10_mm_of_an_edge(example: str, paper: str, printing: Printing):
    for factor in (1.0, 0.97) if example == STRING else (1.0,):
        for page in printing(example, paper, factor).document:
            bitmap = page.render(scale=100 / 72, grayscale=True)
            grey = bitmap.to_numpy().reshape(bitmap.height, bitmap.width)
            rim = int(10 / 25.4 * 100) - 1
            inner = grey[rim:-rim, rim:-rim]
            assert (grey < 250).sum() == (inner < 250).sum()


def test_a_strip_goes_on_where_the_paper_ends(paper: str, printing: Printing):
    """As described: 32 beads; rows meet at numbered marks, and no bead is parted."""
    sheet = printing(STRING, paper)
    strips = [p.picture for p in sheet.placed if p.picture.name.startswith("strip")]
    assert len(strips) > 1
    for picture in strips:
        for shape in beads_of(picture):
            left, _, width, _, line = outline(shape)
            assert left - line / 2 >= 0
            assert left + width + line / 2 <= picture.width
    marks = [[s.text for s in p.shapes if isinstance(s, Text) and s.text.startswith("×")]
             for p in strips]  # fmt: skip
    numbers = range(1, len(strips))
    assert [mark for row in marks for mark in row] == [f"×{n}" for n in numbers for _ in (1, 2)]
    assert sum(len(list(beads_of(p))) for p in strips) == 32 + 1  # the finial


def test_a_printer_factor_is_said_on_the_page(printing: Printing):
    sheet = printing(STRING, "A4", 0.97)
    for placed in sheet.placed:
        text = sheet.document[placed.page].get_textpage().get_text_range()
        assert "Printer factor 0.97 is applied" in text
        assert "comes out at 97 mm" in text  # geometry: 0.97 of 100 mm
        assert "100 mm, uncorrected" in text
    plain = printing(STRING, "A4")
    assert not any("factor" in page.get_textpage().get_text_range() for page in plain.document)


def test_a_factor_changes_nothing_but_what_is_at_true_scale(
    printing: Printing, example_plan: Callable[[str], Plan], template: Template
):
    plan = example_plan(STRING)
    setting = Setting(printer_factor=0.97)
    document = loom_sheet(plan, template, PAPERS["A4"], text_width, setting)
    assert document.blocks != loom_sheet(plan, template, PAPERS["A4"], text_width).blocks
    without = replace(document, printer_factor=1.0)
    assert render(document) != render(without)
    # geometry: all drawings at true scale still lie in the frame when they are larger
    for placed in printing(STRING, "A4", 0.97).placed:
        assert placed.picture.width / 0.97 <= PAPERS["A4"].frame_width + 0.01
