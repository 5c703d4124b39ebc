"""Outlines at true scale: takes sizes in mm, gives the shapes of beads, cord, knot and rulers."""

from __future__ import annotations

from sheetgen.layout.shapes import Circle, Fill, Line, Path, Rect, Shape, Text

BEAD_FILL = Fill("#ffffff")
CORD_FILL = Fill("#d9d9d9")
MM_PER_INCH = 25.4


def bead_outline(
    shape: str, x: float, middle: float, length: float, diameter: float, line: float = 0.3
) -> Shape:
    """One bead from ``x`` along the string, its axis at height ``middle``; outline on the size.

    The outline's centre line is the bead's own size, so that it measures right on paper.
    """
    top, half = middle - diameter / 2, diameter / 2
    if shape == "round" and abs(length - diameter) < 0.01:
        return Circle(x + half, middle, half, line, BEAD_FILL)
    if shape in ("cylinder", "disc", "ring"):
        corner = min(length, diameter) * (0.08 if shape == "cylinder" else 0.35)
        return Rect(x, top, length, diameter, line, BEAD_FILL, corner)
    if shape == "barrel":
        return _barrel(x, top, length, diameter, line)
    return _ellipse(x, top, length, diameter, line)


def _ellipse(x: float, y: float, w: float, h: float, line: float) -> Path:
    """An ellipse of four curves (control points at 0.5523 of the half axes)."""
    a, b, k = w / 2, h / 2, 0.5523
    cx, cy = x + a, y + b
    return Path(
        (
            ("M", x, cy),
            ("C", x, cy - k * b, cx - k * a, y, cx, y),
            ("C", cx + k * a, y, x + w, cy - k * b, x + w, cy),
            ("C", x + w, cy + k * b, cx + k * a, y + h, cx, y + h),
            ("C", cx - k * a, y + h, x, cy + k * b, x, cy),
            ("Z",),
        ),
        line,
        BEAD_FILL,
    )


def _barrel(x: float, y: float, w: float, h: float, line: float) -> Path:
    """Flat ends of 0.7 of the diameter, bulging to the full diameter in the middle."""
    inset = h * 0.15
    control = inset - (inset) * 4 / 3  # a cubic's middle lies 3/4 of the way to its control points
    return Path(
        (
            ("M", x, y + inset),
            ("C", x + w / 3, y + control, x + 2 * w / 3, y + control, x + w, y + inset),
            ("L", x + w, y + h - inset),
            ("C", x + 2 * w / 3, y + h - control, x + w / 3, y + h - control, x, y + h - inset),
            ("Z",),
        ),
        line,
        BEAD_FILL,
    )


def cord(x: float, middle: float, length: float, thickness: float) -> list[Shape]:
    """A stretch of cord, grey between two lines."""
    top, bottom = middle - thickness / 2, middle + thickness / 2
    return [
        Rect(x, top, length, thickness, 0, CORD_FILL),
        Line(x, top, x + length, top, 0.15),
        Line(x, bottom, x + length, bottom, 0.15),
    ]


def knot(x: float, middle: float, length: float, thickness: float) -> list[Shape]:
    """A knot: a lump half as thick again as the cord, crossed once."""
    height = max(thickness * 1.6, 1.2)
    return [
        Rect(x, middle - height / 2, length, height, 0.3, CORD_FILL, min(length, height) / 2.5),
        Line(x + length * 0.2, middle + height / 2, x + length * 0.8, middle - height / 2, 0.25),
    ]


def ruler(x: float, y: float, start: float, length: float, inches: bool) -> list[Shape]:
    """A ruler below ``y`` for the stretch from ``start`` along something, ``length`` mm long.

    Millimetre ticks and a number every centimetre; with ``inches`` eighths of an inch instead.
    """
    step = MM_PER_INCH / 8 if inches else 1.0
    major, half = (8, 4) if inches else (10, 5)
    shapes: list[Shape] = [Line(x, y, x + length, y, 0.2)]
    first = int(-(-start // step))
    tick = first
    while tick * step <= start + length + 1e-6:
        at = x + tick * step - start
        tall = 3.0 if tick % major == 0 else 2.2 if tick % half == 0 else 1.3
        shapes.append(Line(at, y, at, y + tall, 0.2 if tick % major == 0 else 0.12))
        if tick % major == 0:
            number = tick // major if inches else tick
            shapes.append(Text(at, y + 6.2, str(number), 7.5, "middle"))
        tick += 1
    return shapes
