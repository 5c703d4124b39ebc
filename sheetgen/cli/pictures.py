"""Pictures: takes a planned description and a page, gives its photographs ready for the record."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic
    from sheetgen.layout.paper import Paper, Setting
    from sheetgen.layout.shapes import Raster

Taken = tuple["dict[str, Raster]", "list[Diagnostic]"]
"""Photographs by the names of their files, and what is worth saying about them."""


def pictures_of(outcome: Outcome, paper: Paper, setting: Setting) -> Taken:
    """Every photograph, as large as its frame on this paper; none is opened where none is named."""
    assert outcome.plan is not None, "only a plan without errors is printed"
    made = outcome.plan.project.made
    found: dict[str, Raster] = {}
    told: list[Diagnostic] = []
    if made is None or not made.photographs:
        return found, told
    from sheetgen.layout.pictured import photo_frame
    from sheetgen.layout.shapes import Raster
    from sheetgen.photographs import take

    paper = setting.on(paper)
    most = photo_frame(setting.room(paper.frame_width), setting.room(paper.frame_height))
    for i, photograph in enumerate(made.photographs):
        if photograph.file in found:
            continue
        place = ("made", "photographs", i, "file")
        taken = take(outcome.file.parent, photograph.file, most, place)
        told += taken.diagnostics
        if picture := taken.photograph:
            found[photograph.file] = Raster(picture.width, picture.height, picture.data)
    return found, told


def looked_at(outcome: Outcome) -> list[Diagnostic]:
    """What is worth saying about the photographs of a description, whatever the paper."""
    from sheetgen.layout.paper import PAPERS, Setting

    assert outcome.plan is not None, "only a plan without errors has photographs to look at"
    return pictures_of(outcome, PAPERS[outcome.plan.project.paper], Setting())[1]
