"""Fills can be told apart without colour."""

from __future__ import annotations

import itertools

import numpy as np
import pypdfium2
import pytest

from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Figure
from sheetgen.layout.shapes import PATTERNS, Circle, Fill, Picture, Rect

DPI = 300


def _cells(data: bytes, size: float) -> list[np.ndarray]:
    """The cells' insides, without their outlines, as shares of black at 300 dpi."""
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=DPI / 72, grayscale=True)
    page = 1 - bitmap.to_numpy().reshape(bitmap.height, bitmap.width) / 255
    px, rim = DPI / 25.4, 0.3
    side = round((size - 2 * rim) * px)
    top = round((20 + rim) * px)
    lefts = [round((13 + i * size + rim) * px) for i in range(len(PATTERNS))]
    return [page[top : top + side, left : left + side] for left in lefts]


def _row(size: float) -> Picture:
    cells = tuple(
        Rect(i * size, 0.0, size, size, 0.2, Fill(None, pattern))
        for i, pattern in enumerate(PATTERNS)
    )
    return Picture(len(PATTERNS) * size, size, cells)


def _features(cell: np.ndarray) -> np.ndarray:
    """Darkness, and how much the cell changes along, across and on both diagonals."""
    steps = ((0, 3), (3, 0), (3, 3), (3, -3))
    changes = [np.abs(cell - np.roll(cell, step, axis=(0, 1))).mean() for step in steps]
    return np.array([cell.mean(), *changes])


@pytest.mark.parametrize("size", [4.0, 5.0, 8.0])
def test_every_two_patterns_differ_in_darkness_or_structure(sheet, size):
    cells = _cells(render(sheet(Figure(_row(size)))), size)
    features = [_features(cell) for cell in cells]
    for (a, one), (b, other) in itertools.combinations(zip(PATTERNS, features, strict=True), 2):
        # common practice: a step of a twentieth of full black is seen side by side
        assert np.abs(one - other).max() > 0.05, (a, b)


def test_plain_is_white_and_letters_stay_readable_on_solid(sheet):
    cells = dict(zip(PATTERNS, _cells(render(sheet(Figure(_row(5.0)))), 5.0), strict=True))
    assert cells["plain"].max() == 0.0  # geometry: nothing is drawn there
    grey = 1 - cells["solid"].mean()
    # published: WCAG 2 contrast of black on a grey, at least 7 to 1
    luminance = ((grey + 0.055) / 1.055) ** 2.4
    assert (luminance + 0.05) / 0.05 > 7


def test_lines_stay_inside_a_circle(sheet):
    circle = Circle(10.0, 10.0, 8.0, 0.0, Fill(None, "crossed"))
    data = render(sheet(Figure(Picture(20.0, 20.0, (circle,)))))
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=DPI / 72, grayscale=True)
    page = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 200
    px = DPI / 25.4
    rows, columns = np.nonzero(page[round(20 * px) : round(40 * px), : round(40 * px)])
    distance = np.hypot(columns / px - 23.0, rows / px - 10.0)
    assert rows.size
    assert distance.max() < 8.1  # geometry: radius 8 mm and one pixel


def test_equal_cells_are_stored_once(sheet):
    few = _row(5.0)
    many = Picture(
        150.0,
        200.0,
        tuple(
            Rect(i % 30 * 5.0, i // 30 * 5.0, 5.0, 5.0, 0.2, Fill("#eeddcc", PATTERNS[i % 10]))
            for i in range(1200)
        ),
    )
    grown = len(render(sheet(Figure(many)))) - len(render(sheet(Figure(few))))
    assert grown < 40_000  # geometry: 1200 outlines and placements, some 30 bytes each
