"""The commands. Each imports the stages it needs when it runs: none waits for the others."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sheetgen import __version__
from sheetgen.cli import terminal
from sheetgen.cli.press import PAPERS as PAPERS
from sheetgen.cli.press import Press, press_options
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic

DONE, AT_FAULT, STOPPED = 0, 1, 130
"""Exit codes; 2, a command line that cannot be understood, is click's own."""

SHEETS = ("loom",)


class Program(click.Group):
    """The group of commands, with exit codes and words of its own for what can go wrong."""

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run a command and leave with its code; no traceback for a user's or a disc's fault."""
        if not standalone_mode:
            return super().main(args, prog_name, complete_var, False, **extra)
        terminal.make_safe()
        try:
            code = super().main(args, prog_name, complete_var, False, **extra) or DONE
        except click.ClickException as problem:
            problem.show()
            code = problem.exit_code
        except click.Abort:  # click's name for Ctrl-C and for the end of the input
            code = STOPPED
        except OSError as problem:
            terminal.forget(sys.stdout)
            say(f"sheetgen: error: {problem.strerror or problem}", error=True)
            code = AT_FAULT
        sys.exit(code)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command; where a file stands in its place, the line that was meant."""
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError:
            if not args[0].endswith((".yaml", ".yml")):
                raise
            meant = terminal.seen(f"sheetgen check {args[0]}")
            words = f"A command is wanting. Did you mean: {meant}"
            raise click.UsageError(words, ctx) from None


def _pdf_file(context: click.Context, option: click.Parameter, value: Path | None) -> Path | None:
    if value is not None and str(value) == "-":
        raise click.BadParameter("A sheet goes into a file: write e.g. --out sheet.pdf")
    return value


@click.group(
    cls=Program,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Example: sheetgen print garter.yaml",
)
@click.version_option(__version__, prog_name="sheetgen", message="%(prog)s %(version)s")
def main() -> None:
    """Plan a small tablet-woven corded piece and print the sheets to make it from."""


@main.command(
    "print",
    short_help="Print a sheet to a PDF file.",
    epilog="Example: sheetgen print garter.yaml --paper A5 --out to-print.pdf",
)
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
@press_options
def print_command(
    project: Path, sheet: str, out: Path | None, templates: str | None, press: Press
) -> int:
    """Write a sheet of the description PROJECT (a YAML file) as a PDF, true to scale."""
    from sheetgen.cli import printing
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project)
    if outcome.plan is None:
        _report(outcome, outcome.diagnostics)
        return AT_FAULT
    target = out or printing.default_name(project, sheet)
    if fault := printing.fault_of(target, project):
        return _failed(fault, target)
    printed = printing.make_sheet(outcome, sheet, press, templates)
    _report(printed.about, printed.diagnostics)
    if printed.wording is not None:
        _report(printed.wording, printed.wording.diagnostics)
    if printed.pdf is None:
        return AT_FAULT
    if fault := printing.write(printed.pdf, target):
        return _failed(fault, target)
    from sheetgen.cli.figures import in_short

    what = "side" if press.booklet else "page"
    pages = f"{printed.pages} {what}{'' if printed.pages == 1 else 's'}"
    pages += " of A4 to fold" if press.booklet else ""
    say(terminal.seen(f"wrote {target}: {pages}; {in_short(outcome.plan)}"))
    return DONE


@main.command(
    "plan",
    short_help="Show every figure and where it comes from.",
    epilog="Example: sheetgen plan garter.yaml --sources",
)
@click.argument("project", type=Path)
@click.option("--json", "as_json", is_flag=True, help="Write JSON for a program to read.")
@click.option("--sources", is_flag=True, help="Name the source of each formula as well.")
def plan_command(project: Path, as_json: bool, sources: bool) -> int:
    """Show every figure of the description PROJECT with its origin, range and working."""
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project)
    if as_json:
        say(_plan_as_json(outcome))
        return AT_FAULT if outcome.failed else DONE
    _report(outcome, outcome.diagnostics)
    if outcome.plan is None:
        return AT_FAULT
    from sheetgen.cli import figures
    from sheetgen.plan.planner import surest_next

    say(figures.table(outcome.plan, terminal.paint_for(sys.stdout), terminal.columns(), sources))
    if following := surest_next(outcome.plan):
        say(f"\nMeasure next: {terminal.seen(following)}")
    return DONE


@main.command(
    "check",
    short_help="Look for mistakes.",
    epilog="Example: sheetgen check garter.yaml purse-cord.yaml",
)
@click.argument("projects", type=Path, nargs=-1, required=True, metavar="PROJECT...")
@click.option("--json", "as_json", is_flag=True, help="Write a line of JSON for each file.")
def check_command(projects: tuple[Path, ...], as_json: bool) -> int:
    """Look for mistakes in each description PROJECT, and write nothing else."""
    from sheetgen.cli import report
    from sheetgen.cli.run import plan_file

    code = DONE
    for project in projects:
        for outcome in _looked_at(plan_file(project)):
            code = AT_FAULT if outcome.failed else code
            if as_json:
                say(json.dumps(report.as_json(str(outcome.file), outcome.diagnostics)))
            elif outcome.diagnostics:
                _report(outcome, outcome.diagnostics, error=False)
            else:
                say(terminal.seen(f"{outcome.file}: no mistakes"))
    return code


def _looked_at(outcome: Outcome) -> list[Outcome]:
    """A description, and the templates of the user's own that it names."""
    if outcome.plan is None or outcome.plan.project.templates is None:
        return [outcome]
    from sheetgen.cli.sets import choose

    about = choose(outcome, SHEETS[0]).about
    if about.file == outcome.file:
        told = (*outcome.diagnostics, *about.diagnostics)
        return [replace(outcome, diagnostics=told)]
    return [outcome, about] if about.diagnostics else [outcome]


def _plan_as_json(outcome: Outcome) -> str:
    from sheetgen.cli import report

    content = report.as_json(str(outcome.file), outcome.diagnostics)
    if outcome.plan is not None:
        from sheetgen.cli import figures
        from sheetgen.plan.planner import surest_next

        content |= figures.as_json(outcome.plan, surest_next(outcome.plan))
    return json.dumps(content, indent=2)


def _failed(fault: Diagnostic, file: Path) -> int:
    from sheetgen.cli.run import Outcome

    _report(Outcome(file), (fault,))
    return AT_FAULT


def _report(outcome: Outcome, diagnostics: Sequence[Diagnostic], *, error: bool = True) -> None:
    """Say what is wrong, on stderr unless it is what was asked for."""
    if not diagnostics:
        return
    from sheetgen.cli.report import rendered

    paint = terminal.paint_for(sys.stderr if error else sys.stdout)
    text = rendered(str(outcome.file), outcome.source, diagnostics, paint, terminal.columns())
    say(text, error=error)


if __name__ == "__main__":
    main()
