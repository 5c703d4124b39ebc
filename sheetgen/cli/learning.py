"""What pieces made before teach: takes a folder of descriptions, gives their Learning.

Only descriptions are read, not the PDFs of them: the record of a filed piece lies beside its
description, and reading a PDF would make every print wait.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
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
    from sheetgen.archive.folder import files_below

    for path in files_below(folder, ENDINGS):
        gathering.look_at(path)
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
    try:
        if not folder.is_dir():
            return file_error(
                "no-such-register",
                "there is no such folder of pieces made before",
                given=str(folder),
                hint="sheetgen file makes one; or leave it out",
            )
        if inside is not None and not folder.resolve().is_relative_to(inside.resolve()):
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


class _Gathering:
    """The measured pieces by name, each once."""

    def __init__(self, own: bytes, number: str | None) -> None:
        self.pieces: dict[str, MadePiece] = {}
        self._seen = {hashlib.sha256(own).digest()}
        self._numbers = {number} if number else set[str]()
        self._own = number
        self._unread = self._twice = 0

    def look_at(self, path: Path) -> None:
        """Take what one description teaches, if it holds what was made."""
        data = read_bytes(path)
        if isinstance(data, Diagnostic):
            self._unread += 1
            return
        digest = hashlib.sha256(data).digest()
        if b"made" not in data or digest in self._seen:
            return
        self._seen.add(digest)
        from sheetgen.plan.measured import measured_piece
        from sheetgen.read import read_description

        project = read_description(data).project
        if project is None:
            self._unread += 1
            return
        if project.number is not None:
            if project.number in self._numbers:
                self._twice += project.number != self._own
                return
            self._numbers.add(project.number)
        piece = measured_piece(project, self._name(project, path))
        if piece is not None:
            self.pieces[piece.name] = piece

    def _name(self, project: Project, path: Path) -> str:
        """Its number, else the file's name; told apart where two files are named alike."""
        name = project.number or path.stem
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
