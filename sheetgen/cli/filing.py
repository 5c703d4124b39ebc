"""A piece to the shelf: takes a planned description, gives the files of its record by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.archive.folder import lies_in
from sheetgen.archive.numbers import folder_name
from sheetgen.archive.shelf import Shelf, TakenError
from sheetgen.cli.press import SHEETS
from sheetgen.cli.run import MOST_BYTES, Outcome, file_error, plan_data, reason
from sheetgen.diagnostics import Diagnostic

if TYPE_CHECKING:
    from sheetgen.model.project import Project

RECORD = "record" if "record" in SHEETS else "loom"
"""The sheet that is filed."""


def file_piece(
    outcome: Outcome, shelf: Shelf, prefix: str, templates: str | None, *, again: bool
) -> tuple[Path, str] | Outcome:
    """File a piece: its folder and number, or what is wrong. OSError if it cannot be written."""
    assert outcome.plan is not None, "only a plan without errors is filed"
    project, source = outcome.plan.project, outcome.data
    number = project.number
    try:
        if number is not None:
            shelf.claim_own(number, source, replace=again, file=outcome.file)
        elif before := shelf.filed_as(source):
            if not again:
                raise TakenError(before, str(shelf.place(before)))
            number = before
        else:
            number = shelf.claim_next(prefix, source)
    except TakenError as taken:
        return replace(outcome, diagnostics=(_taken(taken, project),))
    if project.number is None:
        numbered = with_number(outcome, number)
        if numbered is None:
            return replace(outcome, diagnostics=(_unnumbered(number),))
        outcome = numbered
    files = _record(outcome, folder_name(number), templates)
    if isinstance(files, Outcome):
        return files
    return shelf.put(number, source, files), number


def with_number(outcome: Outcome, number: str) -> Outcome | None:
    """The description with a line for its number, all else unchanged; None if that cannot be."""
    assert outcome.plan is not None, "only a plan without errors is filed"
    from sheetgen.read import read_description

    before = read_description(outcome.data).project
    for data in _with_line(outcome, number):
        after = read_description(data).project
        if before and after and after == replace(before, number=number):
            return plan_data(outcome.file, data)
    return None


def _with_line(outcome: Outcome, number: str) -> Iterator[bytes]:
    """The bytes with the line before the first key, and with the line at the end."""
    data = outcome.data
    end = b"\r\n" if b"\r\n" in data else b"\n"
    line = f'number: "{number}"'.encode() + end
    first = min(span.line for path, span in outcome.spans.items() if len(path) == 1)
    lines = data.splitlines(keepends=True)
    mark = b"\xef\xbb\xbf" if first == 1 and data.startswith(b"\xef\xbb\xbf") else b""
    rest = b"".join(lines[first - 1 :]).removeprefix(mark)
    yield b"".join(lines[: first - 1]) + mark + line + rest
    yield data + (b"" if data.endswith((b"\n", b"\r")) else end) + line


def _record(outcome: Outcome, name: str, templates: str | None) -> dict[str, bytes] | Outcome:
    """Description, sheet, and what the description names below its folder."""
    from sheetgen.cli.printing import make_sheet

    assert outcome.plan is not None, "only a plan without errors is filed"
    project = outcome.plan.project
    outcome = replace(outcome, file=outcome.file.with_name(f"{name}.yaml"))
    printed = make_sheet(outcome, RECORD, templates=templates)
    if printed.pdf is None:
        return replace(printed.about, diagnostics=printed.diagnostics)
    files = {f"{name}.yaml": outcome.data}
    try:  # after the sheet, which tells of what is no picture, or a pipe without end
        for inside in _named(project, outcome.file.parent):
            files[inside] = (outcome.file.parent / inside).read_bytes()
    except OSError as problem:
        told = file_error("unreadable-file", reason(problem), given=inside)
        return replace(outcome, diagnostics=(told,))
    files[f"{name}.pdf"] = printed.pdf
    return files


def _named(project: Project, folder: Path) -> Iterator[str]:
    """Photographs and templates of its own that a description names, as paths below its folder."""
    for photograph in project.made.photographs if project.made else ():
        if lies_in(folder / photograph.file, folder):
            yield photograph.file
    if project.templates:
        for sheet in SHEETS:
            inside = f"{project.templates}/{sheet}.yaml"
            file = folder / inside
            fits = file.is_file() and file.stat().st_size <= MOST_BYTES
            if fits and lies_in(file, folder):
                yield inside


def _taken(taken: TakenError, project: Project) -> Diagnostic:
    own = project.number is not None
    return file_error(
        "number-taken",
        f"{'this number' if own else 'this very description'} is filed already",
        given=taken.number,
        hint=f"see {taken.where}; --replace puts this in its place"
        + (", another number beside it" if own else ""),
    )


def _unnumbered(number: str) -> Diagnostic:
    return file_error(
        "no-room-for-number",
        "no line for the number can be put into this description",
        hint=f"write it yourself: number: {number}",
    )
