"""The record sheet: takes a plan, its template, the paper and photographs, gives the Document."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sheetgen.layout.blocks import Document
from sheetgen.layout.compared import compared
from sheetgen.layout.desk import Measure
from sheetgen.layout.explained import explained, signed
from sheetgen.layout.identity import departures, find_as_read, identity, of_what
from sheetgen.layout.making import differently, making
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.pictured import drawing, photographed
from sheetgen.layout.shapes import Raster
from sheetgen.layout.sheet import AS_IT_IS, Part, lay_out
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

PARTS: dict[str, Part] = {
    "identity": identity,
    "find": find_as_read,
    "compared": compared,
    "departures": departures,
    "materials": of_what,
    "making": making,
    "photographs": photographed,
    "drawing": drawing,
    "differently": differently,
    "signed": signed,
    "explained": explained,
}


def record_sheet(
    plan: Plan,
    template: Template,
    paper: Paper,
    measure: Measure,
    setting: Setting = AS_IT_IS,
    photographs: Mapping[str, Raster] | None = None,
) -> Document:
    """Lay the parts out in the template's order; ``photographs`` by the names of their files.

    The number of the piece stands on every page, so that one that strays finds home. KeyError for
    a part that is not known here.
    """
    document = lay_out(PARTS, plan, template, paper, measure, setting, photographs or {})
    number = plan.project.number
    if not number:
        return document
    return replace(
        document, title=f"{number} · {document.title}", version=f"{number} · {document.version}"
    )
