"""``sheetgen choose``: which yarns and beads of the stash will do for a piece."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.kinds import Whole
from sheetgen.cli.telling import AT_FAULT, DONE, done, failed, quiet, quiet_option, tell
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.chest import Pair
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic

WAYS = ("exact", "nearest", "mixed")
"""The fillings that can be written."""


@click.command("choose", epilog="Example: sheetgen choose cord.yaml --stash stash.yaml --top 3")
@click.argument("project", type=Path)
@click.option(
    "--stash", type=Path, help="The stash: yarns and beads at hand; left out, that of PROJECT."
)
@click.option(
    "--register",
    type=Path,
    metavar="DIR",
    help="Folder of pieces made before: what was measured on them is used.",
)
@click.option("--for", "wished", metavar="NAME", help="The yarn to replace, or: all.")
@click.option("--top", type=Whole(1), default=5, show_default=True, help="How many to show.")
@click.option("--take", metavar="NAME", help="Show the lines that put this yarn or bead in.")
@click.option(
    "--fill",
    type=click.Choice(WAYS),
    help="Show the lines that string the beads at hand: exact, nearest or mixed.",
)
@click.option("--write", is_flag=True, help="With --take or --fill: change the description.")
@click.option("--book-off", is_flag=True, help="Take what was used off the stash, once.")
@click.option("--json", "as_json", is_flag=True, help="Write JSON, of all yarns.")
@quiet_option
def choose_command(
    project: Path,
    stash: Path | None,
    register: Path | None,
    wished: str | None,
    top: int,
    take: str | None,
    fill: str | None,
    write: bool,
    book_off: bool,
    as_json: bool,
) -> int:
    """Say which yarns of a stash will do for the description PROJECT, and why."""
    from sheetgen.cli import chest

    if write and take is None and fill is None:
        raise click.UsageError("--write wants a choice: name it with --take NAME or --fill.")
    if (take is not None) + (fill is not None) + book_off > 1:
        raise click.UsageError("--take, --fill and --book-off are done one after the other.")
    asked = chest.ask(project, stash, register)
    asked.tell()
    pair = asked.pair
    if pair is None:
        return AT_FAULT
    if book_off:
        return _book_off(pair)
    if take is not None:
        return _take(pair, take, wished, write)
    if fill is not None:
        return _fill(pair, fill, write)
    return _show(pair, wished, top, as_json)


def _show(pair: Pair, wished: str | None, top: int, as_json: bool) -> int:
    """Every yarn with its reasons, and what the beads make."""
    from sheetgen.cli import choosing, stringing
    from sheetgen.cli.chest import chosen
    from sheetgen.diagnostics import Diagnostic

    stash, names = pair.stash, [yarn.name for yarn in pair.project.yarns]
    choice = chosen(pair, wished)
    if isinstance(choice, Diagnostic):
        return failed(choice, pair.about.file)
    found = stringing.of_plan(pair.plan, stash.beads)
    if as_json:
        content = {"file": str(pair.about.file)} | choosing.as_json(choice)
        say(json.dumps(content | {"beads": stringing.as_json(found)}, indent=2))
        return DONE
    if len(names) > 1 and wished is None:
        kept = _kept(names, choice.wanted.target)
        for line in terminal.wrapped(terminal.seen(kept), terminal.columns()):
            say(line)
        say("")
    paint = terminal.paint_for(sys.stdout)
    say(choosing.listing(choice, stash.stash, top, paint, terminal.columns()))
    if found and not stash.beads:
        say("\nThere are no beads in the stash.")
    elif found:
        say("")
        say(stringing.listing(pair.plan, found, stash.beads, paint, terminal.columns()))
    return DONE


def _take(pair: Pair, name: str, wished: str | None, write: bool) -> int:
    """Put a yarn or bead of the stash into the description, or show how."""
    from sheetgen.cli import taking
    from sheetgen.cli.run import file_error
    from sheetgen.plan.choice import target_of

    about, project, chest, stash = pair.about, pair.project, pair.chest, pair.stash
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
    return _put(pair, data, write, f"{name} in the place of {target}")


def _fill(pair: Pair, way: str, write: bool) -> int:
    """String the beads at hand in the description, or show how."""
    from sheetgen.cli import filling, stringing
    from sheetgen.cli.run import file_error

    string = pair.plan.string
    if string is None:
        return failed(file_error("no-beads", "the piece has no beads to fill"), pair.about.file)
    found = stringing.of_plan(pair.plan, pair.stash.beads)
    (meant,) = (one for one in found if one.way == way)
    data = filling.filled(pair, string.string, meant)
    strung = ", ".join(f"{n} {name}" for name, n in meant.counts.items())
    left = f"; {meant.wanting} wanting stay as described" if meant.wanting else ""
    return _put(pair, data, write, f"{strung} strung{left}")


def _put(pair: Pair, data: bytes | Diagnostic, write: bool, what: str) -> int:
    """Show the lines that change, or change them and say so."""
    from sheetgen.cli import taking

    about = pair.about
    if not isinstance(data, bytes):
        return failed(data, about.file)
    if data == about.data:
        return done(f"{about.file} says so already: {what}")
    if not write:
        say("These lines would stand in the description; --write puts them there:\n")
        say(taking.lines_to_paste(about.data, data))
        return DONE
    return _replaced(about, data, what)


def _book_off(pair: Pair) -> int:
    """Take what the record says was used off the stash."""
    from sheetgen.cli import taking

    about, project, chest, stash = pair.about, pair.project, pair.chest, pair.stash

    data, told = taking.booked_off(about, project, chest, stash)
    tell(about, told)
    if data is None:
        return AT_FAULT
    return _replaced(chest, data, f"booked off for {project.piece}")


def _replaced(about: Outcome, data: bytes, what: str) -> int:
    """Write the file anew and show the lines that changed."""
    from sheetgen.cli import taking

    if fault := taking.write_back(about.file, about.data, data):
        return failed(fault, about.file)
    code = done(f"wrote {about.file}: {what}")
    if not quiet():
        say(taking.lines_to_paste(about.data, data))
    return code


def _kept(names: list[str], target: str) -> str:
    others = ", ".join(name for name in names if name != target)
    return (
        f"“{target}” has most of the warp ends, so it is chosen for; the rest ({others}) stays. "
        "--for NAME takes another, --for all one sort for every yarn."
    )
