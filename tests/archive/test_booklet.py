"""Booklets: the order of folding, the true scale, and what the file says of itself."""

from __future__ import annotations

import io
import shutil
import subprocess

import numpy as np
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from sheetgen.archive.booklet import fold, folding_order
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document, Figure, Heading, PageBreak, Para, Run
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import Picture

MM = 72 / 25.4


@given(st.integers(min_value=1, max_value=120))
def test_a_folded_pile_reads_in_order(pages):
    """Fold a pile of sheets in thought: fronts and backs, sheet in sheet, turned leaf by leaf."""
    sides = folding_order(pages)
    assert len(sides) % 2 == 0
    sheets = list(zip(sides[::2], sides[1::2], strict=True))
    # geometry: the right half of a front is a leaf, its back is the left half of the sheet's back
    first = [page for front, back in sheets for page in (front[1], back[0])]
    last = [page for front, back in reversed(sheets) for page in (back[1], front[0])]
    read = first + last
    assert len(read) % 4 == 0
    assert len(read) - pages < 4
    assert read == [*range(1, pages + 1), *[None] * (len(read) - pages)]


def test_eight_pages_as_bookbinders_place_them():
    # common practice: the outermost sheet has 8 and 1, then 2 and 7; the inner 6 and 3, 4 and 5
    assert folding_order(8) == [(8, 1), (2, 7), (6, 3), (4, 5)]


def sheet(pages: int) -> bytes:
    bar = Figure(Picture(20.0, 20.0, (), true_scale=True))
    blocks = [
        block
        for n in range(1, pages + 1)
        for block in (PageBreak(), Heading(f"Part {n}"), Para((Run(f"leaf{n}"),)), bar)
    ]
    return render(
        Document(
            "Title ā", "s", "h", "v", PAPERS["A5"], tuple(blocks), "{page}/{pages}", "x", "y",
            author="A. Maker", subject="Sheets", language="de-DE", date="2024-05-01",
        )
    )  # fmt: skip


@pytest.fixture(scope="module")
def six() -> bytes:
    return sheet(6)


@pytest.fixture(scope="module")
def folded(six: bytes) -> bytes:
    return fold(six)


def test_pages_stand_where_the_order_says(folded):
    document = pypdfium2.PdfDocument(folded)
    assert len(document) == 4
    found = []
    for page in document:
        # published: ISO 216, A4 on its side
        assert [v / MM for v in page.get_size()] == pytest.approx([297.0, 210.0], abs=0.01)
        half = page.get_size()[0] / 2
        text = page.get_textpage()
        ends = [(0, half), (half, 2 * half)]
        halves = [text.get_text_bounded(left=a, right=b) for a, b in ends]
        found.append(tuple(next((n for n in range(1, 7) if f"leaf{n}" in h), None)
                           for h in halves))  # fmt: skip
    assert found == [(None, 1), (2, None), (6, 3), (4, 5)]


def test_the_bar_is_still_100_mm_and_nothing_is_near_an_edge(folded):
    for page in pypdfium2.PdfDocument(folded):
        bitmap = page.render(scale=600 / 72, grayscale=True)
        dark = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128
        px = 600 / 25.4
        foot = dark[round((210 - 24) * px) : round((210 - 19) * px)]
        seen = 0
        for half in (foot[:, : foot.shape[1] // 2], foot[:, foot.shape[1] // 2 :]):
            row = max(half, key=lambda r: r.sum())
            inked = np.flatnonzero(row)
            if len(inked):
                # geometry: 100 mm, and half of the end ticks' 0.3 mm beyond each end
                assert (inked[-1] - inked[0] + 1) / px == pytest.approx(100.3, abs=0.1)
                seen += 1
        assert seen
        rim = round(10 * px)
        assert dark[rim:-rim, rim:-rim].sum() == dark.sum()


def test_what_the_file_says_of_itself_stays(six, folded):
    reader = PdfReader(io.BytesIO(folded))
    root = reader.trailer["/Root"]
    assert reader.pdf_header == "%PDF-1.7"
    assert dict(reader.metadata) == dict(PdfReader(io.BytesIO(six)).metadata)
    assert reader.metadata.title == "Title ā"
    assert root["/Lang"] == "de-DE"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/ViewerPreferences"]["/Duplex"] == "/DuplexFlipShortEdge"
    assert reader.page_labels == ["– · 1", "2 · –", "6 · 3", "4 · 5"]
    assert [item.title for item in reader.outline] == [f"Part {n}" for n in range(1, 7)]
    leads = [reader.get_destination_page_number(item) for item in reader.outline]
    assert leads == [0, 1, 2, 3, 3, 2]


def test_the_same_bytes_twice_and_no_page_left_over(six, folded):
    assert fold(six) == folded
    assert len(folded) < 1.3 * len(six)


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_the_file_is_sound(folded, tmp_path):
    path = tmp_path / "booklet.pdf"
    path.write_bytes(folded)
    done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING" not in done.stdout + done.stderr
