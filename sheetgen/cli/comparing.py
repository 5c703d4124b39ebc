"""The page to compare yarns by: takes what was asked for, gives what is to stand on the page."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sheetgen.cli.chest import Asked
    from sheetgen.diagnostics import Diagnostic
    from sheetgen.layout.choice import Compared

TOP = 5
"""Yarns that are compared unless another number is wished: a page or two."""


@dataclass(frozen=True, slots=True)
class Wish:
    """Which stash, which yarn is chosen for, how many are compared; None as described."""

    stash: Path | None = None
    wished: str | None = None
    top: int | None = None


def compared(
    file: Path, register: Path | None, wish: Wish
) -> tuple[Asked, Compared | Diagnostic | None]:
    """The first yarns that can be used, the best first; None or why where there are none."""
    from sheetgen.cli.chest import ask, chosen
    from sheetgen.diagnostics import Diagnostic

    asked = ask(file, wish.stash, register)
    pair = asked.pair
    if pair is None:
        return asked, None
    found = chosen(pair, wish.wished)
    if isinstance(found, Diagnostic):
        return asked, found
    from sheetgen.layout.choice import Compared
    from sheetgen.plan.choice import ALL

    usable = tuple(c for c in found.candidates if not c.failures and c.plan)[: wish.top or TOP]
    target = found.wanted.target
    if target == ALL:
        target = ", ".join(yarn.name for yarn in pair.project.yarns)
    return asked, Compared(pair.plan, usable, pair.stash.stash, target)
