"""What pieces made before teach: takes a folder of descriptions, gives their Learning.

Only descriptions are read, not the PDFs of them: the record of a filed piece lies beside its
description, and reading a PDF would make every print wait.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.cli.run import file_error, read_bytes, reason
from sheetgen.diagnostics import Diagnostic

if TYPE_CHECKING:
    from sheetgen.model.project import Project
    from sheetgen.plan.learning import Learning, MadePiece

HERE = ("register",)
"""Where a description says where the pieces made before are."""
ENDINGS = (".yaml", ".yml")
FEW, AT_A_TIME = 50, 16
"""Descriptions that are worth another process, and that it takes at once."""


def learn(
    file: Path, data: bytes, project: Project, typed: Path | None
) -> tuple[Learning | None, tuple[Diagnostic, ...]]:
    """What the pieces in the folder teach, and what is wrong with it; ``typed`` outranks the key.

    The description ``file`` itself (``data`` are its bytes) teaches nothing of itself.
    """
    from sheetgen.plan.learning import Learning

    folder = typed if typed is not None else file.parent / (project.register or "")
    fault = _fault_of(folder, None if typed is not None else file.parent)
    if fault:
        return None, (_of_key(fault) if typed is None else fault,)
    gathering = _Gathering(data, project.number)
    for path, taught in _all_taught(folder):
        gathering.take(path, taught)
    pieces = sorted(gathering.pieces.values(), key=lambda piece: piece.name)
    return Learning(tuple(pieces)), gathering.told(folder)


def _of_key(fault: Diagnostic) -> Diagnostic:
    """A fault of the folder that a description names; of one that is not there only a warning.

    The description may have been filed since, far from that folder.
    """
    gone = fault.code == "no-such-register"
    return replace(fault, path=HERE, severity="warning" if gone else "error")


def _fault_of(folder: Path, inside: Path | None) -> Diagnostic | None:
    """Why the folder cannot be asked: it is not there, or (by links, too) not ``inside``."""
    from sheetgen.archive.folder import lies_in

    try:
        if not folder.is_dir():
            return file_error(
                "no-such-register",
                "there is no such folder of pieces made before",
                given=str(folder),
                hint="sheetgen file makes one; or leave it out",
            )
        if inside is not None and not lies_in(folder, inside):
            return file_error(
                "register-outside",
                "the register lies outside the folder of the description",
                given=str(folder),
                hint="name it with --register",
            )
        next(folder.iterdir(), None)
    except (OSError, ValueError) as problem:
        return file_error("no-such-register", reason(problem), given=str(folder))
    return None


@dataclass(frozen=True, slots=True)
class _Taught:
    """What one description teaches: nothing if it cannot be read or holds nothing made."""

    digest: bytes
    unread: bool = False
    number: str | None = None
    piece: MadePiece | None = None


_KNOWN: dict[tuple[str, int, int], _Taught] = {}
"""What the files teach that were read already, by path, moment of change and size.

While the process lasts: of many pieces printed at once each would read the register anew.
"""


def _all_taught(folder: Path) -> Iterator[tuple[Path, _Taught]]:
    """Every description below the folder and what it teaches; new ones are read on every core."""
    from sheetgen.archive.folder import files_below
    from sheetgen.cli.cores import spread
    from sheetgen.cli.progress import progress

    marked = [(path, _mark(path)) for path in files_below(folder, ENDINGS)]
    new = [path for path, mark in marked if mark not in _KNOWN]
    with (
        spread(new, _taught_by, FEW, AT_A_TIME) as each,
        progress("reading pieces made before", len(new)) as work,
    ):
        for path, mark in marked:
            if mark not in _KNOWN:
                _KNOWN[mark] = next(each)
                work.step()
            yield path, _KNOWN[mark]


def _mark(path: Path) -> tuple[str, int, int]:
    """What tells a file from its next version."""
    try:
        told = path.stat()
    except OSError:
        return str(path), 0, -1
    return str(path), told.st_mtime_ns, told.st_size


def _taught_by(path: Path) -> _Taught:
    """What one description teaches, if it holds what was made."""
    data = read_bytes(path)
    if isinstance(data, Diagnostic):
        return _Taught(b"", unread=True)
    digest = hashlib.sha256(data).digest()
    if b"made" not in data:
        return _Taught(digest)
    from sheetgen.plan.measured import measured_piece
    from sheetgen.read import read_quickly

    project = read_quickly(data).project
    if project is None:
        return _Taught(digest, unread=True)
    piece = measured_piece(project, project.number or path.stem)
    return _Taught(digest, number=project.number, piece=piece)


class _Gathering:
    """The measured pieces by name, each once."""

    def __init__(self, own: bytes, number: str | None) -> None:
        self.pieces: dict[str, MadePiece] = {}
        self._seen = {hashlib.sha256(own).digest()}
        self._numbers = {number} if number else set[str]()
        self._own = number
        self._unread = self._twice = 0

    def take(self, path: Path, taught: _Taught) -> None:
        """Take what one description teaches, unless it is here already."""
        if taught.unread and not taught.digest:
            self._unread += 1
            return
        if taught.digest in self._seen:
            return
        self._seen.add(taught.digest)
        self._unread += taught.unread
        if taught.number is not None:
            if taught.number in self._numbers:
                self._twice += taught.number != self._own
                return
            self._numbers.add(taught.number)
        if taught.piece is not None:
            piece = replace(taught.piece, name=self._free(taught.piece.name))
            self.pieces[piece.name] = piece

    def _free(self, name: str) -> str:
        """Its number, else its file's name; told apart where two files are named alike."""
        while name in self.pieces:
            name += "′"
        return name

    def told(self, folder: Path) -> tuple[Diagnostic, ...]:
        """A warning where something of the register could not be used."""
        parts = []
        if self._unread:
            parts.append(f"{_files(self._unread)} cannot be read")
        if self._twice:
            parts.append(f"{_files(self._twice)} with the number of another left out")
        if not parts:
            return ()
        hint = f"sheetgen register {folder} lists them"
        return (
            Diagnostic(
                "register-faulty", "warning", f"pieces made before: {'; '.join(parts)}", hint=hint
            ),
        )


def _files(count: int) -> str:
    return f"{count} file" if count == 1 else f"{count} files"
