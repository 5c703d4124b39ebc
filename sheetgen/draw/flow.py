"""Blocks into boxes: every block of a Document gets its size here, for a width that is known."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sheetgen.draw.boxes import (
    EPS,
    TICK,
    TICK_GAP,
    Box,
    HeadingBox,
    LayoutError,
    PictureBox,
    StepBox,
    TextBox,
    WritingBox,
)
from sheetgen.draw.fonts import text_width
from sheetgen.draw.frames import PAD as FRAME_PAD
from sheetgen.draw.frames import BesideBox, FramedBox
from sheetgen.draw.stack import BreakBox, SpaceBox, Stack
from sheetgen.draw.tables import Row, TableBox, column_places
from sheetgen.draw.text import Setting, set_lines
from sheetgen.layout.blocks import (
    Block,
    Boxed,
    Figure,
    Heading,
    NeedRoom,
    PageBreak,
    Para,
    Run,
    Runs,
    SideBySide,
    Space,
    Step,
    Table,
    Together,
    WritingLines,
)
from sheetgen.layout.shapes import Picture

_NARROWEST = 15.0
"""Less than this beside a picture is a mistake: hardly a word goes in, mm."""


@dataclass(frozen=True, slots=True)
class Style:
    """The settings of a sheet, all from the size of its body text in points."""

    body: Setting
    small: Setting
    caption: Setting
    part: Setting
    section: Setting

    @classmethod
    def of(cls, size: float) -> Style:
        """Leading is 1.3 of the size; headings are 1.3 and 1.1 of it (common practice)."""
        return cls(
            body=Setting(size, 1.3 * size),
            small=Setting(0.85 * size, 1.1 * size),
            caption=Setting(0.9 * size, 1.18 * size),
            part=Setting(1.3 * size, 1.6 * size, bold=True),
            section=Setting(1.1 * size, 1.4 * size, bold=True),
        )


def boxes_of(blocks: Iterable[Block], width: float, style: Style) -> list[Box]:
    """A box for each block, made for ``width`` mm.

    Raises LayoutError for a picture that is wider than that and for a table that does not add up.
    """
    blocks = tuple(blocks)
    indent = _step_indent(blocks, style)
    return [_box_of(block, width, style, indent) for block in blocks]


def _box_of(block: Block, width: float, style: Style, indent: float) -> Box:
    match block:
        case Heading():
            return _heading(block, width, style)
        case Para(runs, small):
            return _text(runs, style.small if small else style.body, width, below=2.0)
        case Step():
            return _step(block, width, style, indent)
        case Table():
            return _table(block, width, style)
        case Figure():
            return _figure(block, width, style)
        case SideBySide():
            return _beside(block, width, style)
        case Boxed():
            return _framed(block, width, style)
        case Together(blocks):
            return Stack(boxes_of(blocks, width, style), together=True)
        case WritingLines(count):
            return _spaced(WritingBox(count, width), 0.0, 4.0)
        case Space(height):
            return SpaceBox(height)
        case PageBreak():
            return BreakBox()
        case NeedRoom(height):
            return BreakBox(height)


def _spaced(box: Box, above: float, below: float) -> Box:
    box.above, box.below = above, below
    return box


def _text(
    runs: Runs, setting: Setting, width: float, *, below: float = 0.0, right: bool = False
) -> TextBox:
    box = TextBox(set_lines(runs, setting, width), setting, width if right else None)
    box.below = below
    return box


def _heading(heading: Heading, width: float, style: Style) -> Box:
    part = heading.level == 1
    setting = style.part if part else style.section
    lines = set_lines((Run(heading.text),), setting, width)
    box = HeadingBox(lines, setting, heading.text if part else None)
    return _spaced(box, 7.0 if part else 4.5, 2.5 if part else 1.8)


def _step_indent(blocks: tuple[Block, ...], style: Style) -> float:
    """Where the texts of all steps start: beyond the box and the widest number among them."""
    numbers = [block.number for block in blocks if isinstance(block, Step) and block.number]
    widest = max((text_width(n, style.body.size, True) for n in numbers), default=0.0)
    return TICK + TICK_GAP + (widest + TICK_GAP if widest else 0.0)


def _step(step: Step, width: float, style: Style, indent: float) -> Box:
    number = None
    if step.number:
        number = _text((Run(step.number, bold=True),), style.body, indent - TICK - TICK_GAP)
    return StepBox(_text(step.runs, style.body, width - indent), number, indent)


def _table(table: Table, width: float, style: Style) -> Box:
    for row in (*([table.head] if table.head else []), *table.rows):
        if len(row) != len(table.widths):
            raise LayoutError(f"a row of {len(row)} cells in a table of {len(table.widths)}")
    columns = column_places(table.widths, width, table.ticked)

    def row_of(cells: tuple[Runs, ...], setting: Setting, ticked: bool) -> Row:
        texts = [
            _text(cell, setting, columns[i][1], right=i in table.right)
            for i, cell in enumerate(cells)
        ]
        return Row(texts, ticked)

    bold = Setting(style.body.size, style.body.leading, bold=True)
    head = row_of(table.head, bold, False) if table.head else None
    rows = [row_of(cells, style.body, table.ticked) for cells in table.rows]
    return TableBox(head, rows, width, [left for left, _ in columns])


def _checked(picture: Picture, width: float) -> Picture:
    if picture.width > width + EPS:
        name = picture.name or "without a name"
        raise LayoutError(
            f"picture {name!r} is {picture.width:.2f} mm wide, there is room for {width:.2f} mm"
        )
    return picture


def _figure(figure: Figure, width: float, style: Style) -> Box:
    caption = _text(figure.caption, style.caption, width) if figure.caption else None
    return _spaced(PictureBox(_checked(figure.picture, width), caption), 2.0, 4.0)


def _beside(block: SideBySide, width: float, style: Style) -> Box:
    indent = _checked(block.picture, width).width + block.gap
    if width - indent < _NARROWEST:
        name = block.picture.name or "without a name"
        raise LayoutError(f"picture {name!r} leaves {width - indent:.1f} mm for what is beside it")
    return BesideBox(block.picture, Stack(boxes_of(block.blocks, width - indent, style)), indent)


def _framed(block: Boxed, width: float, style: Style) -> Box:
    inner = width - 2 * FRAME_PAD
    inside = boxes_of(block.blocks, inner, style)
    if block.title:
        lines = set_lines((Run(block.title),), style.section, inner)
        inside.insert(0, _spaced(HeadingBox(lines, style.section, None), 0.0, 1.5))
    return FramedBox(Stack(inside), width, block.heavy)
