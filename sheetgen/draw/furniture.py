"""What stands on every page beside its contents: header, footer, and the bars that prove the scale.

The bars are the reader's only proof that the printer kept the scale, so they are exact and stand
on every page that has something at true scale.
"""

from __future__ import annotations

from reportlab.lib.utils import simpleSplit

from sheetgen.draw.fonts import font_name, printable, text_width
from sheetgen.draw.pen import Pen
from sheetgen.draw.scale import millimetres, points
from sheetgen.draw.text import shortened
from sheetgen.layout.blocks import Document
from sheetgen.layout.paper import Paper

BAR = 100.0
UPRIGHT_BAR = 50.0
"""Lengths of the scale bars, mm."""
EDGE = 10.0
"""Home printers leave up to 8.5 mm unprinted: nothing nearer to the edge than this, mm."""
_SIZE = 8.5
_SMALL = 8.0
_BAR_LINE = 0.3
_BAR_LABEL = "100 mm"
_LABEL = 7.0
_GAP = 6.0


def draw_header(pen: Pen, document: Document, page: int, pages: int) -> None:
    """Piece and sheet at the left, version and page at the right, a rule below; never overlapping.

    The page number is never cut; what is too long ends in an ellipsis, the piece's name first.
    """
    paper = document.paper
    base, right_edge = paper.top + 3.6, paper.width - paper.side
    number = document.page_of.replace("{page}", str(page)).replace("{pages}", str(pages))
    room = paper.frame_width - text_width(number, _SIZE) - _GAP
    version = shortened(document.version, _SIZE, False, 0.3 * room) if document.version else ""
    right = f"{version}  ·  {number}" if version else number
    start = right_edge - text_width(right, _SIZE)
    sheet = shortened(document.sheet, _SIZE, False, 0.35 * room)
    left = start - _GAP - paper.side - text_width(sheet, _SIZE) - 3.0
    name = shortened(document.header, _SIZE, True, left)
    pen.texts([(paper.side, base, name)], _SIZE, bold=True)
    after = paper.side + text_width(name, _SIZE, True) + 3.0
    pen.texts([(after, base, sheet), (start, base, right)], _SIZE)
    rule = paper.top + 5.6
    pen.segments([(paper.side, rule, right_edge, rule)], 0.2)


def draw_footer(pen: Pen, document: Document, true_scale: bool) -> None:
    """The sentence for the printer and, with ``true_scale``, the bars and their sentence."""
    paper = document.paper
    foot = paper.height - paper.foot
    _sentence(pen, document.print_sentence, paper.side, foot - 0.8, paper.frame_width)
    if not true_scale:
        return
    y = foot - paper.footer + 4.2
    _bar(pen, paper.side, y)
    beside = paper.side + BAR + 0.8 + text_width(_BAR_LABEL, _LABEL) + _GAP
    room = paper.width - paper.side - beside
    lines = simpleSplit(
        printable(document.scale_sentence), font_name(bold=False), _SMALL, points(room)
    )
    if room > 40.0 and len(lines) <= 2:
        step = 1.2 * millimetres(_SMALL)
        pen.texts(((beside, y - 0.7 + i * step, line) for i, line in enumerate(lines)), _SMALL)
    else:
        _sentence(pen, document.scale_sentence, paper.side, foot - 4.2, paper.frame_width)
    if paper.side >= EDGE + 2.8:
        _upright_bar(pen, paper)


def _sentence(pen: Pen, text: str, x: float, y: float, room: float) -> None:
    """One line, set smaller if it does not fit, and only then shortened."""
    size = _SMALL
    while size > 7.0 and text_width(text, size) > room:
        size -= 0.5
    text = shortened(text, size, False, room)
    if text:
        pen.texts([(x, y, text)], size)


def _bar(pen: Pen, x: float, y: float) -> None:
    """A bar of 100 mm from (x, y) to the right, with a tick every 10 mm."""
    ticks = [x + 10.0 * i for i in range(11)]
    pen.segments(
        [
            (x, y, x + BAR, y),
            *((at, y, at, y - (2.6 if i % 5 == 0 else 1.5)) for i, at in enumerate(ticks)),
        ],
        _BAR_LINE,
    )
    pen.texts([(x + 0.8, y - 1.6, "0"), (x + BAR + 0.8, y - 1.6, _BAR_LABEL)], _LABEL)


def _upright_bar(pen: Pen, paper: Paper) -> None:
    """A bar of 50 mm in the right margin: printers can stretch the two directions differently."""
    x = paper.width - EDGE - 0.4
    foot = paper.height - paper.foot - paper.footer
    ticks = [foot - 10.0 * i for i in range(6)]
    pen.segments(
        [
            (x, foot, x, foot - UPRIGHT_BAR),
            *((x, at, x - (1.6 if i % 5 == 0 else 1.0), at) for i, at in enumerate(ticks)),
        ],
        _BAR_LINE,
    )
    pen.turned_text(x - 0.5, foot - UPRIGHT_BAR - 1.0, "50 mm", 7.5, False, 90.0)
