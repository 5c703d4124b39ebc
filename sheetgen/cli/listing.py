"""The register in every form: takes the rows found, gives a table, CSV, JSON or a PDF."""

from __future__ import annotations

import csv
import json
from dataclasses import asdict
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sheetgen import amounts
from sheetgen.cli.run import file_error, reason
from sheetgen.cli.sets import USUAL, names, shipped
from sheetgen.cli.terminal import cells, padded, seen
from sheetgen.diagnostics import Diagnostic

if TYPE_CHECKING:
    from sheetgen.cli.records import Found
    from sheetgen.plan.rows import Row

SHEET = "register"
_GAP = "  "
_HEADS = ("number", "piece", "form", "find", "date", "size", "file")
_LEAST = (6, 12, 4, 8, 10, 12, 10)
"""Columns that a text is cut down to where the window is narrow."""


def counted(found: Found) -> str:
    """How many pieces, and what else was met with."""
    pieces = len(found.rows)
    parts = [f"{pieces} piece{'' if pieces == 1 else 's'}"]
    if found.copies:
        parts.append(f"{found.copies} further file{'' if found.copies == 1 else 's'} of the same")
    if found.others:
        parts.append(f"{found.others} file{'' if found.others == 1 else 's'} of another kind")
    if found.unread:
        parts.append(f"{len(found.unread)} unreadable")
    return ", ".join(parts)


def table(found: Found, width: int) -> str:
    """A line a piece in at most ``width`` columns, long texts cut; the count below."""
    rows = [_HEADS, *(_cells(row) for row in found.rows)]
    wide = [max(cells(row[i]) for row in rows) for i in range(len(_HEADS))]
    room = width - len(_GAP) * (len(_HEADS) - 1)
    while sum(wide) > room:
        most = max(range(len(wide)), key=lambda i: wide[i] - _LEAST[i])
        if wide[most] <= _LEAST[most]:
            break
        wide[most] -= 1
    lines = [
        _GAP.join(padded(_cut(text, w), w) for text, w in zip(row, wide, strict=True)).rstrip()
        for row in rows
    ]
    note = "; * as planned, not measured" if any("*" in row[5] for row in rows) else ""
    return "\n".join([*(lines if found.rows else []), counted(found) + note])


def _cells(row: Row) -> tuple[str, ...]:
    what = "width" if row.width is not None else "thickness"
    across = row.width if row.width is not None else row.thickness
    sizes = [
        f"{amounts.length(value)}{'' if name in row.made else '*'}"
        for name, value in ((what, across), ("length", row.length))
        if value is not None
    ]
    texts = (row.number, row.piece, row.form, row.find, row.date, " × ".join(sizes), row.file)
    return tuple(seen(text) for text in texts)


def _cut(text: str, width: int) -> str:
    if cells(text) <= width:
        return text
    while text and cells(text) > width - 1:
        text = text[:-1]
    return f"{text}…"


def as_csv(found: Found) -> bytes:
    """A line a piece, lengths in mm and times in min; UTF-8 with a mark, as spreadsheets want it.

    A text that a spreadsheet would take for a formula gets an apostrophe before it.
    """
    out = StringIO()
    writer = csv.writer(out)
    for i, row in enumerate(found.rows):
        entry = _entry(row)
        if not i:
            writer.writerow(entry)
        writer.writerow([_harmless(value) for value in entry.values()])
    return out.getvalue().encode("utf-8-sig", "replace")  # a file may be named in no letters


def _harmless(value: object) -> object:
    if isinstance(value, list | tuple):
        value = "; ".join(map(str, value))
    dangerous = isinstance(value, str) and value[:1] in tuple("=+-@\t\r")
    return f"'{value}" if dangerous else value


def _entry(row: Row) -> dict[str, Any]:
    """The row by the names that CSV and JSON use, with the units in them."""
    units = {"length": "length mm", "thickness": "thickness mm", "width": "width mm"}
    values = asdict(row) | {"year": row.year}
    named = {units.get(key, key): value for key, value in values.items()}
    named["measured"] = named.pop("made")
    return {
        key: round(value, 3) if isinstance(value, float) else value for key, value in named.items()
    }


def as_json(found: Found) -> str:
    """Everything for a program to read."""
    content = {
        "pieces": [_entry(row) for row in found.rows],
        "numbers_twice": found.twice,
        "unreadable": [{"file": file, "why": why} for file, why in found.unread],
        "copies": found.copies,
        "other_files": found.others,
        "complete": found.all_seen,
    }
    return json.dumps(content, indent=2, ensure_ascii=False)


def as_pdf(found: Found, folder: str, templates: str, paper: str) -> bytes:
    """The register with its index."""
    from sheetgen.draw.pdf import render
    from sheetgen.layout.paper import PAPERS
    from sheetgen.layout.register import register_sheet

    template = shipped(SHEET, templates).template
    assert template is not None, "the program's own templates are sound"
    document = register_sheet(
        found.rows,
        found.twice,
        found.unread,
        template,
        PAPERS[paper],
        folder=folder,
        all_seen=found.all_seen,
    )
    return render(document)


def fault_of(out: Path | None, csv_file: Path | None, templates: str) -> Diagnostic | None:
    """Why the files cannot be written, as far as that can be told beforehand."""
    if out is not None and out.suffix.lower() != ".pdf":
        return file_error("unwritable-file", "the name of a PDF ends in .pdf", given=str(out))
    if csv_file is not None and csv_file.suffix.lower() != ".csv":  # never over a description
        return file_error("unwritable-file", "its name ends in .csv", given=str(csv_file))
    for file in filter(None, (out, csv_file)):
        if file.is_dir() or not file.absolute().parent.is_dir():
            what = "this is a folder, not a file" if file.is_dir() else "there is no such folder"
            return file_error("unwritable-file", what, given=str(file))
    known = names(SHEET)
    if templates not in known:
        return file_error(
            "no-such-templates",
            "there is no set of that name",
            given=templates,
            allowed=", ".join(known),
            hint=f"leave it out for {USUAL}",
        )
    return None


def write(data: bytes, file: Path) -> Diagnostic | None:
    """Write the whole file or nothing; why, if nothing."""
    from sheetgen.archive.files import write_whole

    try:
        write_whole(file, data)
    except OSError as problem:
        return file_error("unwritable-file", reason(problem), given=str(file))
    return None
