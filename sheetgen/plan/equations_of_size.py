"""Yarn, pack, cord, band and beads: gives the equations of their figures, by key."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.plan.constants import ASHENHURST, MORTON_HEARLE, PEIRCE, SPECHT
from sheetgen.plan.symbols import (
    CORD,
    COUNTS,
    GEOMETRY,
    PRACTICE,
    RHO,
    SHARE,
    THREADS,
    YARN,
    D,
    Equation,
    K,
    R,
)

OF_SIZE: Mapping[str, tuple[Equation, ...]] = {
    "diameter": (
        Equation("d = 1 / w", (("w", "firm wraps per mm", ""),), "measured", "1 / ", GEOMETRY),
        Equation(
            "d = k × √(T / (ρ × φ))",
            (("T", "linear density, tex", "tex"), RHO, SHARE, K),
            "computed",
            source=f"geometry; ρ: {MORTON_HEARLE}; φ: {ASHENHURST}; {PEIRCE}",
        ),
    ),
    "tex": (
        Equation(
            "T = 1000 × m / l",
            (("m", "mass of a put-up, g", ""), ("l", "its length, m", "")),
            "stated",
            " × 1000",
            "definition of tex",
        ),
        Equation(
            "T = 1000 / Nm = 590.5 / NeC = 885.8 / NeW = 1653.5 / NeL = den / 9; plied: T × plies",
            (),
            "stated",
            " = ",
            COUNTS,
        ),
        Equation("T = (d / k)² × ρ × φ", (YARN, K, RHO, SHARE), "rule of thumb", source=PRACTICE),
    ),
    "tablets": (
        Equation(
            "the whole number t for which d × R(t × h) is nearest to D",
            (("D", "thickness of the find, mm", "find_thickness"), D, THREADS, R),
            "computed",
            source=SPECHT,
        ),
    ),
    "warp_diameter": (
        Equation(
            "d = √(Σ dᵢ² / N)",
            (("dᵢ", "diameter of each end, mm", "diameter"), ("N", "ends", "")),
            has="root of the mean square",
            source=GEOMETRY,
        ),
        Equation("d = that of the one yarn of the warp", (YARN,), source="as that of the yarn"),
    ),
    "ends": (Equation("N = Σ tablets × threads in them", (), source=GEOMETRY),),
    "thickness": (
        Equation(
            "D = q × d × R(N)",
            (("q", "what past pieces were of the formula", ""), D, ("N", "ends", "ends"), R),
            "measured",
            "for ",
            f"pieces made before; {SPECHT}",
        ),
        Equation("D = d × R(h)", (D, THREADS, R), "computed", "as one tablet", SPECHT),
        Equation("D = d × R(N)", (D, ("N", "ends", "ends"), R), "computed", source=SPECHT),
    ),
    "width": (
        Equation("W = t × D", (("t", "tablets", "tablets"), CORD), "computed", source=GEOMETRY),
    ),
    "thickness_difference": (
        Equation(
            "Δ = D − D of the find",
            (CORD, ("D of the find", "as read, mm", "find_thickness")),
            "computed",
            source=GEOMETRY,
        ),
    ),
    "width_difference": (
        Equation(
            "Δ = W − W of the find",
            (("W", "width, mm", "width"), ("W of the find", "as read, mm", "find_width")),
            "computed",
            source=GEOMETRY,
        ),
    ),
    "tablets_for_find": (
        Equation(
            "the whole number t for which the cord or band comes nearest to the find",
            (("find", "its thickness, mm", "find_thickness"), D, THREADS, R),
            "computed",
            source=SPECHT,
        ),
    ),
    "beads": (Equation("Σ beads of each kind in the order", (), source=GEOMETRY),),
    "beads_length": (Equation("Σ beads of a kind × length along the string", (), source=GEOMETRY),),
    "finger_room_wanted": (
        Equation(
            "0.06 × l, at least 12 mm",
            (("l", "length of the beads, mm", "beads_length"),),
            "rule of thumb",
            source=PRACTICE,
        ),
    ),
    "ends_take": (
        Equation("2 × join + ends that go in × what the finial takes", (), source=GEOMETRY),
    ),
    "cord_length": (
        Equation(
            "L = beads and gaps + finger room + knots + ends",
            (
                ("beads", "their length, mm", "beads_length"),
                ("finger room", "mm", "finger_room_wanted"),
                ("ends", "inside join and finial, mm", "ends_take"),
            ),
            "computed",
            source=GEOMETRY,
        ),
    ),
    "finger_room": (
        Equation(
            "L − beads and gaps − knots − ends",
            (("L", "length of the cord, mm", "cord_length"),),
            source=GEOMETRY,
        ),
    ),
    "pressed_cord": (Equation("0.85 × D", (CORD,), source=PRACTICE),),
}
