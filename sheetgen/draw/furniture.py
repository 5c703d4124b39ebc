"""What stands on every page beside its contents: the header, and the sentences at the foot."""

from __future__ import annotations

from reportlab.lib.utils import simpleSplit

from sheetgen.draw.bars import BAR, draw_bar, draw_upright_bar
from sheetgen.draw.fonts import font_name, printable, text_width
from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import millimetres, points
from sheetgen.draw.text import shortened
from sheetgen.layout.blocks import Document

_SIZE = 8.5
_SMALL = 8.0
_LABEL = 7.0
_LARGER = 1.25
"""How much larger all of it is in large print."""
_GAP = 6.0
_NEAR = 3.0
"""Between what stands apart and what belongs together, mm."""
_LOWEST = 0.8
"""The lowest base line above the margin, mm."""


def _larger(document: Document) -> float:
    return _LARGER if document.text_size > 11.0 else 1.0


def draw_header(pen: Pen, document: Document, page: int, pages: int) -> None:
    """Piece and sheet inside, version and page outside, a rule below; never overlapping.

    The page number is never cut; what is too long ends in an ellipsis, the piece's name first.
    """
    paper, larger = document.paper, _larger(document)
    size = _SIZE * larger
    base = paper.top + 3.6 + 4 * (larger - 1)
    number = document.page_of.replace("{page}", str(page)).replace("{pages}", str(pages))
    room = paper.frame_width - text_width(number, size) - _GAP
    version = shortened(document.version, size, False, 0.3 * room) if document.version else ""
    sheet = shortened(document.sheet, size, False, 0.35 * room)
    start, end = paper.left(page), paper.right(page)
    told = [version, number] if version else [number]
    outer = "  ·  ".join(told[::-1] if paper.is_back(page) else told)
    taken = text_width(outer, size) + _GAP + text_width(sheet, size) + _NEAR
    name = shortened(document.header, size, True, paper.frame_width - taken)
    after = text_width(name, size, True) + _NEAR
    if paper.is_back(page):
        inner = end - after - text_width(sheet, size)
        places = inner, inner + after, start
    else:
        places = start, start + after, end - text_width(outer, size)
    pen.texts([(places[0], base, name)], size, bold=True)
    pen.texts([(places[1], base, sheet), (places[2], base, outer)], size)
    rule = base + 2.0 * larger
    pen.segments([(start, rule, end, rule)], 0.2)


def draw_footer(pen: Pen, document: Document, page: int, true_scale: bool) -> None:
    """The sentence for the printer and, with ``true_scale``, the bars and their sentences."""
    paper, larger = document.paper, _larger(document)
    size, left = _SMALL * larger, paper.left(page)
    lines = [document.print_sentence]
    if true_scale:
        lines += [document.factor_sentence] if document.factor_sentence else []
        beside = _bars(pen, document, page)
        lines += [] if beside else [document.scale_sentence]
    foot = paper.height - paper.foot - _LOWEST
    for i, line in enumerate(lines):
        _sentence(pen, line, size, left, foot - 3.4 * larger * i, paper.frame_width)


def _bars(pen: Pen, document: Document, page: int) -> bool:
    """The bars, and the sentence beside them if there is room for it: whether there was."""
    paper, larger = document.paper, _larger(document)
    left, label = paper.left(page), _LABEL * larger
    y = paper.height - paper.foot - paper.footer + 4.2
    stretch = 1 / document.printer_factor
    right = paper.right(page)
    draw_bar(pen, left, y, stretch, "100 mm", label, right)
    end = BAR * stretch + 0.8 + text_width("100 mm", label)
    step = 1.2 * millimetres(_SMALL * larger)
    if document.uncorrected:
        draw_bar(pen, left, y + 2.6 + step, 1.0, document.uncorrected, label, right)
    draw_upright_bar(pen, paper, page, stretch, 7.5)
    room = paper.frame_width - end - _GAP
    sentence = printable(document.scale_sentence)
    lines = simpleSplit(sentence, font_name(bold=False), _SMALL * larger, points(room))
    if room <= 40.0 or len(lines) > (1 if document.uncorrected else 2):
        return False
    start = left + end + _GAP
    places = ((start, y - 0.7 + i * step, line) for i, line in enumerate(lines))
    pen.texts(places, _SMALL * larger)
    return True


def _sentence(pen: Pen, text: str, size: float, x: float, y: float, room: float) -> None:
    """One line, set smaller if it does not fit, and only then shortened."""
    while size > 7.0 and text_width(text, size) > room:
        size -= 0.5
    text = shortened(text, size, False, room)
    if text:
        pen.texts([(x, y, text)], size)
