"""The stages in a row: takes a file's name, gives its plan and all there is to say about it."""

from __future__ import annotations

import errno
import os
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.diagnostics import Diagnostic, has_errors, placed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sheetgen.diagnostics import Path as Place
    from sheetgen.diagnostics import Span
    from sheetgen.model.project import Project
    from sheetgen.model.stash import Stash
    from sheetgen.plan.learning import Learning
    from sheetgen.plan.plan import Plan
    from sheetgen.read import ReadResult

MOST_BYTES = 500_000
"""A description larger than this is a mistake; it is not even read to its end."""

_REASONS = {
    errno.ENOENT: "there is no such file",
    errno.ENOTDIR: "there is no such file",
    errno.EISDIR: "this is a folder, not a file",
    errno.EACCES: "it is not allowed to be opened",
    errno.EPERM: "it is not allowed to be opened",
    errno.ENAMETOOLONG: "the name is too long",
    errno.ENOSPC: "the disc is full",
    errno.EDQUOT: "the disc is full for this user",
    errno.EROFS: "the disc can only be read",
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a description: ``plan`` is None whenever there is an error.

    ``data`` are its bytes and ``source`` its text as far as it can be shown; ``diagnostics`` are
    sorted by place.
    """

    file: Path
    data: bytes = b""
    source: str = ""
    plan: Plan | None = None
    spans: Mapping[Place, Span] = field(default_factory=dict)
    diagnostics: tuple[Diagnostic, ...] = ()
    kit: Plan | None = None
    """The plan of the kit's piece, where the description has a kit."""

    @property
    def failed(self) -> bool:
        """True when nothing may be written."""
        return has_errors(self.diagnostics)


@dataclass(frozen=True, slots=True)
class StashOutcome:
    """What came of a stash: None whenever there is an error; ``about`` says what is wrong."""

    about: Outcome
    stash: Stash | None


def plan_file(file: Path, register: Path | None = None) -> Outcome:
    """Read and plan one description. What is wrong with it or with the file is handed back.

    What was measured on the pieces in ``register``, or in the folder that the description names,
    is used in the plan.
    """
    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return Outcome(file, diagnostics=(data,))
    return plan_data(file, data, register)


def plan_data(file: Path, data: bytes, register: Path | None = None) -> Outcome:
    """The same of bytes that are taken for those of ``file``."""
    from sheetgen.read import read_description

    read = read_description(data)
    told = read.diagnostics
    if read.project is not None:
        from sheetgen.plan.planner import make_plan

        learning, asked = None, tuple[Diagnostic, ...]()
        if register is not None or read.project.register is not None:
            from sheetgen.cli.learning import learn

            learning, asked = learn(file, data, read.project, register)
        planned = make_plan(read.project, learning)
        told = placed((*told, *asked, *planned.diagnostics), read.spans)
        kit, kit_told = _plan_kit(read, learning, told)
        told = placed((*told, *kit_told), read.spans)
        if not has_errors(told):
            source = shown_source(data)
            return Outcome(file, data, source, planned.plan, read.spans, told, kit)
    return Outcome(file, data, shown_source(data), None, read.spans, told)


def _plan_kit(
    read: ReadResult, learning: Learning | None, told: tuple[Diagnostic, ...]
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """The plan of the kit's piece, if there is one, and what is to be said of it alone."""
    from sheetgen.plan.planner import make_plan
    from sheetgen.read import told_of_kit

    if read.project is None or read.project.kit_piece is None:
        return None, ()
    planned = make_plan(read.project.kit_piece, learning)
    found = placed(planned.diagnostics, read.kit_spans)
    return planned.plan, told_of_kit(found, told, read.spans)


def read_file(file: Path) -> tuple[Outcome, Project | None]:
    """A description that is read and not planned, and all there is to say about it."""
    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return Outcome(file, diagnostics=(data,)), None
    from sheetgen.read import read_description

    read = read_description(data)
    about = Outcome(file, data, shown_source(data), None, read.spans, read.diagnostics)
    return about, read.project


def stash_file(file: Path) -> StashOutcome:
    """Read a stash. What is wrong with it or with the file is handed back."""
    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return StashOutcome(Outcome(file, diagnostics=(data,)), None)
    return read_as_stash(file, data)


def read_as_stash(file: Path, data: bytes) -> StashOutcome:
    """The stash that these bytes of a file are, and all there is to say about it."""
    from sheetgen.read.stash import read_stash

    read = read_stash(data)
    about = Outcome(file, data, shown_source(data), None, read.spans, read.diagnostics)
    return StashOutcome(about, read.stash)


def read_bytes(file: Path) -> bytes | Diagnostic:
    """The bytes of a file, or why there are none."""
    try:
        with file.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as problem:
        return file_error("unreadable-file", reason(problem), given=str(file), hint=_meant(file))
    if len(data) > MOST_BYTES:
        return file_error(
            "too-large",
            "the file is far larger than a description can be",
            allowed=f"up to {MOST_BYTES} bytes",
            hint="is it the right file?",
        )
    return data


def _meant(file: Path) -> str:
    """The description whose ending was left out, where there is one."""
    with suppress(OSError, ValueError):
        for ending in (".yaml", ".yml"):
            longer = file.with_name(f"{file.name}{ending}")
            if not file.exists() and longer.is_file():
                return f"did you mean {longer}?"
    return ""


def file_error(code: str, message: str, **more: str) -> Diagnostic:
    """A diagnostic about a file as a whole."""
    return Diagnostic(code, "error", message, **more)  # type: ignore[arg-type]


def reason(problem: OSError | ValueError) -> str:
    """Why a file could not be opened or written, in one line."""
    if not isinstance(problem, OSError):
        return "this cannot be the name of a file"
    number = problem.errno or 0
    return _REASONS.get(number) or (os.strerror(number).lower() if number else str(problem))


def shown_source(data: bytes) -> str:
    """The text as the reader counts its lines and columns, for showing only."""
    text = data.decode("utf-8", errors="replace").removeprefix("\ufeff")
    return text.replace("\r\n", "\n").replace("\r", "\n")
