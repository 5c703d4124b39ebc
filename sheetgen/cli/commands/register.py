"""``sheetgen register``: all records below a folder, as a table, a PDF, CSV or JSON."""

from __future__ import annotations

from os.path import realpath
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.kinds import Whole, Word
from sheetgen.cli.press import PAPERS
from sheetgen.cli.telling import AT_FAULT, DONE, failed, quiet, quiet_option
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.records import Found


@click.command("register", epilog="Example: sheetgen register filed --out register.pdf")
@click.argument("folder", type=Path, metavar="DIR")
@click.option("--out", type=Path, help="PDF file to write, with an index by find, yarn and year.")
@click.option(
    "--year", type=Whole(0, 9999), metavar="YEAR", help="Only pieces finished, or begun, then."
)
@click.option("--csv", "csv_file", type=Path, help="CSV file to write, a line a piece.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON for a program to read.")
@click.option("--paper", type=Word(PAPERS), default="A4", help="Paper of the PDF.")
@click.option(
    "--templates", default="english", metavar="NAME", help="Words of the PDF: english, german."
)
@quiet_option
def register_command(
    folder: Path,
    out: Path | None,
    year: int | None,
    csv_file: Path | None,
    as_json: bool,
    paper: str,
    templates: str,
) -> int:
    """List every piece whose description, or a PDF printed of it, lies below the folder DIR."""
    from sheetgen.cli import listing
    from sheetgen.cli.progress import progress
    from sheetgen.cli.records import records_below
    from sheetgen.cli.run import file_error, reason

    if fault := listing.fault_of(out, csv_file, templates):
        return failed(fault, out or csv_file or folder)
    if not folder.is_dir():
        return failed(file_error("unreadable-folder", "there is no such folder"), folder)
    try:
        found = records_below(folder)
    except (OSError, ValueError) as problem:
        return failed(file_error("unreadable-folder", reason(problem)), folder)
    if year is not None:
        found = found.of_year(f"{year:04}")
    files = []
    if out is not None:
        with progress("setting the register"):
            pdf = listing.as_pdf(found, Path(realpath(folder)).name, templates, paper)
        files.append((out, pdf))
    if csv_file is not None:
        files.append((csv_file, listing.as_csv(found)))
    for file, data in files:
        if fault := listing.write(data, file):
            return failed(fault, file)
        if not quiet():
            say(terminal.seen(f"wrote {file}: {listing.counted(found)}"), error=as_json)
    if as_json:
        say(listing.as_json(found))
    elif out is None and csv_file is None:
        say(listing.table(found, terminal.columns()))
    _tell_faults(found)
    return DONE if found.rows or not found.unread else AT_FAULT


def _tell_faults(found: Found) -> None:
    """Numbers that stand twice and files that cannot be read, on stderr."""
    for number, files in found.twice.items():
        say(terminal.seen(f"number {number} stands on {len(files)} records: {', '.join(files)}"),
            error=True)  # fmt: skip
    for file, why in found.unread:
        say(terminal.seen(f"cannot be read: {file}: {why}"), error=True)
    if not found.all_seen:
        say("there are more files than are listed at a time: list each folder by itself",
            error=True)  # fmt: skip
