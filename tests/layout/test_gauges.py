import pytest

from sheetgen.layout.gauges import gauge_sizes


@pytest.mark.parametrize(
    ("wanted", "predicted"), [(3.0, 1.62), (2.4, 2.3), (None, 0.9), (9.0, 1.0)]
)
def test_gauge_has_both_and_neighbours_on_either_side(wanted: float | None, predicted: float):
    sizes = gauge_sizes(wanted, predicted)
    marked = {predicted} | ({wanted} if wanted else set())
    assert marked <= set(sizes)
    assert sizes == sorted(sizes)
    assert min(sizes) < min(marked) < max(sizes) > max(marked)
    # neighbours stand at quarters of a millimetre
    assert all((4 * s) == pytest.approx(round(4 * s)) for s in sizes if s not in marked)
    assert 0 not in sizes
