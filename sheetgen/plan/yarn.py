"""Yarn: takes what is known of a yarn, gives its diameter and linear density."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sheetgen.amounts import significant
from sheetgen.model.values import Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.constants import (
    COUNT_DIAMETER_RANGE,
    DIAMETER,
    FIBRE_DENSITY,
    PACKING_AS_MEASURED,
    PACKING_AS_WRAPPED,
    PACKING_FIRM,
    PACKING_SMOOTH,
    PACKING_WOOLLEN,
    WRAPS_RANGE,
    Constant,
)
from sheetgen.plan.figure import Figure, Ledger, Origin
from sheetgen.plan.learning import YarnKey

SMOOTH = frozenset({("linen", "line"), ("silk", "reeled")})


def diameter_from_count(tex: float, density: float, packing: float) -> float:
    """Diameter (mm) of a yarn of ``tex`` (g/km), fibre ``density`` (g/cm3) and ``packing``.

    d = sqrt(4 tex / (1000 pi density packing)): a cylinder of which ``packing`` is fibre.
    Holds for yarns round enough to have a diameter, 1 to 20,000 tex; 15 % either way.

    >>> round(diameter_from_count(16.4, 1.52, 0.60), 2)
    0.15
    """
    return DIAMETER.value * math.sqrt(tex / (density * packing))


def tex_from_diameter(diameter: float, density: float, packing: float) -> float:
    """Linear density (tex) of a yarn ``diameter`` mm thick: the reverse of the above.

    ``packing`` is that of the yarn as its diameter was taken, which on a ruler is far below that
    of a firm yarn: 0.06 to 0.60 (from memory), so the outcome is good to a factor of three.
    """
    return (diameter / DIAMETER.value) ** 2 * density * packing


def diameter_from_wraps(wraps: float) -> float:
    """Diameter (mm) from firm wraps per mm laid side by side: d = 1 / wraps.

    >>> diameter_from_wraps(2.0)
    0.5
    """
    return 1.0 / wraps


def packing_of(fibre: str | None, preparation: str | None) -> Constant:
    """Share of a yarn's section that is fibre, by how the fibre was made ready."""
    if preparation == "woollen":
        return PACKING_WOOLLEN
    if (fibre, preparation) in SMOOTH:
        return PACKING_SMOOTH
    return PACKING_FIRM


@dataclass(frozen=True, slots=True)
class YarnFigures:
    """Diameter (mm) and linear density (tex) of one yarn."""

    yarn: Yarn
    diameter: Figure
    tex: Figure

    @property
    def name(self) -> str:
        """The yarn's name in the description."""
        return self.yarn.name

    @property
    def key(self) -> YarnKey:
        """By what pieces of the same yarn are known; rounded, as one count is written two ways."""
        tex, diameter = float(f"{self.tex.value:.4g}"), float(f"{self.diameter.value:.4g}")
        return YarnKey(self.name, self.yarn.fibre, self.yarn.preparation, tex, diameter)


def measure_yarn(yarn: Yarn, ledger: Ledger) -> YarnFigures:
    """Enter diameter and linear density of a yarn, each from the best that is known.

    Diameter: measured, then wraps, then count. The reader has made sure that one of them is there.
    """
    stated = stated_tex(yarn)
    density = FIBRE_DENSITY[yarn.fibre or "wool"]
    packing = packing_of(yarn.fibre, yarn.preparation)
    diameter = _diameter(yarn, stated, density, packing, ledger)
    key, name = f"tex:{yarn.name}", f"linear density of {yarn.name}"
    if stated is not None:
        tex, working = stated
        mass_figure = ledger.enter(key, name, tex, "tex", "stated", working)
    else:
        wrapped = not isinstance(yarn.diameter, Reading)
        loose = PACKING_AS_WRAPPED if wrapped else PACKING_AS_MEASURED
        assert loose.low is not None
        least, tex, most = (
            tex_from_diameter(diameter.value, density.value, share)
            for share in (loose.low, loose.value, packing.value)
        )
        mass_figure = ledger.enter(
            key,
            name,
            tex,
            "tex",
            "rule of thumb",
            f"({significant(diameter.value)} mm / {significant(DIAMETER.value)})² × "
            f"{density.value} × {loose.value} of it fibre, {loose.low} if soft to "
            f"{packing.value} if firm",
            between=(least, most),
            source=f"{density.source}; packing of {loose.source}",
            next_measure=f"weigh a measured length of {yarn.name}",
        )
    return YarnFigures(yarn, diameter, mass_figure)


def stated_tex(yarn: Yarn) -> tuple[float, str] | None:
    """Tex and its working, from count or put-up; None if neither is stated."""
    if yarn.count is not None:
        return yarn.count.tex, f"{yarn.count.text} = {significant(yarn.count.tex)} tex"
    if yarn.put_up is not None:
        grams, metres = yarn.put_up.mass, yarn.put_up.length / 1000
        tex = 1000 * grams / metres
        return tex, f"{significant(grams)} g / {significant(metres)} m × 1000"
    return None


def _diameter(
    yarn: Yarn,
    stated: tuple[float, str] | None,
    density: Constant,
    packing: Constant,
    ledger: Ledger,
) -> Figure:
    origin: Origin
    if isinstance(yarn.diameter, Reading):
        value, low, high = yarn.diameter.value, yarn.diameter.low, yarn.diameter.high
        origin, working, source, then = "measured", "measured", "", ""
    elif yarn.wraps is not None:
        value = diameter_from_wraps(yarn.wraps)
        low, high = value * (1 - WRAPS_RANGE.value), value * (1 + WRAPS_RANGE.value)
        origin, source, then = "measured", "", f"twist the ends of {yarn.name} by the finger test"
        working = f"1 / {significant(yarn.wraps)} wraps per mm"
    else:
        assert stated is not None, "the reader lets no yarn through without a thickness"
        value = diameter_from_count(stated[0], density.value, packing.value)
        spread = COUNT_DIAMETER_RANGE.value
        low, high = value * (1 - spread), value * (1 + spread)
        origin, source = "computed", f"{density.source}; packing {packing.source}"
        then = f"wrap {yarn.name} firmly round a ruler and count"
        working = (
            f"{significant(DIAMETER.value)} × √({significant(stated[0])} tex / "
            f"({density.value} × {packing.value}))"
        )
    return ledger.enter(
        f"diameter:{yarn.name}",
        f"diameter of {yarn.name}",
        value,
        "mm",
        origin,
        working,
        between=(low, high),
        source=source,
        next_measure=then,
    )
