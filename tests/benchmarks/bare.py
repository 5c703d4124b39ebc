"""What a sheet costs at least: its canvas calls recorded once, made again on a bare canvas.

Recording wraps every public method of reportlab's canvas, text object and path object, and notes
the calls that come from outside of them. Making them again needs no engine, layout or platypus.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.pdfgen.textobject import PDFTextObject

from sheetgen.draw.fonts import register_family

Call = tuple[int, str, tuple[Any, ...], dict[str, Any], int | None]
"""Which object, which method, with what; the number of the object that it gave, if it is one."""

SKIPPED = {
    "save",
    "getpdfdata",
    "getPageNumber",
    "getAvailableFonts",
    "stringWidth",
    "hasForm",
    "absolutePosition",
}
"""Calls that ask, and the ends of the file, which the second drawing makes by itself."""


class Ref(int):
    """Stands for an object that an earlier call gave."""


@contextmanager
def recorded() -> Iterator[list[Call]]:
    """The calls made while the block lasts."""
    calls: list[Call] = []
    numbers: dict[int, int] = {}
    kept: list[object] = []
    depth = [0]

    def wrap(name: str, method: Callable[..., Any]) -> Callable[..., Any]:
        def call(self: Any, *args: Any, **kwargs: Any) -> Any:
            depth[0] += 1
            try:
                given = method(self, *args, **kwargs)
            finally:
                depth[0] -= 1
            if depth[0] == 0 and name not in SKIPPED:
                made = None
                if isinstance(given, PDFTextObject | PDFPathObject):
                    made = numbers[id(given)] = len(kept) + 1
                    kept.append(given)
                noted = tuple(Ref(numbers[id(a)]) if id(a) in numbers else a for a in args)
                calls.append((numbers.get(id(self), 0), name, noted, kwargs, made))
            return given

        return call

    changed = []
    for kind in (Canvas, PDFTextObject, PDFPathObject):
        for name, method in list(vars(kind).items()):
            if not name.startswith("_") and inspect.isfunction(method):
                changed.append((kind, name, method))
                setattr(kind, name, wrap(name, method))
    try:
        yield calls
    finally:
        for kind, name, method in changed:
            setattr(kind, name, method)


def drawn_again(calls: list[Call], size: tuple[float, float]) -> bytes:
    """A PDF by the same calls on a bare canvas; ``size`` of the page in points."""
    register_family()
    out = BytesIO()
    canvas = Canvas(out, pagesize=size, pageCompression=1, invariant=1)
    objects: dict[int, Any] = {0: canvas}
    for number, name, args, kwargs, made in calls:
        real = tuple(objects[int(a)] if isinstance(a, Ref) else a for a in args)
        given = getattr(objects[number], name)(*real, **kwargs)
        if made is not None:
            objects[made] = given
    canvas.save()
    return out.getvalue()
