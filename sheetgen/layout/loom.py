"""The loom sheet: takes a plan, its template and the paper, gives the whole Document."""

from __future__ import annotations

from sheetgen.layout.blocks import Document
from sheetgen.layout.desk import Measure
from sheetgen.layout.gauges import gauges
from sheetgen.layout.glance import glance
from sheetgen.layout.makeup import bead_strip, make_up
from sheetgen.layout.materials import materials
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.layout.threading import threading
from sheetgen.layout.warping import warping
from sheetgen.layout.weaving import weaving
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

PARTS: dict[str, Part] = {
    "at a glance": glance,
    "materials": materials,
    "warp": warping,
    "threading": threading,
    "turning": weaving,
    "bead strip": bead_strip,
    "make up": make_up,
    "gauges": gauges,
}


def loom_sheet(
    plan: Plan, template: Template, paper: Paper, measure: Measure, setting: Setting = AS_IT_IS
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not known here."""
    return lay_out(PARTS, plan, template, paper, measure, setting)
