"""A Document into the bytes of a PDF."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from io import BytesIO

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from sheetgen.draw.flow import Style, boxes_of
from sheetgen.draw.fonts import font_name, printable
from sheetgen.draw.furniture import draw_footer, draw_header
from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import POINTS
from sheetgen.draw.stack import paginate
from sheetgen.layout.blocks import Document

PRODUCER = "sheetgen"

rl_config.useA85 = 0  # streams as plain bytes: text encoding makes a file a quarter larger


def render(document: Document) -> bytes:
    """The whole sheet as a PDF 1.7; the same Document gives the same bytes.

    The date in the file is ``document.date`` (ISO 8601, a ValueError if it is not), else that of
    the environment's SOURCE_DATE_EPOCH, else a fixed one. Raises LayoutError for what cannot be
    put on the paper at its size.
    """
    paper = document.paper
    boxes = boxes_of(document.blocks, paper.frame_width, Style.of(document.text_size))
    pages = paginate(boxes, paper.frame_height)
    out = BytesIO()
    canvas = _canvas(document, out)
    pen = Pen(canvas, paper.height)
    for number, page in enumerate(pages, start=1):
        draw_header(pen, document, number, len(pages))
        page.draw(pen, paper.side, paper.top + paper.header)
        draw_footer(pen, document, page.true_scale)
        pen.end_page()
    canvas.save()
    return out.getvalue()


def _canvas(document: Document, out: BytesIO) -> Canvas:
    """An empty file with everything that it says about itself."""
    paper = document.paper
    canvas = Canvas(
        out,
        pagesize=(paper.width * POINTS, paper.height * POINTS),
        pageCompression=1,
        invariant=1,
        pdfVersion=(1, 7),
        # Without these the file would name a Helvetica that is not in it.
        initialFontName=font_name(bold=False),
        initialFontSize=10,
        lang=document.language,
    )
    font_name(bold=True)
    canvas.setTitle(printable(document.title))
    canvas.setAuthor(printable(document.author))
    canvas.setSubject(printable(document.subject))
    canvas.setKeywords([printable(word) for word in document.keywords])
    canvas.setCreator(PRODUCER)
    canvas.setProducer(PRODUCER)
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.addPageLabel(0, style="ARABIC", start=1)
    if document.date is not None:
        canvas.setDateFormatter(_dated(date.fromisoformat(document.date)))
    return canvas


def _dated(day: date) -> Callable[..., str]:
    """What the canvas asks for the date: noon UTC of ``day``, whatever the clock says."""
    return lambda *_: f"D:{day:%Y%m%d}120000+00'00'"
