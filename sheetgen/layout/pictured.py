"""Pictured: takes the plan and its photographs, gives them in frames, or frames to paste into."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Figure, Heading, Para, Run, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.shapes import Line, Photo, Picture, Rect, Shape, Text
from sheetgen.layout.words import Words, plain
from sheetgen.model.made import Photograph

FRAME = 0.36
"""Height of the frame of a photograph as a part of the page's: two go on a page, with captions."""
DRAWING = 0.36
EMPTY = 2
"""Frames to paste into."""
_LINE = 0.25
_TICK = 10.0


def photo_frame(width: float, height: float) -> tuple[float, float]:
    """The box that a photograph is fitted into, mm, for a page's frame of that size.

    >>> photo_frame(184.0, 250.0)
    (184.0, 90.0)
    """
    return width, FRAME * height


def photographed(desk: Desk) -> Iterator[Block]:
    """Each photograph with its number and caption; empty frames where there is none."""
    words, made = desk.words("photographs"), desk.plan.project.made
    first: list[Block] = [Heading(words.heading)]
    pictures = made.photographs if made else ()
    figures = [_captioned(desk, words, n, each) for n, each in enumerate(pictures, start=1)]
    if not pictures:
        first.append(Para(words.runs("paste"), small=True))
        numbers = (str(number) for number in range(1, EMPTY + 1))
        figures = [Figure(_empty(desk, words.text("empty", number=n))) for n in numbers]
    yield Together((*first, figures[0]))
    yield from figures[1:]


def _captioned(desk: Desk, words: Words, number: int, photograph: Photograph) -> Figure:
    caption = words.runs("photograph", number=str(number))
    if photograph.caption:
        caption = (*caption, *plain(f" {photograph.caption}"))
    return Figure(_picture(desk, words, photograph.file), (*caption, Run(f" ({photograph.file})")))


def _picture(desk: Desk, words: Words, file: str) -> Picture:
    """The photograph as large as the frame lets it be, a thin line round it."""
    raster = desk.photographs.get(file)
    if raster is None:
        return _empty(desk, words.text("not at hand", file=file))
    wide, high = photo_frame(desk.width, desk.height)
    scale = min(wide / raster.width, high / raster.height)
    w, h = raster.width * scale, raster.height * scale
    edge = Rect(0, 0, w, h, 0.15)
    return Picture(w, h, (Photo(0, 0, w, h, raster), edge), name=f"photograph {file}")


def _empty(desk: Desk, told: str) -> Picture:
    wide, high = photo_frame(desk.width, desk.height)
    lines = desk.broken(told, 9.0, False, wide - 6)
    texts = tuple(Text(3, 5 + 4 * i, line, 9.0) for i, line in enumerate(lines))
    rim = Rect(0.2, 0.2, wide - 0.4, high - 0.4, _LINE, dash=(2.0, 1.5))
    return Picture(wide, high, (rim, *texts), name="empty frame")


def drawing(desk: Desk) -> Iterator[Block]:
    """Room for a drawing, with a tick every 10 mm along two sides."""
    words = desk.words("drawing")
    wide, high = desk.width, DRAWING * desk.height
    shapes: list[Shape] = [Rect(0.2, 0.2, wide - 0.4, high - 0.4, _LINE)]
    shapes += [Line(_TICK * i, 0, _TICK * i, 2, 0.15) for i in range(1, int(wide / _TICK) + 1)]
    shapes += [Line(0, _TICK * i, 2, _TICK * i, 0.15) for i in range(1, int(high / _TICK) + 1)]
    picture = Picture(wide, high, tuple(shapes), true_scale=True, name="room for a drawing")
    yield Heading(words.heading)
    yield Figure(picture, words.runs("caption"))
