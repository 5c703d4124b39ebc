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
    "--working",
    metavar="FIGURE",
    help="How this figure is worked out, e.g. thickness; “all” for every one.",
)
@click.option(
    "--register",
    type=Path,
    metavar="DIR",
    help="Folder of pieces made before: what was measured on them is used.",
)
def plan_command(
    project: Path, as_json: bool, sources: bool, working: str | None, register: Path | None
) -> int:
    """Show every figure of the description PROJECT with its origin, range and working."""
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project, register)
    if as_json:
        return _say_json(outcome, working)
    tell(outcome, outcome.diagnostics)
    if outcome.plan is None:
        return AT_FAULT
    if working is not None:
        return _say_working(outcome, working)
    from sheetgen.amounts import minutes
    from sheetgen.cli import figures
    from sheetgen.plan.planner import surest_next

    say(figures.table(outcome.plan, terminal.paint_for(sys.stdout), terminal.columns(), sources))
    if look := figures.look(outcome.plan):
        say(f"\nExpected look: {look}")
    if following := surest_next(outcome.plan):
        say(f"\nMeasure next: {terminal.seen(following)}")
    if outcome.kit is not None:
        piece = terminal.seen(outcome.kit.project.piece)
        time = minutes(outcome.kit.figures["weaving_time"].value)
        say(f"\nKit, {piece}: {figures.in_short(outcome.kit)}; a guest weaves it in {time}")
    return DONE


def _say_working(outcome: Outcome, wanted: str) -> int:
    """Formula, numbers and what they rest on, of the figures that are meant."""
    from sheetgen.cli import working
    from sheetgen.diagnostics import Diagnostic

    assert outcome.plan is not None, "without a plan there is nothing to show"
    found = working.named(outcome.plan, wanted)
    if isinstance(found, Diagnostic):
        tell(outcome, (found,))
        return AT_FAULT
    paint, wide = terminal.paint_for(sys.stdout), terminal.columns()
    say("\n\n".join(working.shown(outcome.plan, figure, paint, wide) for figure in found))
    return DONE


def _say_json(outcome: Outcome, wanted: str | None) -> int:
    """The plan, or the figures that are meant, as JSON."""
    from sheetgen.cli import report

    told, chosen = outcome.diagnostics, None
    if outcome.plan is not None and wanted is not None:
        from sheetgen.cli import working
        from sheetgen.diagnostics import Diagnostic

        found = working.named(outcome.plan, wanted)
        told, chosen = ((*told, found), []) if isinstance(found, Diagnostic) else (told, found)
    content = report.as_json(str(outcome.file), told)
    if outcome.plan is not None:
        from sheetgen.cli import figures
        from sheetgen.plan.planner import surest_next

        content |= figures.as_json(outcome.plan, surest_next(outcome.plan), chosen)
        if outcome.kit is not None:
            content["kit"] = figures.as_json(outcome.kit, surest_next(outcome.kit))
    say(json.dumps(content, indent=2))
    return AT_FAULT if outcome.failed or chosen == [] else DONE
