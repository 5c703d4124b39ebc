"""Tassel and ends: takes the wanted thickness and the tails, gives strands, neck and binding."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sheetgen.plan.constants import SEWING_TAIL, TASSEL_PACKING, TRIM


@dataclass(frozen=True, slots=True)
class Tassel:
    """One tassel: tails from the cord, strands added (each folded in two), lengths in mm."""

    tails: int
    strands: int
    strand_length: float
    skirt: float
    neck: float
    neck_wraps: int
    binding: float

    @property
    def skirt_ends(self) -> int:
        """Threads hanging in the skirt."""
        return self.tails + 2 * self.strands


def added_ends(thickness: float, diameter: float, tails: float) -> float:
    """Ends to add to ``tails`` for a neck ``thickness`` mm thick of ends ``diameter`` mm.

    0.6 (T / d)^2 - tails, not below nought: the share of the neck's section that is yarn.
    """
    return max(0.0, TASSEL_PACKING.value * (thickness / diameter) ** 2 - tails)


def neck_thickness(ends: float, diameter: float) -> float:
    """Thickness (mm) of a neck of ``ends`` ends: the reverse of :func:`added_ends`."""
    return diameter * math.sqrt(ends / TASSEL_PACKING.value)


def make_tassel(
    tails: int,
    diameter: float,
    skirt: float,
    thickness: float | None,
    neck_wraps: int,
    tail_diameter: float | None = None,
) -> Tassel:
    """Work out one tassel; lengths in mm. Strands are folded, so cut at twice the skirt.

    ``diameter`` is that of the strands; tails of another thickness (``tail_diameter``) count as
    the number of such ends that fill as much of the neck.
    """
    alike = tails * ((tail_diameter or diameter) / diameter) ** 2
    added = added_ends(thickness, diameter, alike) if thickness is not None else 0.0
    strands = math.ceil(added / 2 - 1e-9)
    neck = neck_thickness(alike + 2 * strands, diameter)
    binding = neck_wraps * math.pi * neck + 2 * SEWING_TAIL.value
    return Tassel(tails, strands, 2 * skirt + TRIM.value, skirt, neck, neck_wraps, binding)
