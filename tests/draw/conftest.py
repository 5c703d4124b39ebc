"""What the tests of the drawing share: a small sheet, and a PDF read back in millimetres."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import pdfplumber
import pytest

from sheetgen.layout.blocks import Block, Document
from sheetgen.layout.paper import PAPERS


@pytest.fixture
def sheet() -> Callable[..., Document]:
    """A Document of the given blocks; keywords replace its other fields."""

    def make(*blocks: Block, paper: str = "A4", **fields: Any) -> Document:
        given: dict[str, Any] = {
            "title": "Loom sheet for a test band",
            "sheet": "Loom sheet",
            "header": "Test band",
            "version": "plan 0a1b2c3",
            "page_of": "page {page} of {pages}",
            "scale_sentence": "This bar must measure 100 mm.",
            "print_sentence": "Print at actual size, 100 %.",
        }
        return Document(paper=PAPERS[paper], blocks=blocks, **(given | fields))

    return make


@pytest.fixture
def read_back() -> Callable[..., list[Any]]:
    """Every page of a PDF, or every so many, as pdfplumber sees it: an independent reader."""

    def read(data: bytes, every: int = 1) -> list[Any]:
        with pdfplumber.open(io.BytesIO(data)) as pdf:
            pages = list(pdf.pages)[::every]
            for page in pages:
                _ = page.objects, page.chars
            return pages

    return read
