"""``sheetgen check``: mistakes and nothing else."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli.press import WORDED
from sheetgen.cli.telling import AT_FAULT, DONE, done, quiet_option, tell
from sheetgen.cli.terminal import say
from sheetgen.diagnostics import placed

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome


@click.command("check", epilog="Example: sheetgen check garter.yaml purse-cord.yaml")
@click.argument("projects", type=Path, nargs=-1, required=True, metavar="PROJECT...")
@click.option("--json", "as_json", is_flag=True, help="Write a line of JSON for each file.")
@quiet_option
def check_command(projects: tuple[Path, ...], as_json: bool) -> int:
    """Look for mistakes in each description or stash PROJECT, and write nothing else."""
    from sheetgen.cli import report

    code = DONE
    for project in projects:
        for outcome in _looked_at(project):
            code = AT_FAULT if outcome.failed else code
            if as_json:
                say(json.dumps(report.as_json(str(outcome.file), outcome.diagnostics)))
            elif outcome.diagnostics:
                tell(outcome, outcome.diagnostics, error=False)
            else:
                done(f"{outcome.file}: no mistakes")
    return code


def _looked_at(file: Path) -> list[Outcome]:
    """A stash; or a description with its photographs, and the user's templates that it names."""
    from sheetgen.cli.run import plan_file, read_as_stash, read_bytes
    from sheetgen.read.stash import is_stash

    data = read_bytes(file)
    if isinstance(data, bytes) and is_stash(data):
        return [read_as_stash(file, data).about]
    outcome = plan_file(file)
    if outcome.plan is not None and outcome.plan.project.made is not None:
        from sheetgen.cli.pictures import looked_at

        told = placed((*outcome.diagnostics, *looked_at(outcome)), outcome.spans)
        outcome = replace(outcome, diagnostics=told)
    if outcome.plan is None or outcome.plan.project.templates is None:
        return [outcome]
    from sheetgen.cli.sets import choose

    abouts = [choose(outcome, sheet).about for sheet in WORDED]
    if abouts[0].file == outcome.file:  # the folder itself is at fault, for every sheet alike
        told = (*outcome.diagnostics, *abouts[0].diagnostics)
        return [replace(outcome, diagnostics=told)]
    faulty = {about.file: about for about in abouts if about.diagnostics}
    return [outcome, *faulty.values()]
