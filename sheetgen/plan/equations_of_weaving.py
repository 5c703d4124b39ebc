"""Weaving, warp, twist, weft, ends, yarn to have and time: gives the equations of their figures."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.plan.constants import PICK_SPACING
from sheetgen.plan.symbols import (
    CORD,
    GEOMETRY,
    LENGTH,
    PRACTICE,
    STRANDS,
    TAILS,
    THREADS,
    YARN,
    D,
    Equation,
    N,
    P,
    R,
)

OF_WEAVING: Mapping[str, tuple[Equation, ...]] = {
    "woven_length": (
        Equation(
            "L / (1 − s)", (("L", "finished length", ""), ("s", "shrinkage", "")), source=GEOMETRY
        ),
    ),
    "pick_spacing": (
        Equation(
            "p = l / n",
            (("l", "length counted over", ""), ("n", "picks in it", "")),
            "measured",
            "on the sample",
            GEOMETRY,
        ),
        Equation("p = 2.8 × d", (D,), "rule of thumb", source=PICK_SPACING.source),
    ),
    "picks_per_length": (Equation("1 / p", (P,), source=GEOMETRY),),
    "picks": (Equation("n = L / p, a whole number", (LENGTH, P), source=GEOMETRY),),
    "take_up": (
        Equation(
            "t = √(1 + (2 π r / (h × p))²), r = (R(h) − 1) × d / 2",
            (("r", "way of a thread round its tablet’s middle, mm", ""), D, THREADS, P, R),
            "computed",
            source="geometry of a helix",
        ),
    ),
    "near_tail": (
        Equation(
            "what the finish needs, at least 100 mm to tie on by",
            (),
            "rule of thumb",
            source=PRACTICE,
        ),
    ),
    "far_tail": (
        Equation(
            "what the finish needs, at least 100 mm to tie on by",
            (),
            "rule of thumb",
            source=PRACTICE,
        ),
    ),
    "in_weave": (
        Equation(
            "L × t",
            (
                ("L", "length to weave, mm", "woven_length finished_length cord_length"),
                ("t", "take-up", "take_up"),
            ),
            source=GEOMETRY,
        ),
    ),
    "loom_waste": (Equation("250 mm, 200 to 400 mm", (), "rule of thumb", source=PRACTICE),),
    "warp_end": (
        Equation(
            "E = pieces × (near tail + in the weave + far tail) + loom waste",
            (
                ("near tail", "mm", "near_tail"),
                ("in the weave", "mm", "in_weave"),
                ("far tail", "mm", "far_tail"),
                ("loom waste", "mm", "loom_waste"),
            ),
            source=GEOMETRY,
        ),
    ),
    "cut_length": (
        Equation(
            "E up to the next 5 mm",
            (("E", "length of a warp end, mm", "warp_end"),),
            source=PRACTICE,
        ),
    ),
    "post_distance": (
        Equation("E", (("E", "length of a warp end, mm", "warp_end"),), source=GEOMETRY),
    ),
    "twist_limit": (
        Equation("40 full turns per metre of free warp", (), "rule of thumb", source=PRACTICE),
    ),
    "interventions": (
        Equation(
            "the least k for which the greatest twist stays within the limit × free warp",
            (
                ("limit", "full turns per mm", "twist_limit"),
                N,
                ("E", "length of a warp end, mm", "warp_end"),
            ),
            source="geometry; a search over all places proves that none are better",
        ),
    ),
    "worst_twist": (
        Equation(
            "turns one way more than the other up to that pick / holes",
            (("k", "times the twist is dealt with", "interventions"), N),
            source=GEOMETRY,
        ),
    ),
    "spiral_angle": (Equation("arctan(p / (π × D))", (P, CORD), source=GEOMETRY),),
    "spiral_lead": (Equation("(π × D)² / p", (P, CORD), source=GEOMETRY),),
    "weft_per_pick": (
        Equation(
            "1.05 × W", (("W", "width of the band, mm", "width"),), has="width", source=PRACTICE
        ),
        Equation("π × (D − R(h) × d), at least π × d", (CORD, D, THREADS, R), source=GEOMETRY),
    ),
    "weft": (
        Equation(
            "n × weft in one pick + 2 × 150 mm",
            (N, ("weft in one pick", "mm", "weft_per_pick")),
            source=PRACTICE,
        ),
    ),
    "tassel_tails": (
        Equation("N, both ends of a loop", (("N", "ends", "ends"),), source=GEOMETRY),
    ),
    "tassel_strands": (
        Equation(
            "s = (0.6 × (D / d)² − n) / 2",
            (("D", "thickness of the neck wanted, mm", ""), YARN, TAILS),
            source="geometry; 0.6 of a bound neck is yarn, common practice",
        ),
    ),
    "tassel_strand": (
        Equation("2 × skirt + 20 mm to trim", (("skirt", "mm", ""),), source=PRACTICE),
    ),
    "tassel_neck": (
        Equation(
            "D = d × √((n + 2 s) / 0.6)",
            (YARN, TAILS, STRANDS),
            source="geometry; 0.6 of a bound neck is yarn, common practice",
        ),
    ),
    "binding": (
        Equation(
            "wraps × π × D + 2 × 150 mm",
            (("D", "thickness of the neck, mm", "tassel_neck"),),
            source=GEOMETRY,
        ),
    ),
    "aglet_inside": (Equation("between 0.85 × D and D", (CORD,), source=PRACTICE),),
    "reserve": (Equation("10 % of what is used", (), "rule of thumb", source=PRACTICE),),
    "length": (
        Equation(
            "Σ uses × (1 + reserve)",
            (
                ("warp", "ends × length of one, mm", "warp_end"),
                ("weft", "mm", "weft"),
                ("tassel", "strands × length of one, mm", "tassel_strand"),
                ("binding", "mm", "binding"),
                ("reserve", "", "reserve"),
            ),
            source=GEOMETRY,
        ),
    ),
    "mass": (
        Equation(
            "l × T / 1 000 000",
            (("l", "length to have, mm", "length"), ("T", "linear density, tex", "tex")),
            source="definition of tex",
        ),
    ),
    "put_ups": (
        Equation(
            "l / length of one, the next whole number",
            (("l", "length to have, mm", "length"),),
            source=GEOMETRY,
        ),
    ),
    "pace": (Equation("6 picks a minute, 3 to 10", (), "rule of thumb", source=PRACTICE),),
    "weaving_time": (
        Equation("n / pace", (N, ("pace", "picks per min", "pace")), source=GEOMETRY),
    ),
}
