"""``sheetgen choose``: which yarns and beads of the stash will do for a piece."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.press import Press, press_options
from sheetgen.cli.telling import AT_FAULT, DONE, done, failed, quiet, quiet_option, tell
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic
    from sheetgen.model.project import Project
    from sheetgen.model.stash import Stash


@click.command("choose", epilog="Example: sheetgen choose cord.yaml --stash stash.yaml --top 3")
@click.argument("project", type=Path)
@click.option("--stash", type=Path, required=True, help="The stash: yarns and beads at hand.")
@click.option("--for", "wished", metavar="NAME", help="The yarn to replace, or: all.")
@click.option(
    "--top", type=click.IntRange(1), default=5, show_default=True, help="How many to show."
)
@click.option("--take", metavar="NAME", help="Show the lines that put this yarn or bead in.")
@click.option("--write", is_flag=True, help="With --take: change the description itself.")
@click.option("--book-off", is_flag=True, help="Take what was used off the stash, once.")
@click.option("--out", type=Path, help="PDF to write: a page to compare the yarns by.")
@click.option("--templates", metavar="DIR", help="Sentences for that page: german, or a folder.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON, of all yarns.")
@press_options
@quiet_option
def choose_command(
    project: Path,
    stash: Path,
    wished: str | None,
    top: int,
    take: str | None,
    write: bool,
    book_off: bool,
    out: Path | None,
    templates: str | None,
    as_json: bool,
    press: Press,
) -> int:
    """Say which yarns of a stash will do for the description PROJECT, and why."""
    from sheetgen.cli.run import file_error, read_file, stash_file

    if write and take is None:
        raise click.UsageError("--write wants a choice: name it with --take NAME.")

    about, described = read_file(project)
    chest = stash_file(stash)
    tell(about, about.diagnostics)
    tell(chest.about, chest.about.diagnostics)
    if described is None or chest.stash is None:
        return AT_FAULT
    if book_off:
        return _book_off(about, described, chest.about, chest.stash)
    if take is not None:
        return _take(about, described, chest.about, chest.stash, take, wished, write)
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

    if out is not None:
        from sheetgen.cli.comparing import print_page

        planned = replace(about, plan=plan)
        return print_page(planned, choice, chest.stash.stash, top, out, press, templates)
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
    if found and not chest.stash.beads:
        say("\nThere are no beads in the stash.")
    elif found:
        say("")
        say(stringing.listing(plan, found, chest.stash.beads, paint, terminal.columns()))
    return DONE


def _take(
    about: Outcome,
    project: Project,
    chest: Outcome,
    stash: Stash,
    name: str,
    wished: str | None,
    write: bool,
) -> int:
    """Put a yarn or bead of the stash into the description, or show how."""
    from sheetgen.cli import taking
    from sheetgen.cli.run import file_error
    from sheetgen.plan.choice import target_of

    yarn, bead = stash.yarn(name), stash.bead(name)
    yarns = [y.name for y in project.yarns]
    kinds = [k.name for k in project.beads.kinds] if project.beads else []
    target = wished
    if target is None and yarn is not None:
        target = target_of(project, None)
    elif target is None and len(kinds) == 1:
        target = kinds[0]
    data: bytes | Diagnostic
    if yarn is not None and target in yarns:
        data = taking.yarn_taken(about, project, chest, yarn, target)
    elif bead is not None and target in kinds:
        data = taking.bead_taken(about, project, chest, bead, target)
    elif yarn is None and bead is None:
        data = file_error("not-in-stash", f"the stash has no yarn or bead “{name[:40]}”")
    else:
        allowed = ", ".join(yarns if yarn is not None else kinds) or "none: it has no beads"
        data = file_error(
            "for-what", f"in the place of what is “{name}” taken?", allowed=allowed,
            hint="say so with --for NAME",
        )  # fmt: skip
    if not isinstance(data, bytes):
        return failed(data, about.file)
    if not write:
        say("These lines would stand in the description; --write puts them there:\n")
        say(taking.lines_to_paste(about.data, data))
        return DONE
    if fault := taking.write_back(about.file, about.data, data):
        return failed(fault, about.file)
    code = done(f"wrote {about.file}: {name} in the place of {target}")
    if not quiet():
        say(taking.lines_to_paste(about.data, data))
    return code


def _book_off(about: Outcome, project: Project, chest: Outcome, stash: Stash) -> int:
    """Take what the record says was used off the stash."""
    from sheetgen.cli import taking

    data, told = taking.booked_off(about, project, chest, stash)
    tell(about, told)
    if data is None:
        return AT_FAULT
    if fault := taking.write_back(chest.file, chest.data, data):
        return failed(fault, chest.file)
    code = done(f"wrote {chest.file}: booked off for {project.piece}")
    if not quiet():
        say(taking.lines_to_paste(chest.data, data))
    return code


def _kept(names: list[str], target: str) -> str:
    others = ", ".join(name for name in names if name != target)
    return (
        f"“{target}” has most of the warp ends, so it is chosen for; the rest ({others}) stays. "
        "--for NAME takes another, --for all one sort for every yarn."
    )
