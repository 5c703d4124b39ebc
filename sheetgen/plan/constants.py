"""Every constant of the engine: value, unit, where it comes from and how sure it is.

``kind`` is ``exact``, ``published``, ``common practice`` or ``from memory``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Constant:
    """A constant with its unit and source; ``low`` and ``high`` bound it where it is uncertain."""

    value: float
    unit: str
    source: str
    kind: Literal["exact", "published", "common practice", "from memory"]
    low: float | None = None
    high: float | None = None


MORTON_HEARLE = "Morton and Hearle, Physical Properties of Textile Fibres, table 5.1"
ASHENHURST = "implied by Ashenhurst's rule for threads per inch (J. T. Taylor, Cotton Weaving)"
PEIRCE = "implied by Peirce 1937, specific volume of cotton yarn 1.1 cm3/g"

DIAMETER = Constant(
    math.sqrt(4 / (1000 * math.pi)), "mm (tex cm3/g)^-1/2", "geometry of a cylinder", "exact"
)

FIBRE_DENSITY = {
    "wool": Constant(1.31, "g/cm3", MORTON_HEARLE, "published"),
    "silk": Constant(1.34, "g/cm3", MORTON_HEARLE, "published"),
    "cotton": Constant(1.52, "g/cm3", MORTON_HEARLE, "published"),
    "viscose": Constant(1.49, "g/cm3", MORTON_HEARLE, "published"),
    "nylon": Constant(1.14, "g/cm3", MORTON_HEARLE, "published"),
    "polyester": Constant(1.39, "g/cm3", MORTON_HEARLE, "published"),
    "linen": Constant(1.53, "g/cm3", "flax, usual figure", "from memory"),
    "hemp": Constant(1.48, "g/cm3", "usual figure", "from memory"),
}

PACKING_FIRM = Constant(0.60, "1", f"{ASHENHURST}; {PEIRCE}", "published")
PACKING_WOOLLEN = Constant(0.53, "1", ASHENHURST, "published")
PACKING_SMOOTH = Constant(0.65, "1", "line linen and reeled silk, judged", "from memory")

# Packing of a yarn as it lies on a ruler or under calipers, unpressed: far below the firm one.
# Ruler wraps come out lower than Ashenhurst's count, by more the softer the yarn. From memory:
# 8/2 and 10/2 cotton wrap to about 33 and 40 an inch, 0.21 and 0.25; knitting wools of 400, 285
# and 200 m per 100 g to about 18, 14 and 9, 0.12, 0.10 and 0.06.
PACKING_AS_WRAPPED = Constant(
    0.20, "1", "a yarn laid side by side on a ruler, not pressed", "from memory", low=0.06
)
PACKING_AS_MEASURED = Constant(
    0.30, "1", "a yarn measured across without its loose hairs", "from memory", low=0.06
)
FACTS_DIFFER = Constant(
    1.5, "1", "two statements of one yarn that no care in measuring explains", "common practice"
)
WRAPPED_THICKER = Constant(
    1.8, "1", "wraps or diameter of a weaving yarn over that of its count", "common practice"
)
BALL_WRAPPED_THICKER = Constant(
    3.2, "1", "the same of a soft yarn sold by the ball: root of 0.60 / 0.06", "from memory"
)

COUNT_DIAMETER_RANGE = Constant(0.15, "1", "spread of count-based diameters", "common practice")
WRAPS_RANGE = Constant(0.10, "1", "spread of wraps between hands", "common practice")
BAND_RANGE = Constant(0.20, "1", "spread of band widths", "common practice")

FAR_FROM_FIND = Constant(
    0.30, "1", "share of the find's size that nobody takes for a likeness", "common practice"
)

CORD_PACKING = Constant(0.80, "1", "area packing of many circles in a circle", "common practice")
PRESSED = Constant(0.85, "1", "a cord squeezed into a hole", "common practice")

PICK_SPACING = Constant(
    2.8,
    "yarn diameters",
    "Henshall 1964, cord 5 of the seal-tags, gives 2.7 to 2.8",
    "common practice",
    low=2.2,
    high=3.5,
)
BAND_WEFT = Constant(1.05, "1", "weft of a band beyond its width", "common practice")

PLAIN_TAIL = Constant(100.0, "mm", "a tail to tie on by and to finish with", "common practice")
TASSEL_KNOT = Constant(30.0, "mm", "neck and join above a tassel", "common practice")
TRIM = Constant(20.0, "mm", "what trimming takes off", "common practice")
LOOM_WASTE = Constant(
    250.0, "mm", "warp that tablets and shed keep from being woven", "common practice", 200.0, 400.0
)
WEFT_TAIL = Constant(150.0, "mm", "weft left at each end", "common practice")
SEWING_TAIL = Constant(150.0, "mm", "binding left at each end to sew in", "common practice")
RESERVE = Constant(0.10, "1", "yarn to have beyond what is used", "common practice")

TWIST_LIMIT = Constant(0.040, "turns/mm", "twist that a free warp bears", "common practice")
TWIST_ALWAYS_BORNE = Constant(
    1.0, "turns", "less than one turn is not worth dealing with", "common practice"
)
PACE = Constant(
    6.0, "picks/min", "an unhurried hand, talking now and then", "common practice", 3, 10
)
GUEST_SLOWER = Constant(
    3.0, "1", "how many times slower than the maker a guest weaves", "common practice", 2, 5
)

ENOUGH_PIECES = Constant(
    5, "pieces", "fewer do not show how far pieces of one hand lie apart", "common practice"
)
OUTLIER = Constant(
    3.5,
    "modified z",
    "Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993: 0.6745 (x - median) / MAD",
    "from memory",
)
MAD_OF_NORMAL = Constant(
    0.6745, "standard deviations", "upper quartile of the normal distribution", "exact"
)
LEAST_SPREAD = Constant(
    0.01,
    "1",
    "how surely a cord is measured; pieces do not lie closer than that",
    "common practice",
)
SLIP = Constant(2.0, "1", "times outside of what is usual: a slip of the pen", "common practice")
MOST_TAKE_UP = Constant(
    1.35,
    "ratio",
    "three threads twisted to a lead of four diameters, path by lead: as hard as a rope is laid",
    "common practice",
)
"""Of a measured take-up; beyond it, and beyond the plan's own range, a slip is likelier."""
SLIP_OF_TAKE_UP = Constant(
    1.2,
    "1",
    "the same of take-up, which bears far less: 1.1 × 1.2 is beyond any",
    "common practice",
)

