"""``sheetgen plan``: every figure with its origin, range and working."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.telling import AT_FAULT, DONE, tell
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome


@click.command("plan", epilog="Example: sheetgen plan garter.yaml --sources")
@click.argument("project", type=Path)
@click.option("--json", "as_json", is_flag=True, help="Write JSON for a program to read.")
@click.option("--sources", is_flag=True, help="Name the source of each formula as well.")
@click.option(
    "--register",
    type=Path,
    metavar="DIR",
    help="Folder of pieces made before: what was measured on them is used.",
)
def plan_command(project: Path, as_json: bool, sources: bool, register: Path | None) -> int:
    """Show every figure of the description PROJECT with its origin, range and working."""
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project, register)
    if as_json:
        say(_plan_as_json(outcome))
        return AT_FAULT if outcome.failed else DONE
    tell(outcome, outcome.diagnostics)
    if outcome.plan is None:
        return AT_FAULT
    from sheetgen.cli import figures
    from sheetgen.plan.planner import surest_next

    say(figures.table(outcome.plan, terminal.paint_for(sys.stdout), terminal.columns(), sources))
    if following := surest_next(outcome.plan):
        say(f"\nMeasure next: {terminal.seen(following)}")
    return DONE


def _plan_as_json(outcome: Outcome) -> str:
    from sheetgen.cli import report

    content = report.as_json(str(outcome.file), outcome.diagnostics)
    if outcome.plan is not None:
        from sheetgen.cli import figures
        from sheetgen.plan.planner import surest_next

        content |= figures.as_json(outcome.plan, surest_next(outcome.plan))
    return json.dumps(content, indent=2)
