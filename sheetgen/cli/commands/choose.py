"""``sheetgen choose``: which yarns and beads of the stash will do for a piece."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from sheetgen.cli import terminal
from sheetgen.cli.telling import AT_FAULT, DONE, failed, tell
from sheetgen.cli.terminal import say


@click.command("choose", epilog="Example: sheetgen choose cord.yaml --stash stash.yaml --top 3")
@click.argument("project", type=Path)
@click.option("--stash", type=Path, required=True, help="The stash: yarns and beads at hand.")
@click.option("--for", "wished", metavar="NAME", help="The yarn to replace, or: all.")
@click.option(
    "--top", type=click.IntRange(1), default=5, show_default=True, help="How many to show."
)
@click.option("--json", "as_json", is_flag=True, help="Write JSON, of all yarns.")
def choose_command(project: Path, stash: Path, wished: str | None, top: int, as_json: bool) -> int:
    """Say which yarns of a stash will do for the description PROJECT, and why."""
    from sheetgen.cli.run import file_error, read_file, stash_file

    about, described = read_file(project)
    chest = stash_file(stash)
    tell(about, about.diagnostics)
    tell(chest.about, chest.about.diagnostics)
    if described is None or chest.stash is None:
        return AT_FAULT
    from sheetgen.plan.choice import ALL, choose, target_of

    names = [yarn.name for yarn in described.yarns]
    if wished is not None and wished not in (*names, ALL):
        allowed = ", ".join((*names, ALL))
        fault = file_error(
            "no-such-yarn", f"no yarn is called “{wished[:40]}”", given=wished, allowed=allowed
        )
        return failed(fault, project)
    target = target_of(described, wished)
    choice = choose(described, chest.stash.yarns, target, chest.stash.tools)
    from sheetgen.cli import choosing, stringing
    from sheetgen.plan.planner import make_plan

    plan = make_plan(described).plan
    found = stringing.of_plan(plan, chest.stash.beads)

    if as_json:
        content = {"file": str(project)} | choosing.as_json(choice)
        say(json.dumps(content | {"beads": stringing.as_json(found)}, indent=2))
        return DONE
    if len(names) > 1 and wished is None:
        for line in terminal.wrapped(terminal.seen(_kept(names, target)), terminal.columns()):
            say(line)
        say("")
    paint = terminal.paint_for(sys.stdout)
    say(choosing.listing(choice, chest.stash.stash, top, paint, terminal.columns()))
    if found:
        say("")
        say(stringing.listing(plan, found, chest.stash.beads, paint, terminal.columns()))
    return DONE


def _kept(names: list[str], target: str) -> str:
    others = ", ".join(name for name in names if name != target)
    return (
        f"“{target}” has most of the warp ends, so it is chosen for; {others} stay as described. "
        "--for NAME takes another, --for all one sort for every yarn."
    )
