"""Millimetres and points."""

from __future__ import annotations

POINTS = 72.0 / 25.4
"""Points in a millimetre, exactly (a point is 1/72 inch in PDF, an inch 25.4 mm)."""


def points(mm: float) -> float:
    """A length in points, to a thousandth (0.0004 mm): more digits only make the file larger."""
    return round(mm * POINTS, 3)


def millimetres(size_pt: float) -> float:
    """A text size or leading in mm."""
    return size_pt / POINTS
