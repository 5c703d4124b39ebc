"""What equations are made of: gives the shape of an Equation and the symbols that several share."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.plan.figure import Figure, Origin

Symbol = tuple[str, str, str]
"""A symbol, what it means, and the keys of the figure that it is, the first that is there.

No key: a constant or an input."""


@dataclass(frozen=True, slots=True)
class Equation:
    """``formula`` in symbols. It fits figures of the ``origin``, if their working has ``has``."""

    formula: str
    symbols: tuple[Symbol, ...] = ()
    origin: Origin | None = None
    has: str = ""
    source: str = ""

    def fits(self, figure: Figure) -> bool:
        """True when the figure was come by in this way."""
        return self.origin in (None, figure.origin) and self.has in figure.working


GEOMETRY, PRACTICE, COUNTS = "geometry", "common practice", "ASTM D2260, table 1"
D: Symbol = ("d", "diameter of a warp end, mm", "warp_diameter")
YARN: Symbol = ("d", "diameter of the yarn, mm", "diameter")
RHO: Symbol = ("ρ", "density of the fibre, g/cm³", "")
SHARE: Symbol = ("φ", "share of the yarn’s section that is fibre", "")
K: Symbol = ("k", "√(4 / (1000 π)) = 0.03568 mm, for tex and g/cm³", "")
THREADS: Symbol = ("h", "threads of a tablet", "")
R: Symbol = ("R(n)", "radius of the smallest circle round n circles of radius 1", "")
P: Symbol = ("p", "length of one pick, mm", "pick_spacing")
N: Symbol = ("n", "picks", "picks")
CORD: Symbol = ("D", "thickness of the cord or band, mm", "thickness")
TAILS: Symbol = ("n", "tails, as so many ends of the strands’ yarn", "tassel_tails")
STRANDS: Symbol = ("s", "strands added, folded in two", "tassel_strands")
LENGTH: Symbol = ("L", "length to weave, mm", "woven_length finished_length cord_length")
