"""Paper sizes and the room on them, mm.

ISO 216 for A4 and A5, ANSI/ASME Y14.1 size A for US Letter. Home printers leave up to 8.5 mm
unprinted, so nothing may lie within 10 mm of an edge, 13 mm at the foot.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper: size, margins, and the heights kept for header and footer, all mm."""

    name: str
    width: float
    height: float
    side: float = 13.0
    top: float = 11.0
    foot: float = 13.0
    header: float = 9.0
    footer: float = 13.0

    @property
    def frame_width(self) -> float:
        """Width that blocks may use."""
        return self.width - 2 * self.side

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
