"""A sheet to a file: takes a planned description, gives the PDF's bytes and writes them whole."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sheetgen.cli.press import AS_DESCRIBED, Press
from sheetgen.cli.run import Outcome, file_error, read_bytes, reason, shown_source
from sheetgen.diagnostics import Diagnostic, placed
from sheetgen.diagnostics import Path as Place
from sheetgen.model.schema import written_key
from sheetgen.resources import data_folder

if TYPE_CHECKING:
    from sheetgen.layout.blocks import Document
    from sheetgen.model.template import Template

_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")


@dataclass(frozen=True, slots=True)
class Printed:
    """A sheet as bytes (None when there is none) and what is worth saying about which file."""

    pdf: bytes | None
    about: Outcome
    diagnostics: tuple[Diagnostic, ...]

    @property
    def pages(self) -> int:
        """Pages of the file, counted by their objects, which stand in it uncompressed."""
        return len(_PAGE.findall(self.pdf or b""))


def default_name(file: Path, sheet: str) -> Path:
    """Where a sheet goes unless it is said otherwise: beside its description."""
    return file.with_name(f"{file.stem}-{sheet}.pdf")


def fault_of(out: Path, description: Path) -> Diagnostic | None:
    """Why a sheet cannot be written to ``out``, as far as that can be told beforehand."""
    try:
        if out.is_dir():
            return file_error("unwritable-file", "this is a folder, not a file", given=str(out))
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


def make_sheet(outcome: Outcome, sheet: str, press: Press = AS_DESCRIBED) -> Printed:
    """The sheet of a plan without errors; what was said of the plan is said again."""
    from sheetgen.draw.boxes import LayoutError
    from sheetgen.draw.fonts import text_width
    from sheetgen.draw.pdf import render
    from sheetgen.layout.loom import loom_sheet

    assert outcome.plan is not None, "only a plan without errors is printed"
    template, about = _own_template(sheet)
    if template is None:
        return Printed(None, about, about.diagnostics)
    told = placed((*outcome.diagnostics, *_unprintable(outcome)), outcome.spans)
    makers: dict[str, Callable[..., Document]] = {"loom": loom_sheet}
    paper, setting = press.choose(outcome.plan.project)
    try:
        document = makers[sheet](outcome.plan, template, paper, text_width, setting)
        return Printed(_folded(render(document), press), outcome, told)
    except LayoutError as problem:
        hint = "choose larger paper with --paper, or “paper” in the description"
        unfit = file_error("does-not-fit", str(problem), hint=hint)
        return Printed(None, outcome, (*told, unfit))


def _folded(pdf: bytes, press: Press) -> bytes:
    """The pages of a booklet in the order of folding; those of another sheet as they are."""
    if not press.booklet:
        return pdf
    from sheetgen.archive.booklet import fold

    return fold(pdf)


def _own_template(sheet: str) -> tuple[Template | None, Outcome]:
    """The template that came with the program, and what there is to say about it."""
    from sheetgen.read.templates import read_template

    file = data_folder("templates") / f"{sheet}.yaml"
    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return None, Outcome(file, diagnostics=(data,))
    read = read_template(data)
    return read.template, Outcome(file, data, shown_source(data), diagnostics=read.diagnostics)


def _unprintable(outcome: Outcome) -> list[Diagnostic]:
    """A warning for every text that contains a character for which the fonts have no shape."""
    from sheetgen.draw.fonts import missing_characters

    assert outcome.plan is not None, "only a plan without errors is printed"
    found = []
    for place, text in _texts(outcome.plan.project, ()):
        missing = missing_characters(text)
        if missing:
            named = ", ".join(f"“{c}” (U+{ord(c):04X})" for c in missing[:5])
            more = " and others" if len(missing) > 5 else ""
            found.append(
                Diagnostic(
                    "no-such-character",
                    "warning",
                    f"the fonts cannot print {named}{more}: an empty box will stand there",
                    place,
                    hint="write it in Latin, Greek or Cyrillic letters",
                )
            )
    return found


def _texts(value: Any, place: Place) -> Iterator[tuple[Place, str]]:
    """Every text in a part of the model, with its place in the description."""
    if isinstance(value, str):
        yield place, value
    elif is_dataclass(value):
        for each in fields(value):
            yield from _texts(getattr(value, each.name), (*place, written_key(each.name)))
    elif isinstance(value, tuple):
        for i, item in enumerate(value):
            yield from _texts(item, (*place, getattr(item, "name", i)))
