"""A Document into the bytes of a PDF."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from functools import partial
from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

from sheetgen.draw.archival import Attachment
from sheetgen.draw.boxes import LayoutError
from sheetgen.draw.canvas import SheetCanvas
from sheetgen.draw.copies import Copies, CopiesCanvas
from sheetgen.draw.flow import story
from sheetgen.draw.fonts import font_name, one_line
from sheetgen.draw.furniture import draw_footer, draw_header
from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import POINTS
from sheetgen.draw.stack import Stack
from sheetgen.draw.text import Styles
from sheetgen.layout.blocks import Document
from sheetgen.layout.paper import COLUMN_GAP

PRODUCER = "sheetgen"
_EPOCH = "SOURCE_DATE_EPOCH"

rl_config.useA85 = 0  # streams as plain bytes: text encoding makes a file a quarter larger


def render(
    document: Document, attachments: tuple[Attachment, ...] = (), copies: Copies | None = None
) -> bytes:
    """The whole sheet as a PDF 1.7, fit to be kept (PDF/A-3b); the same gives the same bytes.

    The ``attachments`` are the files that it was made from, each under a name of its own. With
    ``copies`` the file holds the sheet as many times, each with its own mark in the header.

    The date in the file is ``document.date`` (ISO 8601, a ValueError if it is not), else that of
    the environment's SOURCE_DATE_EPOCH if it is a number of seconds, else a fixed one. Raises
    LayoutError for what cannot be put on the paper at its size.
    """
    paper = document.paper
    styles = Styles.of(document.text_size, document.most_pages is not None)
    stretch = 1 / document.printer_factor
    flowables = story(
        document.blocks, paper.column(document.columns), paper.frame_height, styles, stretch
    )
    out = BytesIO()
    with _sound_epoch():
        maker = _canvas_maker(document, attachments, copies)
        template = _template(document, out)
        template.build(flowables, canvasmaker=maker)
    if beyond := template.beyond(document):
        if (size := document.smaller_text) is not None:
            smaller = replace(document, text_size=size, smaller_text=None)
            return render(smaller, attachments, copies)
        raise LayoutError(
            f"“{document.sheet}” is about {beyond} % longer than the "
            f"{document.most_pages} pages of {paper.name} that it may take; {document.too_much}",
            document.cure,
        )
    return out.getvalue()


class _SheetTemplate(BaseDocTemplate):
    """Says of the file what platypus has no argument for."""

    day: date | None = None
    two_sided = False
    filled = 0.0
    """Of the last column that something stands in, the share that is full."""

    def beforeDocument(self) -> None:  # noqa: N802
        """Number the pages for the reader, and set the date."""
        self.canv.addPageLabel(0, style="ARABIC", start=1)
        if self.two_sided:
            self.canv.setViewerPreference("Duplex", "DuplexFlipLongEdge")
        if self.day is not None:
            self.canv.setDateFormatter(_dated(self.day))

    def afterFlowable(self, flowable: object) -> None:  # noqa: N802
        """Remember how far the work has come."""
        frame = self.frame
        columns = next((t.frames for t in self.pageTemplates if frame in t.frames), None)
        if columns is None:  # between two pages
            return
        share = (frame._y2 - frame._y) / (frame._y2 - frame._y1)
        self.filled = (columns.index(frame) + share) / len(columns)

    def beyond(self, document: Document) -> int:
        """By how many per cent the work is longer than the pages it may take; 0 if it is not."""
        most = document.most_pages
        if most is None or self.page <= most:
            return 0
        taken: float = self.page - 1 + self.filled
        return max(1, round(100 * (taken / most - 1)))

    def handle_pageBegin(self) -> None:  # noqa: N802
        """Take the frame for a front or a back; ``page`` counts the pages before."""
        self.pageTemplate = self.pageTemplates[self.page % 2]
        super().handle_pageBegin()


def _template(document: Document, out: BytesIO) -> _SheetTemplate:
    """A file of equal pages, and everything that it says about itself."""
    paper = document.paper
    size = (paper.width * POINTS, paper.height * POINTS)
    template = _SheetTemplate(
        out,
        pagesize=size,
        pageTemplates=[_page_template(document, size, page) for page in (1, 2)],
        keepTogetherClass=partial(Stack, page=paper.frame_height * POINTS),
        title=one_line(document.title),
        author=one_line(document.author),
        subject=one_line(document.subject),
        keywords=[one_line(word) for word in document.keywords],
        creator=PRODUCER,
        producer=PRODUCER,
        lang=document.language,
        printScaling="None",
        displayDocTitle=True,
        invariant=1,
        pageCompression=1,
        # Without these the file would name a Helvetica that is not in it.
        initialFontName=font_name(bold=False),
        initialFontSize=10,
    )
    template.two_sided = paper.two_sided
    template.day = date.fromisoformat(document.date) if document.date is not None else None
    return template


def _page_template(document: Document, size: tuple[float, float], page: int) -> Any:
    """The columns between header and footer, of odd pages for ``page`` 1 and of even ones for 2.

    ``size`` of the paper in points.
    """
    paper = document.paper
    wide = paper.column(document.columns)
    frames = [
        Frame(
            (paper.left(page) + column * (wide + COLUMN_GAP)) * POINTS,
            (paper.foot + paper.footer) * POINTS,
            wide * POINTS,
            paper.frame_height * POINTS,
            leftPadding=0,
            rightPadding=0,
            topPadding=0,
            bottomPadding=0,
        )
        for column in range(document.columns)
    ]

    def finish(canvas: SheetCanvas, _: Any) -> None:
        canvas.place_header()
        number = canvas.getPageNumber()
        draw_footer(Pen(canvas, paper.height), document, number, canvas.true_scale)
        canvas.true_scale = False

    return PageTemplate(f"page{page}", frames, onPageEnd=finish, pagesize=size)


def _canvas_maker(
    document: Document, attachments: tuple[Attachment, ...], copies: Copies | None
) -> Callable[..., SheetCanvas]:
    def header(canvas: SheetCanvas, page: int, pages: int) -> None:
        draw_header(Pen(canvas, document.paper.height), document, page, pages)

    def marked(canvas: SheetCanvas, page: int, pages: int, mark: str) -> None:
        own = replace(document, page_of=f"{mark}  ·  {document.page_of}")
        draw_header(Pen(canvas, document.paper.height), own, page, pages)

    if copies is not None:
        own = partial(CopiesCanvas, copies=copies, draw_marked=marked)
        return partial(own, draw_header=header, attachments=attachments)
    return partial(SheetCanvas, draw_header=header, attachments=attachments)


def _dated(day: date) -> Callable[..., str]:
    """What the canvas asks for the date: noon UTC of ``day``, whatever the clock says."""
    return lambda *_: f"D:{day:%Y%m%d}120000+00'00'"


@contextmanager
def _sound_epoch() -> Iterator[None]:
    """Hide a SOURCE_DATE_EPOCH that is no number, over which reportlab would stumble."""
    given = os.environ.get(_EPOCH)
    if given is None or _is_moment(given):
        yield
        return
    del os.environ[_EPOCH]
    try:
        yield
    finally:
        os.environ[_EPOCH] = given


def _is_moment(text: str) -> bool:
    try:
        time.gmtime(int(text))
    except (ValueError, OverflowError, OSError):
        return not text.strip()
    return True
