"""Blocks into flowables: what platypus shares out over pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from reportlab.platypus import CondPageBreak, Spacer

from sheetgen.draw.boxes import (
    TICK,
    TICK_GAP,
    HeadingText,
    LayoutError,
    PictureBox,
    StepBox,
    WritingBox,
)
from sheetgen.draw.fonts import text_width
from sheetgen.draw.frames import PAD, BesideBox, FramedBox
from sheetgen.draw.scale import POINTS, millimetres
from sheetgen.draw.stack import FUZZ, Gap, Stack
from sheetgen.draw.tables import table_flowable
from sheetgen.draw.text import Styles, paragraph
from sheetgen.layout.blocks import (
    Block,
    Boxed,
    Figure,
    Heading,
    NeedRoom,
    PageBreak,
    Para,
    Run,
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
_BESIDE = 5.0
"""Less than so many mm a point of text size beside a picture, and it is put below instead."""
_CLOSE = 1.0
"""Between rows that belong together, mm."""
_EPS = 0.05
"""What may stick out without harm, mm: sums of rounded lengths never agree to the last digit."""


def story(
    blocks: Sequence[Block], width: float, height: float, styles: Styles, stretch: float = 1.0
) -> list[Any]:
    """The flowables for frames of ``width`` by ``height`` mm.

    Pictures at true scale are drawn ``stretch`` times as large.
    Raises LayoutError for a picture that does not fit into one and a table that does not add up.
    """
    found = _Room(width, height * POINTS, styles, stretch, on_page=True).flowables(blocks)
    while found and isinstance(found[-1], Spacer):
        found.pop()  # a break at the end would make an empty page
    return found or [Spacer(0, 0)]


@dataclass(frozen=True, slots=True)
class _Room:
    """Where blocks are put: ``width`` in mm, ``page``, the height of an empty one, in points."""

    width: float
    page: float
    styles: Styles
    stretch: float = 1.0
    on_page: bool = False

    def flowables(self, blocks: Sequence[Block]) -> list[Any]:
        """A flowable for each block that has something to show."""
        indent = _step_indent(blocks, self.styles)
        made = [(block, self._flowable(block, indent)) for block in blocks]
        found = [(block, flowable) for block, flowable in made if flowable is not None]
        for (above, one), (below, other) in pairwise(found):
            if _is_close(above, -1) and _is_close(below, 0):
                one.spaceAfter = other.spaceBefore = _CLOSE * POINTS
        return [flowable for _, flowable in found]

    def _flowable(self, block: Block, indent: float) -> Any:
        match block:
            case Heading():
                return self._heading(block)
            case Para(runs, small):
                return paragraph(runs, self.styles.small if small else self.styles.body)
            case Step():
                return self._step(block, indent)
            case Table():
                return table_flowable(block, self.width, self.styles, self.page)
            case Figure():
                return self._figure(block)
            case SideBySide():
                return self._beside(block)
            case Boxed():
                return self._framed(block)
            case Together(blocks):
                inside = self.flowables(blocks)
                return Stack(inside, self.page, whole=True) if inside else None
            case WritingLines(count):
                return WritingBox(count) if count else None
            case Space(height):
                return Gap(0, height * POINTS)
            case PageBreak():
                return self._break(self.page)
            case NeedRoom(height):
                return self._break(height * POINTS)

    def _break(self, room: float) -> Any:
        """A new page unless there is ``room`` (points); inside a block there is none to be had."""
        return CondPageBreak(min(room, self.page - FUZZ)) if self.on_page else None

    def _heading(self, heading: Heading) -> Any:
        part = heading.level == 1
        style = self.styles.part if part else self.styles.section
        text = paragraph((Run(heading.text),), style, HeadingText)
        text.bookmark = heading.text if part else ""
        return text

    def _step(self, step: Step, indent: float) -> Any:
        number = paragraph((Run(step.number),), self.styles.strong) if step.number else None
        return StepBox(paragraph(step.runs, self.styles.body), number, indent, self.page)

    def _picture(self, picture: Picture) -> PictureBox:
        name = f"picture {picture.name or 'without a name'!r}"
        box = PictureBox(picture, self.stretch)
        width, height = millimetres(box.width), millimetres(box.height)
        room = millimetres(self.page)
        if width > self.width + _EPS:
            raise LayoutError(
                f"{name} is {width:.2f} mm wide, there is room for {self.width:.2f} mm"
            )
        if height > room + _EPS:
            raise LayoutError(f"{name} is {height:.2f} mm high, a page has {room:.2f} mm")
        return box

    def _figure(self, figure: Figure) -> Any:
        found: Any = self._picture(figure.picture)
        if figure.caption:
            found.spaceAfter = 1.5 * POINTS
            caption = paragraph(figure.caption, self.styles.caption)
            found = Stack((found, caption), self.page, whole=True)
        air = self.styles.air * POINTS
        found.spaceBefore, found.spaceAfter = 2.0 * air, 4.0 * air
        return found

    def _beside(self, block: SideBySide) -> Any:
        picture = self._picture(block.picture)
        indent = millimetres(picture.width) + block.gap
        left = self.width - indent
        if left < _NARROWEST:
            name = block.picture.name or "without a name"
            raise LayoutError(f"picture {name!r} leaves {left:.1f} mm for what is beside it")
        if left < _BESIDE * self.styles.body.fontSize and self.styles.body.fontSize > 11:
            return self._below(picture, block)
        inside = _Room(left, self.page, self.styles, self.stretch).flowables(block.blocks)
        return BesideBox(picture, Stack(inside, self.page), indent, self.page)

    def _below(self, picture: PictureBox, block: SideBySide) -> Any:
        """Large print needs the whole width where a picture leaves little."""
        room = _Room(self.width, self.page, self.styles, self.stretch)
        picture.spaceBefore, picture.spaceAfter = 2.0 * POINTS, 2.0 * POINTS
        return Stack((picture, *room.flowables(block.blocks)), self.page, whole=True)

    def _framed(self, block: Boxed) -> Any:
        page = self.page - 2 * PAD * POINTS
        room = _Room(self.width - 2 * PAD, page, self.styles, self.stretch)
        inside = room.flowables(block.blocks)
        if block.title:
            title = paragraph((Run(block.title),), self.styles.section, HeadingText)
            inside.insert(0, title)
        return FramedBox(Stack(inside, room.page), block.heavy, self.page)


def _step_indent(blocks: Sequence[Block], styles: Styles) -> float:
    """Where the texts of all steps start: beyond the box and the widest number among them."""
    numbers = [block.number for block in blocks if isinstance(block, Step) and block.number]
    widest = max((text_width(n, styles.body.fontSize, True) for n in numbers), default=0.0)
    return TICK + TICK_GAP + (widest + TICK_GAP if widest else 0.0)


def _is_close(block: Block, end: int) -> bool:
    """Whether a block begins (0) or ends (-1) with a row that belongs with others."""
    if isinstance(block, Together) and block.blocks:
        return _is_close(block.blocks[end], end)
    return isinstance(block, Figure) and block.close
