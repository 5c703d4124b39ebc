"""How figures are worked out: takes the plan's equations, gives the table in the README.

``python -m sheetgen.cli.figure_guide`` prints it; a test compares the README with it.
"""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.cli.figures import GROUPS
from sheetgen.plan.equations import EQUATIONS
from sheetgen.plan.symbols import RHO, SHARE, THREADS, Equation, K, P, R, Symbol

AS_DESCRIBED = "as the description says"
HEAD = ("| figure | worked out | where | source |", "| --- | --- | --- | --- |")
EVERYWHERE = (P, THREADS, R, K, RHO, SHARE)
"""Symbols that mean the same in every row, and are told once."""
_UNITS = ("", "mm")


def figure_guide() -> str:
    """The table in Markdown, in the order of ``sheetgen plan``."""
    told = "; ".join(map(_symbol, EVERYWHERE))
    lines = [f"In every row, {told}.", "", *HEAD]
    for _, keys in GROUPS:
        for key in keys:
            lines += _rows(key)
    return "\n".join(lines) + "\n"


def _rows(key: str) -> Iterator[str]:
    """A row for each way in which a figure may be come by; its name stands in the first."""
    ways = EQUATIONS.get(key, ())
    if not ways:
        yield f"| `{key}` | {AS_DESCRIBED} | | |"
    for number, way in enumerate(ways):
        name = f"`{key}`" if number == 0 else f"`{key}`, or"
        yield f"| {name} | {way.formula} | {_symbols(way)} | {way.source} |"


def _symbols(way: Equation) -> str:
    own = (s for s in way.symbols if s not in EVERYWHERE and s[1] not in _UNITS)
    return "; ".join(map(_symbol, own))


def _symbol(symbol: Symbol) -> str:
    letter, meaning, _ = symbol
    return f"{letter} is {meaning}"


if __name__ == "__main__":
    print(figure_guide(), end="")
