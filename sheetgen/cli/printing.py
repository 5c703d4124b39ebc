"""A sheet to a file: takes a planned description, gives the PDF's bytes and writes them whole."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sheetgen.cli.pictures import pictures_of
from sheetgen.cli.press import AS_DESCRIBED, PICTURED, Press
from sheetgen.cli.run import Outcome, file_error, reason
from sheetgen.cli.sets import Chosen, choose
from sheetgen.diagnostics import Diagnostic, has_errors, placed

if TYPE_CHECKING:
    from sheetgen.draw.archival import Attachment
    from sheetgen.draw.copies import Copies
    from sheetgen.layout.blocks import Document
    from sheetgen.plan.plan import Plan

_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")

SIDES = 2
OF_KITS = ("kit", "cutouts")
"""Sheets of the kit's piece, if the description has a kit."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A sheet as bytes (None when there is none) and what is worth saying about which file.

    ``wording`` is the template, if there is something to say about its sentences.
    """

    pdf: bytes | None
    about: Outcome
    diagnostics: tuple[Diagnostic, ...]
    wording: Outcome | None = None

    @property
    def pages(self) -> int:
        """Pages of the file, counted by their objects, which stand in it uncompressed."""
        return len(_PAGE.findall(self.pdf or b""))


def default_name(file: Path, sheet: str, folder: Path | None = None) -> Path:
    """Where a sheet goes by itself: into ``folder``, or beside its description."""
    name = f"{file.stem}-{sheet}.pdf"
    return folder / name if folder else file.with_name(name)


def fault_of(out: Path, description: Path) -> Diagnostic | None:
    """Why a sheet cannot be written to ``out``, as far as that can be told beforehand."""
    try:
        if out.is_dir():
            return file_error("unwritable-file", "this is a folder, not a file", given=str(out))
        if out.exists() and not out.is_file():
            return file_error(
                "unwritable-file", "this is a device or a pipe, not a file", given=str(out)
            )
        if not out.absolute().parent.is_dir():
            hint = "make the folder first"
            return file_error(
                "unwritable-file", "there is no such folder", given=str(out.parent), hint=hint
            )
        if out.exists() and out.samefile(description):
            hint = "choose another name for the sheet"
            return file_error(
                "unwritable-file", "this is the description itself", given=str(out), hint=hint
            )
        if out.suffix.lower() != ".pdf":
            hint = f"write --out {out.stem}.pdf"
            return file_error(
                "unwritable-file",
                "a sheet is a PDF, and its name ends in .pdf",
                given=str(out),
                hint=hint,
            )
    except (OSError, ValueError) as problem:
        return file_error("unwritable-file", reason(problem), given=str(out))
    return None


def write(pdf: bytes, out: Path) -> Diagnostic | None:
    """Write the whole file or nothing; why, if nothing."""
    from sheetgen.archive.files import write_whole

    try:
        write_whole(out, pdf)
    except OSError as problem:
        return file_error("unwritable-file", reason(problem), given=str(out))
    return None


def maker_of(sheet: str) -> Callable[..., Document]:
    """What lays out a sheet, imported now: ``layout/x.py`` ``x_sheet`` for the sheet ``x``."""
    maker: Callable[..., Document] = getattr(
        import_module(f"sheetgen.layout.{sheet}"), f"{sheet}_sheet"
    )
    return maker


def make_sheet(
    outcome: Outcome,
    sheet: str,
    press: Press = AS_DESCRIBED,
    templates: str | None = None,
    *,
    subject: object = None,
    copies: Copies | None = None,
) -> Printed:
    """The sheet of a plan without errors; what was said of the plan is said again.

    ``subject`` is what the sheet is of, if that is another than the plan; with ``copies`` it is
    in the file as often, each with its mark.
    """
    from sheetgen.cli.characters import in_description, in_template
    from sheetgen.draw.boxes import LayoutError
    from sheetgen.draw.fonts import text_width
    from sheetgen.draw.pdf import render

    assert outcome.plan is not None, "only a plan without errors is printed"
    chosen = choose(outcome, sheet, templates)
    if chosen.template is None:
        return Printed(None, chosen.about, chosen.about.diagnostics)
    told = placed((*outcome.diagnostics, *in_description(outcome)), outcome.spans)
    about = chosen.about
    wording = replace(about, diagnostics=in_template(chosen.template, about.source))
    paper, setting = press.choose(outcome.plan.project)
    more: dict[str, Any] = {}
    if sheet in PICTURED:
        more["photographs"], about_pictures = pictures_of(outcome, paper, setting)
        told = placed((*told, *about_pictures), outcome.spans)
        if has_errors(about_pictures):
            return Printed(None, outcome, told)
    try:
        if subject is None:
            subject = _guests_plan(outcome) if sheet in OF_KITS else outcome.plan
        made = maker_of(sheet)(subject, chosen.template, paper, text_width, setting, **more)
        pdf = folded(render(made, sources_of(outcome, chosen), copies), press)
    except LayoutError as problem:
        usual = "choose larger paper with --paper, or “paper” in the description"
        unfit = file_error("does-not-fit", str(problem), hint=problem.hint or usual)
        return Printed(None, outcome, (*told, unfit))
    printed = Printed(pdf, outcome, placed((*told, *made.told), outcome.spans), wording)
    pages = printed.pages // max(1, len(copies.marks) if copies else 1)
    if made.most_pages is not None and pages > SIDES:
        several = _several_sheets(made, pages, press)
        return replace(printed, diagnostics=(*printed.diagnostics, several))
    return printed


def _guests_plan(outcome: Outcome) -> Plan:
    """The plan that guests weave by; only sheets of kits need what it takes."""
    from sheetgen.cli.kits import guests_plan

    return guests_plan(outcome)


def _several_sheets(made: Document, pages: int, press: Press) -> Diagnostic:
    """That a sheet meant to be one takes more of paper."""
    ordinary = "without --large, " if press.large else ""
    return Diagnostic(
        "several-sheets",
        "warning",
        f"“{made.sheet}” takes {pages} pages: {-(-pages // SIDES)} sheets of "
        f"{made.paper.name} for each guest",
        hint=f"{ordinary}on A4 or Letter it is one sheet, two sides",
    )


def sources_of(outcome: Outcome, chosen: Chosen) -> tuple[Attachment, ...]:
    """What a sheet was made from, to travel in it: the description, and a template of one's own."""
    from sheetgen.draw.archival import Attachment

    name = outcome.file.name
    found = [Attachment(name, outcome.data)]
    for own in chosen.own:
        clash = own.file.name.casefold() == name.casefold()
        named = f"{own.file.stem}-templates{own.file.suffix}" if clash else own.file.name
        found.append(Attachment(named, own.data))
    return tuple(found)


def folded(pdf: bytes, press: Press) -> bytes:
    """The pages of a booklet in the order of folding; those of another sheet as they are."""
    if not press.booklet:
        return pdf
    from sheetgen.archive.booklet import fold

    return fold(pdf)
