"""Cord and band: takes yarn diameters and ends, gives thickness, width and spacing, and back."""

from __future__ import annotations

import math
from collections.abc import Sequence

from sheetgen.plan.constants import CIRCLES_IN_CIRCLE, CORD_PACKING

MOST_TABLETS = 300
"""More are not offered for a find's thickness (the most that a description may have)."""


def radius_ratio(ends: int) -> float:
    """Radius of the circle round ``ends`` equal circles of radius 1, packed as well as is known.

    Source: E. Specht, table of 2014, up to 37; beyond it sqrt(N / 0.80), brought to the table's
    last value by a term that fades as 37 / N, so that there is no step. ValueError below 1.

    >>> radius_ratio(4)
    2.414214
    """
    if ends < 1:
        raise ValueError(f"a cord has at least one end, not {ends}")
    last = len(CIRCLES_IN_CIRCLE)
    if ends <= last:
        return CIRCLES_IN_CIRCLE[ends - 1]
    step = math.sqrt(last / CORD_PACKING.value) - CIRCLES_IN_CIRCLE[-1]
    return math.sqrt(ends / CORD_PACKING.value) - step * last / ends


def mean_diameter(diameters: Sequence[float]) -> float:
    """Diameter (mm) of the equal ends that fill as much area as these: root of the mean square.

    Geometry; holds while no end is more than about twice as thick as another. 0 for no ends.
    """
    if not diameters:
        return 0.0
    return math.sqrt(math.fsum(d * d for d in diameters) / len(diameters))


def cord_thickness(diameter: float, ends: int) -> float:
    """Diameter (mm) of ``ends`` ends of ``diameter`` mm pressed into a round cord: d R(N).

    >>> round(cord_thickness(0.40, 12), 2)
    1.61
    """
    return diameter * radius_ratio(ends)


def ends_for_thickness(thickness: float, diameter: float, most: int) -> int:
    """The number of ends, 1 to ``most``, whose cord comes nearest to ``thickness`` (mm)."""
    low, high = 1, most
    while high - low > 1:
        middle = (low + high) // 2
        if cord_thickness(diameter, middle) < thickness:
            low = middle
        else:
            high = middle
    return min((low, high), key=lambda n: abs(cord_thickness(diameter, n) - thickness))


def tablets_for_thickness(thickness: float, diameter: float, holes: int) -> int:
    """The number of tablets, 1 to :data:`MOST_TABLETS`, whose cord is nearest to ``thickness``.

    Both in mm; of two equally near the smaller.
    """
    near = ends_for_thickness(thickness, diameter, MOST_TABLETS * holes) // holes
    candidates = range(max(1, near - 1), min(near + 2, MOST_TABLETS) + 1)
    return min(candidates, key=lambda n: (abs(cord_thickness(diameter, n * holes) - thickness), n))


def helix_factor(radius: float, lead: float) -> float:
    """Path of a helix over its length along the axis: sqrt(1 + (2 pi r / lead)^2).

    ``radius`` of the path's centre line and ``lead`` (length of one turn) in the same unit.
    Geometry of a line wound on a cylinder.

    >>> round(helix_factor(1 / 3**0.5, 3.0), 4)
    1.5691
    """
    return math.sqrt(1 + (2 * math.pi * radius / lead) ** 2)


def helix_radius(diameter: float, ends: int) -> float:
    """How far (mm) a thread lies from the middle of its tablet's cord: (R(ends) - 1) d / 2.

    Holds for threads of one ``diameter`` (mm), pressed; from the packing of circles.

    >>> round(helix_radius(1.0, 2), 6)
    0.5
    """
    return (radius_ratio(max(ends, 1)) - 1) * diameter / 2


def take_up(
    diameter: float, ends: int, holes: int, spacing: float, turning_share: float = 1.0
) -> float:
    """Warp used per woven length of one tablet's ends.

    The ``ends`` threads of a tablet lie round each other at radius (R(ends) - 1) d / 2 and make
    one turn in ``holes`` picks of ``spacing`` mm; picks without a turn (the rest of
    ``turning_share``) take none. ``diameter`` is mm. A tablet with one thread takes up nothing.
    """
    if ends < 2:
        return 1.0
    radius = helix_radius(diameter, ends)
    return turning_share * helix_factor(radius, holes * spacing) + (1 - turning_share)


def weft_per_pick_of_tube(thickness: float, tablet_cord: float, diameter: float) -> float:
    """Weft (mm) of one pick of a tube: the circle through the middle of its tablet cords.

    pi (D - R(holes) d), at least pi d; ``tablet_cord`` is R(holes) d.
    """
    return math.pi * max(thickness - tablet_cord, diameter)
