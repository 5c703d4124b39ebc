"""A sheet many times in one file: takes the pages drawn once, gives each copy its own header.

All copies share what is on the page; a copy costs only its header, so that hundreds of them need
hardly more memory or time than one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFArray, PDFPage, PDFStream, PDFZCompress

from sheetgen.draw.canvas import SheetCanvas

Told = Callable[[int], object]


def _nothing(copies: int) -> None:
    """Nobody wants to know."""


@dataclass(frozen=True, slots=True)
class Copies:
    """A mark for the header of each copy; ``told`` hears how many are done."""

    marks: Sequence[str]
    told: Told = _nothing


class CopiesCanvas(SheetCanvas):
    """Draws every page once and shows it in every copy.

    ``draw_marked(canvas, page, pages, mark)`` draws the header of a page of one copy.
    """

    def __init__(
        self,
        *args: Any,
        copies: Copies,
        draw_marked: Callable[[SheetCanvas, int, int, str], None],
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self._copies = copies
        self._draw_marked = draw_marked

    def place_header(self) -> None:
        """Nothing: the header of each copy is drawn when all pages are there."""

    def save(self) -> None:
        """Make the copies and write the file."""
        drawn: list[PDFPage] = list(self._doc.Pages.pages)
        shared = [self._doc.Reference(self._stream(page.stream)) for page in drawn]
        pages, self._doc.Pages.pages = len(drawn), []
        for index, mark in enumerate(self._copies.marks):
            for number, page in enumerate(drawn, start=1):
                own = page if index == 0 else copy(page)
                own.Contents = PDFArray([shared[number - 1], self._header(number, pages, mark)])
                if index == 0:
                    self._doc.Pages.addPage(own)
                else:
                    own.__dict__.pop("__InternalName__", None)
                    self._doc.addPage(own)
            self._copies.told(index + 1)
        self._code: list[str] = []
        super().save()

    def _header(self, number: int, pages: int, mark: str) -> Any:
        """The header of one page of one copy, drawn on its own."""
        self._code = []
        self._draw_marked(self, number, pages, mark)
        return self._doc.Reference(self._stream("\n".join(self._code) + "\n"))

    def _stream(self, content: str) -> PDFStream:
        stream = PDFStream()
        stream.content = content
        stream.filters = [PDFZCompress]
        return stream
