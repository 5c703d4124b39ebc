"""Gist: takes a Project, gives the few figures that a register and learning need of a whole plan.

They are worked out by the families that the planner calls, and are the same; but the twist is not
placed, which takes most of a plan's time, nothing is cut or bought, and nobody is told anything.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.plan.figure import Figure, Ledger
from sheetgen.plan.hours import plan_time
from sheetgen.plan.pack import Pack
from sheetgen.plan.size import size_up
from sheetgen.plan.stringing import plan_string
from sheetgen.plan.supplies import lengths_by_use, plan_tassel, plan_weft
from sheetgen.plan.weaving import plan_weaving
from sheetgen.plan.yarn import YarnFigures


@dataclass(frozen=True, slots=True)
class Gist:
    """Figures by key, the pack, and the yarns that are used, in the order of the description."""

    project: Project
    figures: Mapping[str, Figure]
    pack: Pack
    yarns: tuple[YarnFigures, ...]


def gist_of(project: Project) -> Gist:
    """The gist of a piece, without what other pieces taught."""
    ledger, told = Ledger(), list[Diagnostic]()
    size = size_up(project, ledger)
    string = plan_string(project, size.thickness, ledger, told)
    weaving = plan_weaving(project, size, string, ledger, told)
    weft = plan_weft(project, size, weaving, ledger)
    tassel = plan_tassel(project, size, ledger)
    plan_time(project, weaving.picks, ledger, told)
    used = lengths_by_use(project, size, weaving, weft, tassel)
    yarns = tuple(size.yarns[yarn.name] for yarn in project.yarns if yarn.name in used)
    return Gist(project, ledger, size.pack, yarns)
