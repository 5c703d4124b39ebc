"""Paper sizes and the room on them, mm, and how a sheet is to be printed.

ISO 216 for A4 and A5, ANSI/ASME Y14.1 size A for US Letter. Home printers leave up to 8.5 mm
unprinted, so nothing may lie within 10 mm of an edge, 13 mm at the foot.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

COLUMN_GAP = 6.0
"""Between columns, mm."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper: size, margins, and the heights kept for header and footer, all mm.

    ``binding`` is kept free beside the inner margin: at the left, and of ``two_sided`` sheets at
    the right on even pages, which are the backs of the odd ones.
    """

    name: str
    width: float
    height: float
    side: float = 13.0
    top: float = 11.0
    foot: float = 13.0
    header: float = 9.0
    footer: float = 13.0
    binding: float = 0.0
    two_sided: bool = False

    def is_back(self, page: int) -> bool:
        """Whether a page (from 1) is the back of another, with everything mirrored."""
        return self.two_sided and page % 2 == 0

    def left(self, page: int) -> float:
        """Where the frame of a page (from 1) starts."""
        return self.side if self.is_back(page) else self.side + self.binding

    def right(self, page: int) -> float:
        """Where it ends."""
        return self.left(page) + self.frame_width

    @property
    def frame_width(self) -> float:
        """Width that blocks may use."""
        return self.width - 2 * self.side - self.binding

    def column(self, columns: int) -> float:
        """Width of one of so many columns."""
        return (self.frame_width - COLUMN_GAP * (columns - 1)) / columns

    @property
    def frame_height(self) -> float:
        """Height that blocks may use."""
        return self.height - self.top - self.header - self.footer - self.foot


PAPERS = {
    paper.name: paper
    for paper in (
        Paper("A4", 210.0, 297.0),
        Paper("A5", 148.0, 210.0, side=11.0),
        Paper("Letter", 215.9, 279.4),
    )
}

LARGE_TEXT = 13.0
"""Body text of large print, points."""
MOST_BINDING = 20.0
"""Widest strip for a binding, mm: beside it the bar of 100 mm still goes onto A5."""
LEAST_FACTOR, MOST_FACTOR = 0.97, 1.03
"""Printer factors that a printer can have; what lies beyond is a page fitted to the paper."""


@dataclass(frozen=True, slots=True)
class Setting:
    """How a sheet is printed: body text of 13 points, as a booklet, by which printer.

    ``printer_factor`` is what the printer makes of 1 mm: 0.97 if 100 mm come out as 97 mm. All
    that is at true scale is drawn larger by ``1 / printer_factor``.
    """

    large: bool = False
    booklet: bool = False
    printer_factor: float = 1.0

    @property
    def text_size(self) -> float:
        """Size of the body text, points."""
        return LARGE_TEXT if self.large else 10.0

    def on(self, paper: Paper) -> Paper:
        """The paper with room for the header and footer that this setting needs."""
        header = paper.header + (2.0 if self.large else 0.0)
        footer = paper.footer + (2.2 if self.large else 0.0)
        if self.printer_factor != 1:
            footer += 12.0 if self.large else 9.8
        return replace(paper, header=header, footer=footer)

    def room(self, length: float) -> float:
        """How much of ``length`` mm of paper a drawing may use before the factor is applied."""
        return length * min(1.0, self.printer_factor)
