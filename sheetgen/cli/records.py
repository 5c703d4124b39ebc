"""All records below a folder: takes its path, gives a row for each and what cannot be read.

Of every file only its row and a digest are kept, so that ten thousand fit into little memory.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from sheetgen.archive.attached import NOT_OURS, Inside, inside_each
from sheetgen.archive.folder import MOST_FILES, files_below
from sheetgen.archive.recover import fault_of
from sheetgen.cli.cores import spread
from sheetgen.cli.progress import progress
from sheetgen.cli.run import MOST_BYTES, read_bytes, reason
from sheetgen.diagnostics import Diagnostic

if TYPE_CHECKING:
    from sheetgen.plan.rows import Row

DESCRIPTIONS, SHEETS = (".yaml", ".yml"), (".pdf",)
FEW, AT_A_TIME = 50, 16
"""Descriptions that are worth another process, and that it takes at once: one takes a moment."""
FEW_SHEETS = 8
"""PDFs that are worth another process to read them."""


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

    def of_year(self, year: str) -> Found:
        """The same with the rows of one year only."""
        return replace(self, rows=[row for row in self.rows if row.year == year])


class Looked(NamedTuple):
    """What came of one description: its digest, and its row or why there is none.

    Neither is there of what is no record at all.
    """

    digest: bytes
    row: Row | None = None
    why: str = ""


def records_below(folder: Path) -> Found:
    """Read every record below a folder, on every core, telling how far it is.

    Descriptions are looked at before PDFs, so that of a piece filed as both the description is
    the one that is named; the same bytes count once. OSError if the folder cannot be opened.
    """
    found, seen = Found(), set[bytes]()
    names = [
        path.relative_to(folder).as_posix() for path in files_below(folder, DESCRIPTIONS + SHEETS)
    ]
    found.all_seen = len(names) <= MOST_FILES
    sheets = [name for name in names[:MOST_FILES] if name.lower().endswith(SHEETS)]
    texts = [name for name in names[:MOST_FILES] if not name.lower().endswith(SHEETS)]
    with (
        spread(texts, partial(_look_into, folder), FEW, AT_A_TIME) as each,
        progress("reading records", len(texts) + len(sheets)) as work,
    ):
        for name, looked in zip(texts, each, strict=True):
            _take(looked, name, found, seen)
            work.step()
        for name, data in _in_sheets(folder, sheets, found):
            for one in data:
                digest = hashlib.sha256(one).digest()
                _take(Looked(digest) if digest in seen else _look_at(one, name), name, found, seen)
            work.step()
    found.rows.sort(key=_by_number)
    return found


def _look_into(folder: Path, name: str) -> Looked | Unread:
    """What one description comes to."""
    data = read_bytes(folder / name)
    return Unread(name, data.message) if isinstance(data, Diagnostic) else _look_at(data, name)


def _look_at(data: bytes, name: str) -> Looked:
    """What the bytes of a description come to that was found in the file ``name``."""
    digest = hashlib.sha256(data).digest()
    if len(data) > MOST_BYTES or b"piece" not in data or b"form" not in data:
        return Looked(digest)  # a template, a stash, anything else
    from sheetgen.plan.gist import gist_of
    from sheetgen.plan.rows import row_of
    from sheetgen.read import read_quickly

    read = read_quickly(data)
    if read.project is None:
        first = next(d for d in read.diagnostics if d.severity == "error")
        line = f"line {first.span.line}: " if first.span else ""
        return Looked(digest, why=f"{line}{first.message}")
    return Looked(digest, row_of(gist_of(read.project), name))


def _in_sheets(
    folder: Path, names: list[str], found: Found
) -> Iterator[tuple[str, Iterable[bytes]]]:
    """The descriptions in each PDF, none or more; why there is none is noted."""
    hands = max(1, min(os.cpu_count() or 1, len(names) // FEW_SHEETS))
    each = inside_each((folder / name for name in names), hands)
    for name, inside in zip(names, each, strict=True):
        yield name, _descriptions(inside, name, found)


def _descriptions(inside: Inside, name: str, found: Found) -> list[bytes]:
    if isinstance(inside, OSError):
        found.unread.append(Unread(name, reason(inside)))
    elif isinstance(inside, str) and inside in NOT_OURS:
        found.others += 1
    elif isinstance(inside, str):
        found.unread.append(Unread(name, fault_of(inside).message))
    else:
        return [data for file, data in inside if file.lower().endswith(DESCRIPTIONS)]
    return []


def _take(looked: Looked | Unread, name: str, found: Found, seen: set[bytes]) -> None:
    """Note what came of a description, once for the same bytes."""
    if isinstance(looked, Unread):
        found.unread.append(looked)
    elif looked.digest in seen:
        found.copies += 1
    else:
        seen.add(looked.digest)
        if looked.row is not None:
            found.rows.append(looked.row)
        elif looked.why:
            found.unread.append(Unread(name, looked.why))
        else:
            found.others += 1


def _by_number(row: Row) -> tuple[bool, list[tuple[int, int | str]], str]:
    """SW-2 before SW-10; rows without a number last, by their files."""
    from sheetgen.plan.rows import in_order

    return not row.number, in_order(row.number), row.file
