"""Aglets: takes the cord's size, gives the inside that an aglet needs, and whether it has it."""

from __future__ import annotations

from sheetgen.amounts import length
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.constants import PRESSED
from sheetgen.plan.figure import Ledger
from sheetgen.plan.size import Size


def check_aglets(project: Project, size: Size, ledger: Ledger, told: list[Diagnostic]) -> None:
    """Hold the aglets' inside against the pressed cord."""
    if project.aglets is None:
        return
    cord = size.thickness.value if size.width is None else size.width.value
    pressed = PRESSED.value * cord
    ledger.enter(
        "aglet_inside",
        "inside of an aglet wanted",
        cord,
        "mm",
        "rule of thumb",
        f"between the pressed cord, {length(pressed)}, and the cord, {length(cord)}",
        between=(pressed, cord * 1.1),
    )
    inside, path = project.aglets.inside, ("aglets", "inside")
    if inside is None:
        return
    if inside < pressed:
        told.append(
            Diagnostic(
                "aglet-too-narrow",
                "error",
                f"the pressed cord is {length(pressed - inside)} too thick for the aglet",
                path,
                given=length(inside),
                allowed=f"at least {length(pressed)}",
                hint="take a wider aglet, fewer tablets or a finer yarn",
            )
        )
    elif inside > cord * 1.25:
        told.append(
            Diagnostic(
                "aglet-too-wide",
                "warning",
                f"the aglet is {length(inside - cord)} wider than the cord and will not hold by "
                "itself",
                path,
                given=length(inside),
                hint="wind the end with thread before it goes in",
            )
        )
