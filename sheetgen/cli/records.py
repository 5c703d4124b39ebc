"""All records below a folder: takes its path, gives a row for each and what cannot be read.

Of every file only its row and a digest are kept, so that ten thousand fit into little memory.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from sheetgen.archive.attached import NOT_OURS, Reading, reading
from sheetgen.archive.folder import MOST_FILES, files_below
from sheetgen.archive.recover import fault_of
from sheetgen.cli.run import MOST_BYTES, read_bytes, reason
from sheetgen.diagnostics import Diagnostic

if TYPE_CHECKING:
    from sheetgen.plan.rows import Row

DESCRIPTIONS, SHEETS = (".yaml", ".yml"), (".pdf",)


class Unread(NamedTuple):
    """A file that no row could be had of, and why."""

    file: str
    why: str


@dataclass(slots=True)
class Found:
    """The rows by number; what could not be read; files that are not records; whether all."""

    rows: list[Row] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    others: int = 0
    copies: int = 0
    all_seen: bool = True

    @property
    def twice(self) -> dict[str, list[str]]:
        """Numbers that more than one record has, with the files."""
        by_number: dict[str, list[str]] = {}
        for row in self.rows:
            if row.number:
                by_number.setdefault(row.number, []).append(row.file)
        return {number: files for number, files in by_number.items() if len(files) > 1}


def records_below(folder: Path, step: Callable[[], None] = lambda: None) -> Found:
    """Read every record below a folder; ``step`` is called after each file.

    Descriptions are looked at before PDFs, so that of a piece filed as both the description is
    the one that is named; the same bytes count once. OSError if the folder cannot be opened.
    """
    found, seen = Found(), set[bytes]()
    left = MOST_FILES
    with reading() as pdfs:
        for path in _both(folder):
            if not left:
                found.all_seen = False
                break
            left -= 1
            name = path.relative_to(folder).as_posix()
            for data in _descriptions_in(path, name, found, pdfs):
                _take(data, name, found, seen)
            step()
    found.rows.sort(key=_by_number)
    return found


def _both(folder: Path) -> Iterator[Path]:
    """All descriptions, then all PDFs."""
    yield from files_below(folder, DESCRIPTIONS)
    yield from files_below(folder, SHEETS)


def _descriptions_in(path: Path, name: str, found: Found, pdfs: Reading) -> list[bytes]:
    """The description in a file, none or more; why there is none is noted."""
    if path.suffix.lower() in DESCRIPTIONS:
        data = read_bytes(path)
        if isinstance(data, Diagnostic):
            found.unread.append(Unread(name, data.message))
            return []
        return [data]
    try:
        inside = pdfs.files_in(path)
    except OSError as problem:
        found.unread.append(Unread(name, reason(problem)))
        return []
    if isinstance(inside, str):
        if inside in NOT_OURS:
            found.others += 1
        else:
            found.unread.append(Unread(name, fault_of(inside).message))
        return []
    return [data for file, data in inside if file.lower().endswith(DESCRIPTIONS)]


def _take(data: bytes, name: str, found: Found, seen: set[bytes]) -> None:
    """Add the row of a description that was not seen before."""
    digest = hashlib.sha256(data).digest()
    if digest in seen:
        found.copies += 1
        return
    seen.add(digest)
    if len(data) > MOST_BYTES or b"piece" not in data or b"form" not in data:
        found.others += 1  # a template, a stash, anything else
        return
    from sheetgen.plan.planner import make_plan
    from sheetgen.plan.rows import row_of
    from sheetgen.read import read_description

    read = read_description(data)
    if read.project is None:
        first = next(d for d in read.diagnostics if d.severity == "error")
        line = f"line {first.span.line}: " if first.span else ""
        found.unread.append(Unread(name, f"{line}{first.message}"))
        return
    found.rows.append(row_of(make_plan(read.project).plan, name))


def _by_number(row: Row) -> tuple[bool, list[tuple[int, int | str]], str]:
    """SW-2 before SW-10; rows without a number last, by their files."""
    parts = re.findall(r"\d+|\D+", row.number.casefold())
    key: list[tuple[int, int | str]] = [
        (0, int(p)) if p.isdecimal() and p.isascii() else (1, p) for p in parts
    ]
    return not row.number, key, row.file
