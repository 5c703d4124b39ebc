"""Line and fill of a canvas, written only when they change."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sheetgen.draw.scale import points


class Ink:
    """What the canvas draws with at present; a new page starts with a new one."""

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._state: dict[str, object] = {}

    def paint(self, width: float, dash: tuple[float, ...], line: str, ground: str | None) -> None:
        """Be ready to outline (``width`` > 0) and to fill (``ground``); lengths in mm."""
        if width > 0:
            self.stroke(width, dash, line)
        if ground is not None:
            self.fill(ground)

    def stroke(self, width: float, dash: tuple[float, ...], colour: str) -> None:
        """Draw lines ``width`` mm wide, dashed by ``dash`` (mm on, mm off, ...)."""
        if self._changed("width", width):
            self._canvas.setLineWidth(points(width))
        if self._changed("dash", dash):
            self._canvas.setDash([points(d) for d in dash])
        if self._changed("line", colour):
            red, green, blue = _rgb(colour)
            # Grey as grey, so that a colour printer uses its black and not a mixture.
            if red == green == blue:
                self._canvas.setStrokeGray(red)
            else:
                self._canvas.setStrokeColorRGB(red, green, blue)

    def fill(self, colour: str) -> None:
        """Fill and write in ``colour``."""
        if self._changed("fill", colour):
            red, green, blue = _rgb(colour)
            if red == green == blue:
                self._canvas.setFillGray(red)
            else:
                self._canvas.setFillColorRGB(red, green, blue)

    @contextmanager
    def saved(self) -> Iterator[None]:
        """Afterwards everything is as it was, a clip and a shifted origin included."""
        state = dict(self._state)
        self._canvas.saveState()
        try:
            yield
        finally:
            self._canvas.restoreState()
            self._state = state

    def _changed(self, what: str, value: object) -> bool:
        if what in self._state and self._state[what] == value:
            return False
        self._state[what] = value
        return True


def _rgb(colour: str) -> tuple[float, float, float]:
    digits = colour.removeprefix("#")
    red, green, blue = (int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return red, green, blue
