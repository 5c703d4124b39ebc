"""The canvas of a sheet: what has to be known beyond one page and is not in a drawing."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any

from reportlab.pdfgen.canvas import Canvas

from sheetgen.draw.archival import Attachment, make_archival
from sheetgen.draw.fonts import one_line


class SheetCanvas(Canvas):
    """Keeps stored drawings, bookmarks and the mark for a page with something at true scale.

    ``draw_header(canvas, page, pages)`` is called for every page when all are counted.
    """

    def __init__(
        self,
        *args: Any,
        draw_header: Callable[[SheetCanvas, int, int], None],
        attachments: tuple[Attachment, ...] = (),
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, pdfVersion=(1, 7), **kwargs)
        self._draw_header = draw_header
        self._attachments = attachments
        self._stored: dict[Hashable, str] = {}
        self._parts = 0
        self.true_scale = False

    def stored(self, key: Hashable) -> tuple[str, bool]:
        """The name of the form for ``key``, and whether it has still to be drawn."""
        fresh = key not in self._stored
        return self._stored.setdefault(key, f"fill{len(self._stored) + 1}"), fresh

    def mark_part(self, title: str, y: float) -> None:
        """An entry in the reader's list of contents that leads to this height here, points."""
        self._parts += 1
        # Two entries on one key overwrite each other, so the key is never made from the title.
        key = f"part-{self._parts}"
        self.bookmarkPage(key, fit="FitH", top=self.absolutePosition(0, y)[1])
        self.addOutlineEntry(one_line(title), key, 0)

    def place_header(self) -> None:
        """Leave the place of this page's header: it is drawn when the pages are counted."""
        self.doForm(_header_name(self.getPageNumber()))

    def save(self) -> None:
        """Draw the headers and write the file, fit to be kept."""
        pages = self.getPageNumber() - 1
        for page in range(1, pages + 1):
            self.beginForm(_header_name(page))
            self._draw_header(self, page, pages)
            self.endForm()
        make_archival(self._doc, self._attachments)
        super().save()


def _header_name(page: int) -> str:
    return f"header{page}"
