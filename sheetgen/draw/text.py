"""Runs of text as paragraphs: nothing in a text is markup, nothing runs out of its column."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from sheetgen.draw.fonts import font_name, printable, register_family, text_width
from sheetgen.draw.scale import POINTS
from sheetgen.layout.blocks import Run, Runs


@dataclass(frozen=True, slots=True)
class Styles:
    """The paragraph styles of a sheet, all from the size of its body text in points."""

    body: Any
    strong: Any
    small: Any
    caption: Any
    part: Any
    section: Any
    air: float = 1.0
    """Share of the usual room around drawings."""

    @classmethod
    def of(cls, size: float, close: bool = False) -> Styles:
        """Leading is 1.3 of the size; headings are 1.3 and 1.1 of it (common practice).

        Where all must go onto few pages, lines stand ``close``: 1.2 of the size.
        """
        register_family()
        lead, gap = (1.2, 0.4) if close else (1.3, 1.0)
        return cls(
            body=style("body", size, lead * size, below=2.0 * gap),
            strong=style("strong", size, lead * size, bold=True),
            small=style("small", 0.85 * size, 1.1 * size, below=2.0),
            caption=style("caption", 0.9 * size, 1.18 * size),
            part=heading("part", 1.3 * size, 7.0 * gap, 2.5 * gap),
            section=heading("section", 1.1 * size, 4.5 * gap, 1.8 * gap),
            air=gap,
        )


def heading(name: str, size: float, above: float, below: float) -> Any:
    """The style of a heading: size in points, the room above and below in mm."""
    return style(name, size, 1.25 * size, above=above, below=below, bold=True)


def style(
    name: str,
    size: float,
    leading: float,
    *,
    above: float = 0.0,
    below: float = 0.0,
    bold: bool = False,
) -> Any:
    """A paragraph style: size and leading in points, the room above and below in mm."""
    return ParagraphStyle(
        name,
        fontName=font_name(bold),
        fontSize=size,
        leading=leading,
        spaceBefore=above * POINTS,
        spaceAfter=below * POINTS,
        # A paragraph is never parted so that one line stands alone.
        allowWidows=0,
        allowOrphans=0,
        splitLongWords=1,
        embeddedHyphenation=1,
        spaceShrinkage=0,  # it lets lines stand out of their column
        # Its default is a font that could not be embedded.
        bulletFontName=font_name(bold=False),
    )


def flush_right(base: Any) -> Any:
    """The same style for a column of figures."""
    return ParagraphStyle(f"{base.name}-right", parent=base, alignment=TA_RIGHT)


class Text(Paragraph):
    """A paragraph that does not break its lines again for the width that it has just had.

    Tables and frames ask twice, which otherwise takes a tenth of the time of a sheet.
    """

    _had: tuple[float, tuple[float, float]] | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Width and height, points; the height of the frame does not matter to it."""
        if self._had is None or self._had[0] != width or not hasattr(self, "blPara"):
            self._had = width, super().wrap(width, height)
        return self._had[1]


def paragraph(runs: Runs, paragraph_style: Any, kind: type[Text] = Text) -> Text:
    """A paragraph; an empty text has no height.

    It is given its fragments, so that no text is ever looked through for markup.
    """
    return kind("", paragraph_style, frags=list(_fragments(runs, paragraph_style)))


def _fragments(runs: Runs, paragraph_style: Any) -> Iterator[Any]:
    """Stretches of one weight, and the line ends that are in a text."""
    regular, bold = _faces(paragraph_style)
    for run, text in _texts(runs):
        for position, line in enumerate(text.split("\n")):
            if position:
                yield regular.clone(lineBreak=True, text="")
            if line:
                yield (bold if run.bold else regular).clone(text=printable(line))


@lru_cache(maxsize=64)
def _faces(paragraph_style: Any) -> tuple[Any, Any]:
    """A fragment in the regular and one in the bold face of a style."""
    regular, bold = Paragraph("a<b>b</b>", paragraph_style).frags
    return regular, bold


def shortened(text: str, size_pt: float, bold: bool, width: float) -> str:
    """``text`` if it fits into ``width`` mm, else its beginning and an ellipsis."""
    text = printable(text)
    if text_width(text, size_pt, bold) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if text_width(text[:middle].rstrip() + "…", size_pt, bold) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def _texts(runs: Runs) -> Iterator[tuple[Run, str]]:
    for position, run in enumerate(runs):
        text = run.text.replace("\r\n", "\n")
        # A folded text often ends in a line end that means nothing.
        yield run, text.rstrip("\n") if position == len(runs) - 1 else text
