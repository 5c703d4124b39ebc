"""``sheetgen file``: a piece under the next number, its description and its record together."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli.telling import AT_FAULT, done, failed, quiet_option, tell

if TYPE_CHECKING:
    from sheetgen.model.project import Project


def _prefix(context: click.Context, option: click.Parameter, value: str) -> str:
    if not re.fullmatch(r"[^\W_][\w.]{0,19}|", value):
        raise click.BadParameter(f"{value!r}: up to 20 letters and digits, e.g. SW.")
    return value


@click.command("file", epilog="Example: sheetgen file garter.yaml --in filed --prefix SW")
@click.argument("project", type=Path)
@click.option(
    "--in", "folder", type=Path, required=True, metavar="DIR", help="Folder of filed pieces."
)
@click.option(
    "--prefix",
    default="",
    callback=_prefix,
    metavar="TEXT",
    help="What stands before the number: SW for SW-0001.",
)
@click.option("--replace", "again", is_flag=True, help="Put it in the place of what is filed.")
@click.option("--templates", metavar="DIR", help="Sentences of the record, as for print.")
@quiet_option
def file_command(
    project: Path, folder: Path, prefix: str, again: bool, templates: str | None
) -> int:
    """File the description PROJECT and its record in the folder DIR, under the next number.

    A description that has a number keeps it. What is filed already is replaced only by --replace.
    """
    from sheetgen.archive.shelf import held
    from sheetgen.cli.filing import file_piece
    from sheetgen.cli.run import Outcome, file_error, plan_file, reason

    outcome = plan_file(project)
    tell(outcome, outcome.diagnostics)
    if outcome.plan is None:
        return AT_FAULT
    try:
        with held(folder) as shelf:
            filed = file_piece(outcome, shelf, prefix, templates, again=again)
    except OSError as problem:
        return failed(file_error("unwritable-folder", reason(problem), given=str(folder)), folder)
    if isinstance(filed, Outcome):
        tell(filed, filed.diagnostics)
        return AT_FAULT
    place, number = filed
    undated = (
        ""
        if _dated(outcome.plan.project)
        else "; no date in it: the register lists it under no year"
    )
    return done(f"filed {project} as {number}: {place}{undated}")


def _dated(project: Project) -> bool:
    """Whether the register can tell the year of a piece."""
    made = project.made
    return bool(project.date or (made and (made.finished or made.begun)))
