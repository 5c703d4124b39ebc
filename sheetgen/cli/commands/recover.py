"""``sheetgen recover``: the description out of a printed sheet."""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli.telling import AT_FAULT, DONE, done, quiet_option, tell
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sheetgen.archive.recover import Recovered
    from sheetgen.diagnostics import Diagnostic

_ENDINGS = (".yaml", ".yml", ".txt")
"""What the name of a description ends in; any other name is that of a folder."""


@dataclass(frozen=True, slots=True)
class _Target:
    """A file to write, and whether it is there already with the same bytes."""

    path: Path
    data: bytes
    same: bool


@click.command("recover", epilog="Example: sheetgen recover garter-loom.pdf --out found/")
@click.argument("pdf", type=Path, metavar="FILE")
@click.option(
    "--out",
    type=Path,
    metavar="FILE|DIR",
    help="Folder, or the description's new name; left out, the current folder.",
)
@click.option("--overwrite", is_flag=True, help="Replace a file that is there already.")
@click.option("--json", "as_json", is_flag=True, help="Write a line of JSON for a program to read.")
@quiet_option
def recover_command(pdf: Path, out: Path | None, overwrite: bool, as_json: bool) -> int:
    """Get the description, and a template of your own, back out of the sheet FILE (a PDF)."""
    from sheetgen.cli.report import as_json as reported
    from sheetgen.cli.run import Outcome

    targets, faults = _targets(pdf, out, overwrite)
    if not faults:
        faults = [fault for each in targets if (fault := _written(each, overwrite))]
    if as_json:
        files = [] if faults else [{"file": str(t.path), "bytes": len(t.data)} for t in targets]
        say(json.dumps({**reported(str(pdf), faults), "recovered": files}))
        return AT_FAULT if faults else DONE
    if faults:
        tell(Outcome(pdf), faults)
        return AT_FAULT
    for each in targets:
        did = "is there already, the same" if each.same else "recovered"
        done(f"{each.path}: {did} ({len(each.data)} bytes)")
    return DONE


def _targets(
    pdf: Path, out: Path | None, overwrite: bool
) -> tuple[list[_Target], list[Diagnostic]]:
    """What is to be written where, and everything that stands against it."""
    from sheetgen.archive.recover import Unrecovered, recover
    from sheetgen.cli.run import file_error, reason

    try:
        found = recover(pdf)
    except (OSError, ValueError) as problem:
        return [], [file_error("unreadable-file", reason(problem), given=str(pdf))]
    if isinstance(found, Unrecovered):
        return [], [file_error(found.code, found.message, hint=found.hint)]
    try:
        targets = [_Target(path, data, _same(path, data)) for path, data in _placed(found, out)]
        faults = [fault for each in targets if (fault := _fault_of(each, overwrite))]
    except (OSError, ValueError) as problem:
        return [], [file_error("unwritable-file", reason(problem), given=str(out))]
    return targets, faults


def _placed(found: Sequence[Recovered], out: Path | None) -> list[tuple[Path, bytes]]:
    """Where each file goes: all into one folder, the description under its new name if given."""
    if out is None:
        return [(Path(each.name), each.data) for each in found]
    if out.is_dir():
        return [(out / each.name, each.data) for each in found]
    if out.suffix.lower() not in _ENDINGS:  # a folder was meant, and it is not there
        return [(out / each.name, each.data) for each in found]
    first, *rest = found
    beside = [(out.with_name(each.name), each.data) for each in rest]
    return [(out, first.data), *((p, d) for p, d in beside if p != out)]


def _same(path: Path, data: bytes) -> bool:
    """True if the file is there with these bytes, itself and not by a link."""
    if path.is_symlink() or not path.is_file() or path.stat().st_size != len(data):
        return False
    return path.read_bytes() == data


def _fault_of(target: _Target, overwrite: bool) -> Diagnostic | None:
    """Why a file may not be written."""
    from sheetgen.cli.run import file_error

    path = target.path
    folder = path.parent
    if not folder.is_dir():
        hint = "make the folder first"
        message = "there is no such folder"
        return file_error("unwritable-file", message, given=str(folder), hint=hint)
    if target.same or not os.path.lexists(path):
        return None
    if path.is_symlink() or not path.is_file():
        message = "there is something else than a file of this name"
        hint = "choose another place with --out"
        return file_error("unwritable-file", message, given=str(path), hint=hint)
    if not overwrite:
        message = "there is another file of this name already"
        hint = "choose another place with --out, or replace it with --overwrite"
        return file_error("file-exists", message, given=str(path), hint=hint)
    return None


def _written(target: _Target, overwrite: bool) -> Diagnostic | None:
    """Write one file, whole or not at all; why, if not."""
    from sheetgen.archive.files import write_new, write_whole
    from sheetgen.cli.run import file_error, reason

    if target.same:
        return None
    write = write_whole if overwrite else write_new
    try:
        write(target.path, target.data)
    except OSError as problem:
        return file_error("unwritable-file", reason(problem), given=str(target.path))
    return None
