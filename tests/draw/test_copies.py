"""A sheet many times in one file: every copy whole, each with its own mark, next to no memory."""

from io import BytesIO

import pdfplumber
import pytest

from sheetgen.draw.copies import Copies
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document, Heading, PageBreak, Para, Run
from sheetgen.layout.paper import PAPERS


def document():
    blocks = (
        Heading("Front"),
        Para((Run("front words"),)),
        PageBreak(),
        Para((Run("back words"),)),
    )
    return Document(
        "T",
        "Kit sheet",
        "Piece",
        "plan 1",
        PAPERS["A4"],
        blocks,
        "page {page} of {pages}",
        "s",
        "p",
    )


@pytest.fixture(scope="module")
def pages():
    told = []
    pdf = render(document(), (), Copies([f"bag {n}" for n in range(1, 13)], told.append))
    assert told == list(range(1, 13))
    with pdfplumber.open(BytesIO(pdf)) as opened:
        return [page.extract_text() for page in opened.pages]


def test_each_copy_has_all_pages_and_its_mark(pages):
    assert len(pages) == 24
    for i, text in enumerate(pages):
        assert f"bag {i // 2 + 1} · page {i % 2 + 1} of 2" in text
        assert ("front words", "back words")[i % 2] in text
        assert text.count("bag ") == 1


def test_a_copy_costs_its_header_and_no_more():
    one = len(render(document(), (), Copies(["bag 1"])))
    many = len(render(document(), (), Copies([f"bag {n}" for n in range(1, 102)])))
    assert (many - one) / 100 < 2500


def test_the_same_copies_give_the_same_bytes():
    copies = Copies(["a", "b"])
    assert render(document(), (), copies) == render(document(), (), copies)
