"""``sheetgen print``: a sheet of a description as a PDF."""

from __future__ import annotations

from pathlib import Path

import click

from sheetgen.cli.press import SHEETS, Press, press_options
from sheetgen.cli.progress import progress
from sheetgen.cli.telling import AT_FAULT, done, failed, quiet_option, tell


def _pdf_file(context: click.Context, option: click.Parameter, value: Path | None) -> Path | None:
    if value is not None and str(value) == "-":
        raise click.BadParameter("A sheet goes into a file: write e.g. --out sheet.pdf")
    return value


@click.command("print", epilog="Example: sheetgen print garter.yaml --paper A5 --out to-print.pdf")
@click.argument("project", type=Path)
@click.option(
    "--sheet", type=click.Choice(SHEETS), default="loom", show_default=True, help="Which sheet."
)
@click.option(
    "--out",
    type=Path,
    callback=_pdf_file,
    help="PDF file to write; left out, PROJECT-loom.pdf beside PROJECT.",
)
@click.option(
    "--templates",
    metavar="DIR",
    help="Folder with sentences of your own, or a set by its name: english, german.",
)
@click.option(
    "--register",
    type=Path,
    metavar="DIR",
    help="Folder of pieces made before: what was measured on them is used.",
)
@press_options
@quiet_option
def print_command(
    project: Path,
    sheet: str,
    out: Path | None,
    templates: str | None,
    register: Path | None,
    press: Press,
) -> int:
    """Write a sheet of the description PROJECT (a YAML file) as a PDF, true to scale."""
    from sheetgen.cli import printing
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project, register)
    if outcome.plan is None:
        tell(outcome, outcome.diagnostics)
        return AT_FAULT
    target = out or printing.default_name(project, sheet)
    if fault := printing.fault_of(target, project):
        return failed(fault, target)
    with progress(f"printing {target}"):
        printed = printing.make_sheet(outcome, sheet, press, templates)
    tell(printed.about, printed.diagnostics)
    if printed.wording is not None:
        tell(printed.wording, printed.wording.diagnostics)
    if printed.pdf is None:
        return AT_FAULT
    if fault := printing.write(printed.pdf, target):
        return failed(fault, target)
    from sheetgen.cli.figures import in_short

    what = "side" if press.booklet else "page"
    pages = f"{printed.pages} {what}{'' if printed.pages == 1 else 's'}"
    pages += " of A4 to fold" if press.booklet else ""
    return done(f"wrote {target}: {pages}; {in_short(outcome.plan)}")
