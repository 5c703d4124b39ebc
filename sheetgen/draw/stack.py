"""Flowables below one another as one: kept together, with a heading, or inside something else.

Platypus' own KeepTogether claims to be endlessly high, so that it cannot stand in another
flowable or behind a heading; this one knows its height.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Flowable, Spacer

FUZZ = 1e-3
"""What does not count, points."""
ENDLESS = 1e7
"""Room for whatever there is, points."""


class Gap(Spacer):
    """Empty height; it falls away where a page ends."""

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """What there is room for; nothing at the top of a page."""
        frame = getattr(self, "_frame", None)
        return width, 0.0 if frame is not None and frame._atTop else min(self.height, room)

    def split(self, width: float, room: float) -> list[Any]:
        """What there is room for, and nothing."""
        return [Gap(0, room), Gap(0, 0)]


class Stack(Flowable):
    """Flowables below one another; of two neighbours' wishes for room the larger counts.

    A ``whole`` one is parted only if it is higher than ``page``, the height of an empty page in
    points. What ``opens`` something is never parted from the first piece of what follows.
    """

    def __init__(self, content: Sequence[Any], page: float, whole: bool = False) -> None:
        super().__init__()
        self._content = list(content)
        while self._content and isinstance(self._content[-1], Gap):
            self._content.pop()  # empty room at the end would only part what else fits a page
        self._whole = whole
        self.page = page
        self.spaceBefore = content[0].getSpaceBefore() if content else 0.0
        self.spaceAfter = content[-1].getSpaceAfter() if content else 0.0

    def wrap(self, width: float, room: float) -> tuple[float, float]:
        """Measure everything, and find everything's place."""
        self._tops, y, wish = [], 0.0, 0.0
        for i, flowable in enumerate(self._content):
            _, height = flowable.wrapOn(self.canv, width, ENDLESS)
            y += max(wish, flowable.getSpaceBefore()) if i else 0.0
            self._tops.append((y, height))
            y += height
            wish = flowable.getSpaceAfter()
        self.width, self.height = width, y
        return width, y

    def draw(self) -> None:
        """Draw one below the other."""
        for flowable, (top, height) in zip(self._content, self._tops, strict=True):
            flowable.drawOn(self.canv, 0.0, self.height - top - height)

    def split(self, width: float, room: float) -> list[Any]:
        """A first part and the rest, of which the frame takes care; nothing if it may not be."""
        self.wrap(width, room)
        if self._whole and self.height <= self.page + FUZZ:
            return []
        ends = [top + height for top, height in self._tops]
        last = next((i for i, end in enumerate(ends) if end > room), len(ends))
        if last == len(ends):
            return [self]
        parts = self._parted(last, width, room)
        if parts:
            return [
                self._first([*self._content[:last], parts[0]]),
                *parts[1:],
                *self._rest(last + 1),
            ]
        cut = last
        while cut and _opens(self._content[cut - 1]):
            cut -= 1
        if not cut and room >= self.page - FUZZ:
            cut = last  # no page to come has more room
        return [self._first(self._content[:cut]), *self._rest(cut)] if cut else []

    def _parted(self, which: int, width: float, room: float) -> list[Any]:
        """The parts of one of the flowables at the foot of the page, if it can be parted."""
        flowable = self._content[which]
        left = room - self._tops[which][0]
        if left <= 0:
            return []
        parts = flowable.splitOn(self.canv, width, left)
        if len(parts) < 2 and self._is_stuck(which, room) and hasattr(flowable, "page"):
            # Behind a heading at the top of a page there is no better page to come: then what
            # would fit on an empty page is parted too, rather than leave the heading alone.
            flowable.page = left
            flowable.wrapOn(self.canv, width, ENDLESS)
            parts = flowable.splitOn(self.canv, width, left)
        return parts if len(parts) > 1 else []

    def _is_stuck(self, which: int, room: float) -> bool:
        before = self._content[:which]
        return bool(before) and all(map(_opens, before)) and room >= self.page - FUZZ

    def _first(self, content: list[Any]) -> Stack:
        return Stack(content, self.page)

    def _rest(self, start: int) -> list[Any]:
        rest = self._content[start:]
        while rest and isinstance(rest[0], Gap):
            rest = rest[1:]
        return rest


def _opens(flowable: Any) -> bool:
    return bool(getattr(flowable, "opens", False))
