"""One millimetre is one millimetre: read from the file, and measured in a picture of the page."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest

from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Figure, Para, Run, SideBySide
from sheetgen.layout.shapes import Circle, Fill, Line, Path, Picture, Rect

MM = 25.4 / 72  # published: PDF counts in 1/72 inch, an inch is 25.4 mm
SIZES = {
    "A4": (210.0, 297.0),  # published: ISO 216
    "A5": (148.0, 210.0),  # published: ISO 216
    "Letter": (8.5 * 25.4, 11.0 * 25.4),  # published: ASME Y14.1 size A, 8.5 by 11 inches
}


@pytest.mark.parametrize("paper", SIZES)
def test_the_page_is_the_paper(sheet, read_back, paper):
    (page,) = read_back(render(sheet(Para((Run("x"),)), paper=paper)))
    assert (page.width * MM, page.height * MM) == pytest.approx(SIZES[paper], abs=0.01)


def test_shapes_stand_where_the_picture_says(sheet, read_back):
    picture = Picture(
        120.0,
        60.0,
        (
            Rect(10.0, 20.0, 30.5, 12.25),
            Line(0.0, 5.0, 100.0, 55.0),
            Circle(70.0, 30.0, 7.75),
            Path((("M", 1.0, 2.0), ("L", 41.0, 2.0)), 0.3),
        ),
    )
    (page,) = read_back(render(sheet(Figure(picture))))
    # geometry: the frame starts at the side margin, below top margin and header
    x0, y0 = 13.0, 11.0 + 9.0
    rect = page.rects[0]
    found = [rect["x0"], rect["top"], rect["width"], rect["height"]]
    assert [v * MM for v in found] == pytest.approx([x0 + 10, y0 + 20, 30.5, 12.25], abs=0.01)
    circle = page.curves[0]
    found = [circle["x0"], circle["top"], circle["width"], circle["height"]]
    expected = [x0 + 70 - 7.75, y0 + 30 - 7.75, 15.5, 15.5]
    assert [v * MM for v in found] == pytest.approx(expected, abs=0.01)
    corners = [(line["x0"], line["top"], line["x1"], line["bottom"]) for line in page.lines]
    wanted = [(x0, y0 + 5, x0 + 100, y0 + 55), (x0 + 1, y0 + 2, x0 + 41, y0 + 2)]
    for want in wanted:
        assert any([v * MM for v in c] == pytest.approx(want, abs=0.01) for c in corners), want


def test_hatched_shapes_stand_where_their_outlines_do(sheet, read_back):
    shapes = tuple(Rect(7.0 * i, 3.0, 5.0, 5.0, fill=Fill(None, "level")) for i in range(3))
    (page,) = read_back(render(sheet(Figure(Picture(30.0, 10.0, shapes)))))
    hatch = [h for h in page.lines if abs(h["width"] * MM - 5.0) < 0.01]
    starts = sorted({round(h["x0"] * MM, 1) for h in hatch})
    assert starts == [13.0, 20.0, 27.0]  # geometry: margin 13 mm, step 7 mm
    tops = [h["top"] * MM for h in hatch]
    assert min(tops) > 23.0  # geometry: margin 11, header 9, 3 down
    assert max(tops) < 28.0


def test_the_bars_measure_what_they_say(sheet, read_back):
    data = render(sheet(Figure(Picture(20.0, 20.0, (), true_scale=True))))
    (page,) = read_back(data)
    level = [h for h in page.lines if h["width"] * MM > 99 and h["width"] * MM < 101]
    assert [h["width"] * MM for h in level] == pytest.approx([100.0], abs=0.01)  # geometry
    upright = [v for v in page.lines if v["height"] * MM > 40]
    assert [v["height"] * MM for v in upright] == pytest.approx([50.0], abs=0.01)  # geometry
    ticks = sorted(
        v["x0"] * MM for v in page.lines if 1.0 < v["height"] * MM < 4.0 and v["width"] < 0.01
    )
    # geometry: a tick every 10 mm from the left margin
    assert ticks == pytest.approx([13.0 + 10 * i for i in range(11)], abs=0.01)
    text = page.extract_text()
    assert "100 mm" in text
    assert "This bar must measure 100 mm." in text


def test_only_pages_with_something_at_scale_have_a_bar(sheet, read_back):
    scaled = Picture(150.0, 200.0, (), true_scale=True)
    plain = Picture(150.0, 200.0, ())
    beside = SideBySide(Picture(60.0, 200.0, (), true_scale=True), (Para((Run("x"),)),))
    pages = read_back(render(sheet(Figure(plain), Figure(scaled), Figure(plain), beside)))
    marked = ["must measure" in page.extract_text() for page in pages]
    assert marked == [False, True, False, True]


def test_a_small_sheet_has_no_bar_in_its_narrow_margin(sheet, read_back):
    picture = Picture(20.0, 20.0, (), true_scale=True)
    (page,) = read_back(render(sheet(Figure(picture), paper="A5")))
    assert not [v for v in page.lines if v["height"] * MM > 40]
    assert [h for h in page.lines if abs(h["width"] * MM - 100) < 0.01]
    assert "must measure" in page.extract_text()


def _ink(data: bytes, dpi: int) -> np.ndarray:
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=dpi / 72, grayscale=True)
    return bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128


def _outer(dark: np.ndarray, mm: float) -> tuple[float, float]:
    """Width and height of the ink in a part of the page, mm."""
    rows, columns = np.flatnonzero(dark.any(axis=1)), np.flatnonzero(dark.any(axis=0))
    return (columns[-1] - columns[0] + 1) * mm, (rows[-1] - rows[0] + 1) * mm


def test_a_picture_of_the_page_measures_right(sheet):
    line = 0.2
    shapes = (
        Circle(20.0, 20.0, 9.5, line, Fill("#dddddd", "dots")),
        Rect(50.0, 5.0, 40.0, 25.0, line, Fill(None, "bricks")),
    )
    dark = _ink(render(sheet(Figure(Picture(100.0, 40.0, shapes, true_scale=True)))), 600)
    px = 600 / 25.4

    def part(x: float, y: float, w: float, h: float) -> np.ndarray:
        return dark[round(y * px) : round((y + h) * px), round(x * px) : round((x + w) * px)]

    # geometry: outline's middle at the size, so the ink is one line width larger
    assert _outer(part(13, 20, 45, 40), 1 / px) == pytest.approx((19.2, 19.2), abs=0.1)
    assert _outer(part(60, 20, 60, 40), 1 / px) == pytest.approx((40.2, 25.2), abs=0.1)
    # geometry: the bar's end ticks are 0.3 mm wide and stand astride its ends
    bar = part(11, 297 - 13 - 10, 103, 3)
    longest = max(bar, key=lambda row: row.sum())
    ends = np.flatnonzero(longest)
    assert (ends[-1] - ends[0] + 1) / px == pytest.approx(100.3, abs=0.1)
