import math

import pytest

from sheetgen.layout.key import hole_places


@pytest.mark.parametrize("holes", range(2, 9))
def test_forward_brings_the_letters_to_the_near_top_in_order(holes: int):
    """Geometry: seen from the weaver's right, away is to the right, so forward is clockwise."""
    places = hole_places(holes, 0.0, 0.0, 1.0)
    turn = 2 * math.pi / holes  # clockwise on paper, y down
    for i in range(1, holes):
        x, y = places[i]
        a = i * turn
        moved = (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))
        assert moved == pytest.approx(places[0])


@pytest.mark.parametrize("holes", [3, 4, 5, 6, 7, 8])
def test_hole_a_starts_at_the_near_top(holes: int):
    x, y = hole_places(holes, 0.0, 0.0, 1.0)[0]
    assert x < 0 > y
