"""Boxes below one another, and how they are shared out over pages."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from sheetgen.draw.boxes import EPS, Box, LayoutError
from sheetgen.draw.pen import Pen


class SpaceBox(Box):
    """Empty height; it falls away where a page ends."""

    def __init__(self, height: float) -> None:
        self.height = height

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw nothing."""

    def least(self, page: float) -> float:
        """None: what does not fit is not missed."""
        return 0.0

    def split(self, room: float, page: float) -> tuple[Box, Box] | None:
        """What there is room for, and nothing."""
        return SpaceBox(max(0.0, room)), SpaceBox(0.0)


class BreakBox(Box):
    """What follows starts a new page unless ``needs`` mm are left on this one."""

    def __init__(self, needs: float = math.inf) -> None:
        self.needs = needs

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw nothing."""


class Stack(Box):
    """Boxes below one another; ``together`` ones stay on one page if they fit on one."""

    def __init__(self, boxes: Sequence[Box], together: bool = False) -> None:
        self._boxes = tuple(boxes)
        self._together = together
        self.true_scale = any(box.true_scale for box in self._boxes)
        places = list(_places(self._boxes))
        self.height = places[-1] + self._boxes[-1].height if places else 0.0
        solid = [box for box in self._boxes if not isinstance(box, BreakBox)]
        if solid:
            self.above, self.below = solid[0].above, solid[-1].below

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw with the top left corner at (x, y)."""
        for box, place in zip(self._boxes, _places(self._boxes), strict=True):
            box.draw(pen, x, y + place)

    def least(self, page: float) -> float:
        """All of it if it stays together, else its headings and the first part after them."""
        if self._together and self.height <= page + EPS:
            return self.height
        return _least(self._boxes, page)

    def split(self, room: float, page: float) -> tuple[Stack, Stack] | None:
        """Share the boxes out over the foot of the page."""
        if self._together and self.height <= page + EPS:
            return None
        placed, rest = _fill(self._boxes, room, page)
        if not placed:
            return None
        return Stack(placed), Stack(rest)

    def is_empty(self) -> bool:
        """Whether there is nothing to draw."""
        return all(
            box.is_empty() if isinstance(box, Stack) else isinstance(box, SpaceBox | BreakBox)
            for box in self._boxes
        )

    def described(self) -> str:
        """Name the first box that is not a heading."""
        return next((b.described() for b in self._boxes if not b.keeps_next), super().described())


def paginate(boxes: Sequence[Box], page: float) -> list[Stack]:
    """Share ``boxes`` out over pages that are ``page`` mm high; at least one page.

    Raises LayoutError if a box is higher than a page and cannot be split.
    """
    pages: list[Stack] = []
    rest = Stack(boxes)
    while not rest.is_empty():
        parts = rest.split(page, page)
        if parts is None:
            raise LayoutError(f"{rest.described()} is higher than a page's {page:.1f} mm")
        first, rest = parts
        pages.append(first)
    return pages or [Stack(())]


def _places(boxes: Sequence[Box]) -> Iterator[float]:
    """Top of each box below the top of the first."""
    y, wish, started = 0.0, 0.0, False
    for box in boxes:
        if isinstance(box, BreakBox):
            yield y
            continue
        if started:
            y += max(wish, box.above)
        yield y
        y += box.height
        wish, started = box.below, True


def _fill(
    boxes: tuple[Box, ...], room: float, page: float
) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """The boxes that go into ``room``, and the others; the last one may be split between them."""
    y, wish = 0.0, 0.0
    placed: list[Box] = []
    for i, box in enumerate(boxes):
        left = room - y
        if isinstance(box, BreakBox):
            if placed and left + EPS < box.needs:
                return tuple(placed), boxes[i + 1 :]
            continue
        gap = max(wish, box.above) if placed else 0.0
        tied = placed and not placed[-1].keeps_next
        if tied and gap + _least(boxes[i:], page) > left + EPS:
            return tuple(placed), _opened(boxes[i:])
        if gap + box.height > left + EPS:
            return _parted(placed, boxes[i:], left - gap, page)
        placed.append(box)
        y += gap + box.height
        wish = box.below
    return tuple(placed), ()


def _parted(
    placed: list[Box], boxes: tuple[Box, ...], room: float, page: float
) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """Split the first of ``boxes`` over the foot of the page, or leave it for the next one."""
    alone = all(box.keeps_next for box in placed)
    # Behind a heading at the top of a page there is no better page to come: then what would fit
    # on an empty page is split too, rather than leave the heading alone.
    parts = boxes[0].split(room, room if placed and alone else page)
    if parts is None:
        while not alone and placed[-1].keeps_next:
            boxes = (placed.pop(), *boxes)
        return tuple(placed), _opened(boxes)
    return (*placed, parts[0]), _opened((parts[1], *boxes[1:]))


def _opened(boxes: tuple[Box, ...]) -> tuple[Box, ...]:
    """``boxes`` at the top of a new page: without empty height before them."""
    first = 0
    while first < len(boxes) and isinstance(boxes[first], SpaceBox):
        first += 1
    return boxes[first:]


def _least(boxes: Sequence[Box], page: float) -> float:
    """Height that must be free to start ``boxes``: headings, and the first part of what follows."""
    y, wish = 0.0, 0.0
    for box in boxes:
        if isinstance(box, BreakBox):
            continue
        y += max(wish, box.above) if y else 0.0
        if not box.keeps_next:
            return y + box.least(page)
        y += box.height
        wish = box.below
    return y
