"""``sheetgen watch``: a sheet printed anew whenever its description is saved."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.commands.print import Once, Order, print_once, sheet_options
from sheetgen.cli.telling import AT_FAULT, STOPPED, quiet_option
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.plan.plan import Plan


@click.command("watch", epilog="Example: sheetgen watch garter.yaml --paper A5")
@click.argument("project", type=Path)
@sheet_options
@quiet_option
def watch_command(project: Path, order: Order) -> int:
    """Print the description PROJECT anew whenever it is saved, and tell which figures changed.

    A mistake is told as by “check”, and the last good sheet stays. Ctrl-C ends it with the exit
    code 130.
    """
    try:
        return _watch(order, project)
    except KeyboardInterrupt:
        say("\nstopped")
        return STOPPED


def _watch(order: Order, project: Path) -> int:
    """Print whenever there is news; comes back only if there was nothing to read at first."""
    from sheetgen.cli import watching

    once = print_once(order, project)
    if not project.is_file():
        return AT_FAULT
    plan, read = once.outcome.plan, _read(once)
    watched = list(read)
    say(terminal.seen(f"watching {project}; Ctrl-C ends it"))
    for what in watching.news(watched):
        if what == "gone":
            say(terminal.seen(f"{project} is gone: waiting for it to come back"))
            read = {}
        elif watching.contents(watched) != read:
            once = print_once(order, project)
            plan = _say_changes(plan, once)
            read = _read(once)
            watched[:] = read
    return AT_FAULT


def _read(once: Once) -> dict[Path, bytes | None]:
    """What was read: the description, the stash, the template that the sheet was printed with."""
    read: dict[Path, bytes | None] = {once.outcome.file: once.outcome.data}
    if once.chest is not None:
        read[once.chest.file] = once.chest.data
    if once.printed is not None:
        for about in (once.printed.about, once.printed.wording):
            if about is not None and about.data:
                read[about.file] = about.data
    return read


def _say_changes(before: Plan | None, once: Once) -> Plan | None:
    """Tell what became of the last plan; hand on the last good one."""
    now = once.outcome.plan
    if now is None or once.code == AT_FAULT:
        if before is not None:
            say("the last good sheet stays as it is")
        return before
    if before is None:
        return now
    from sheetgen.cli.figures import changes

    lines = changes(before, now) or ["no figure changed"]
    say("\n".join(f"  {terminal.seen(line)}" for line in lines))
    return now
