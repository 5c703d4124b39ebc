"""What a sheet is made of: a Document of blocks in reading order.

Text is carried as runs, never as markup, so that whatever a user wrote is printed as it is.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from sheetgen.diagnostics import Diagnostic
from sheetgen.layout.paper import Paper
from sheetgen.layout.shapes import Picture


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text in one weight."""

    text: str
    bold: bool = False


Runs = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 is a part of the sheet and a bookmark, level 2 stands inside one."""

    text: str
    level: Literal[1, 2] = 1


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph. ``small`` is for sources and remarks (never below 8.5 pt)."""

    runs: Runs
    small: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """A line with a tick box of 5 mm, and a number if it must be found again."""

    runs: Runs
    number: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells. ``widths`` are shares of the frame's width and sum to 1.

    ``ticked`` puts a 5 mm box before every row (its width is taken from the first column);
    ``right`` lists the columns that are set flush right. The head repeats after a page break.
    With ``to_write`` every row is high enough for a pencil, 9 mm at the least.
    """

    head: tuple[Runs, ...]
    rows: tuple[tuple[Runs, ...], ...]
    widths: tuple[float, ...]
    ticked: bool = False
    right: tuple[int, ...] = ()
    to_write: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture with an optional caption below it, kept together.

    ``close`` leaves only 1 mm before the next close figure, for rows that belong together.
    """

    picture: Picture
    caption: Runs = ()
    close: bool = False


@dataclass(frozen=True, slots=True)
class SideBySide:
    """A picture with blocks to the right of it, tops level, never split.

    The blocks get the width that the picture and ``gap`` (mm) leave.
    """

    picture: Picture
    blocks: tuple[Block, ...]
    gap: float = 6.0


@dataclass(frozen=True, slots=True)
class Boxed:
    """Blocks in a frame with an optional bold title: cautions, interventions. Never split."""

    blocks: tuple[Block, ...]
    title: str = ""
    heavy: bool = False


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that stay on one page if they fit on one."""

    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class WritingLines:
    """Empty lines to write on, 9 mm apart."""

    count: int


@dataclass(frozen=True, slots=True)
class Space:
    """Empty height, mm."""

    height: float


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows starts on a new page (nothing happens at the top of an empty one)."""


@dataclass(frozen=True, slots=True)
class NeedRoom:
    """What follows starts on a new page unless ``height`` mm are left on this one."""

    height: float


Block = (
    Heading
    | Para
    | Step
    | Table
    | Figure
    | SideBySide
    | Boxed
    | Together
    | WritingLines
    | Space
    | PageBreak
    | NeedRoom
)


@dataclass(frozen=True, slots=True)
class Document:
    """A whole sheet, ready to be drawn.

    ``header`` stands at the top left of every page, ``version`` beside the page number.
    ``page_of`` has the fields {page} and {pages}. ``scale_sentence`` stands beside the 100 mm bar
    on each page that has something at true scale; ``print_sentence`` on every page's foot.
    ``text_size`` is that of the body text in points, which all others follow (13 for large print).
    Pictures at true scale and the bars are drawn ``1 / printer_factor`` as large; where that is not
    1, ``factor_sentence`` says so and ``uncorrected`` names the bar that is not.
    ``columns`` stand side by side, each as wide as :meth:`Paper.column`; a block keeps to one.
    ``most_pages`` is how many it may take, if limited; where it takes more, it is set in
    ``smaller_text`` (points) if that is given, and else ``too_much`` says of what there is too
    much, and ``cure`` where that is changed. ``told`` is worth knowing of it.
    """

    title: str
    sheet: str
    header: str
    version: str
    paper: Paper
    blocks: tuple[Block, ...]
    page_of: str
    scale_sentence: str
    print_sentence: str
    author: str = ""
    subject: str = ""
    language: str = "en-GB"
    date: str | None = None
    keywords: tuple[str, ...] = field(default=())
    text_size: float = 10.0
    printer_factor: float = 1.0
    factor_sentence: str = ""
    uncorrected: str = ""
    columns: int = 1
    most_pages: int | None = None
    smaller_text: float | None = None
    too_much: str = ""
    cure: str = ""
    told: tuple[Diagnostic, ...] = ()