LEARNED_USUAL = {
    "take_up": Constant(
        1.0,
        "of the helix",
        "a helix, with spacings out by a quarter",
        "common practice",
        0.95,
        1.10,
    ),
    "pick_spacing": PICK_SPACING,
    "cord_thickness": Constant(
        1.0, "of d R(N)", "spread of count-based diameters", "common practice", 0.85, 1.15
    ),
    "band_thickness": Constant(1.0, "of d R(N)", "spread of bands", "common practice", 0.8, 1.2),
    "band_width": Constant(1.0, "of cords abreast", "spread of bands", "common practice", 0.8, 1.2),
    "pace": PACE,
}
"""What past pieces teach -> the formula's value and the range in which it usually lies."""

FINGER_ROOM_SHARE = Constant(0.06, "1", "bare cord among beads", "common practice")
FINGER_ROOM_LEAST = Constant(12.0, "mm", "bare cord among beads, at least", "common practice")
KNOT_LENGTH = Constant(2.0, "cord diameters", "overhand knot, drawn tight", "from memory")
KNOT_TAKES = Constant(12.0, "cord diameters", "overhand knot, drawn tight", "from memory", 10, 16)
TASSEL_PACKING = Constant(0.60, "1", "threads bound at a neck", "common practice")

FINGER_TEST = "wind as many turns of the yarn as there are ends round the fingers, twist, measure"
SPECHT = "E. Specht, packings of equal circles in a circle, table of 2014"
# Radius of the smallest known circle round n equal circles of radius 1; optimal for 1-14 and 19.
CIRCLES_IN_CIRCLE = (
    *(1.000000, 2.000000, 2.154701, 2.414214, 2.701302, 3.000000, 3.000000, 3.304765),
    *(3.613126, 3.813026, 3.923804, 4.029602, 4.236068, 4.328429, 4.521357, 4.615426),
    *(4.792034, 4.863703, 4.863703, 5.122321, 5.252317, 5.439719, 5.545204, 5.651661),
    *(5.752824, 5.828177, 5.906398, 6.014938, 6.138598, 6.197741, 6.291503, 6.429463),
    *(6.486703, 6.610957, 6.697171, 6.746754, 6.758770),
)

STRETCHING = frozenset({"wool", "nylon"})
"""Fibres that give by a quarter of their length or more before they break (Morton and Hearle,
chapter on tensile properties; from memory). Cotton, flax and hemp give a few per cent."""
