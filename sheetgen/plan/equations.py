"""How each figure is worked out: takes a Figure, gives its equation, symbols and what it rests on.

The plan enters the numbers (``Figure.working``); here stand the same equations in symbols. A figure
has several where it may be come by in several ways; the first that fits is its own.
"""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.plan.equations_of_size import OF_SIZE
from sheetgen.plan.equations_of_weaving import OF_WEAVING
from sheetgen.plan.figure import Figure, Origin
from sheetgen.plan.symbols import PRACTICE, Equation, Symbol

EQUATIONS: Mapping[str, tuple[Equation, ...]] = {**OF_SIZE, **OF_WEAVING}

_PLAIN: Mapping[Origin, Equation] = {
    "measured": Equation("measured, not worked out"),
    "stated": Equation("stated in the description, not worked out"),
    "computed": Equation("worked out as the numbers say"),
    "rule of thumb": Equation("taken from common practice, not worked out", source=PRACTICE),
}


def equation_of(figure: Figure) -> Equation:
    """The equation of a figure; that it was measured or stated where there is none."""
    for equation in EQUATIONS.get(figure.key.partition(":")[0], ()):
        if equation.fits(figure):
            return equation
    return _PLAIN[figure.origin]


def rests_on(figure: Figure, figures: Mapping[str, Figure]) -> list[tuple[Symbol, Figure | None]]:
    """Each symbol of a figure's equation with the figure of this plan that it is, if it is one.

    A figure of a yarn rests on those of the same yarn.
    """
    found = []
    _, colon, yarn = figure.key.partition(":")
    for symbol in equation_of(figure).symbols:
        keys = [k for key in symbol[2].split() for k in (f"{key}{colon}{yarn}", key)]
        found.append((symbol, next((figures[k] for k in keys if k in figures), None)))
    return found


def source_of(figure: Figure) -> str:
    """Where the equation or the figure is from."""
    return figure.source or equation_of(figure).source
