import pytest

from sheetgen.layout.outline import bead_outline, ruler
from sheetgen.layout.shapes import Circle, Line, Path, Rect, Shape


def extent(shape: Shape) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of an outline; curves walked in 400 steps (geometry)."""
    if isinstance(shape, Circle):
        return shape.cx - shape.r, shape.cy - shape.r, shape.cx + shape.r, shape.cy + shape.r
    if isinstance(shape, Rect):
        return shape.x, shape.y, shape.x + shape.w, shape.y + shape.h
    assert isinstance(shape, Path)
    points: list[tuple[float, float]] = []
    for pen, *rest in shape.moves:
        n = [float(v) for v in rest]
        if pen in ("M", "L"):
            points.append((n[0], n[1]))
        elif pen == "C":
            x0, y0 = points[-1]
            for i in range(1, 401):
                t = i / 400
                u = 1 - t
                points.append(tuple(
                    u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * d
                    for a, b, c, d in ((x0, n[0], n[2], n[4]), (y0, n[1], n[3], n[5]))
                ))  # fmt: skip
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("shape", ["round", "barrel", "cylinder", "ring", "disc"])
@pytest.mark.parametrize(("length", "diameter"), [(10, 10), (5, 9), (14, 6), (2, 12)])
def test_outline_is_as_large_as_the_bead(shape: str, length: float, diameter: float):
    left, top, right, bottom = extent(bead_outline(shape, 3.0, 20.0, length, diameter))
    assert (left, right) == pytest.approx((3.0, 3.0 + length), abs=0.01)
    assert (top, bottom) == pytest.approx((20.0 - diameter / 2, 20.0 + diameter / 2), abs=0.01)


def test_rulers_run_on_from_row_to_row():
    ticks = [s for s in ruler(9.0, 0.0, 163.5, 50.0, False) if isinstance(s, Line) and s.x1 == s.x2]
    # geometry: the first whole millimetre after 163.5 lies 0.5 mm into the row
    assert ticks[0].x1 == pytest.approx(9.5)
    inch = [s for s in ruler(0.0, 0.0, 0.0, 50.8, True) if isinstance(s, Line) and s.x1 == s.x2]
    # exact: 1 in = 25.4 mm, so 50.8 mm hold 17 ticks of an eighth
    assert len(inch) == 17
    assert inch[8].x1 == pytest.approx(25.4)
