"""``sheetgen print``: a sheet of a description as a PDF."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from os.path import isdir
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sheetgen.cli.comparing import Wish
from sheetgen.cli.kinds import Whole
from sheetgen.cli.press import OF_STASH, SHEETS, Press, press_options
from sheetgen.cli.progress import progress
from sheetgen.cli.telling import AT_FAULT, done, failed, quiet_option, tell

if TYPE_CHECKING:
    from sheetgen.cli.printing import Printed
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic
    from sheetgen.layout.choice import Compared


def _pdf_file(context: click.Context, option: click.Parameter, value: Path | None) -> Path | None:
    if value is not None and str(value) == "-":
        raise click.BadParameter("A sheet goes into a file: write e.g. --out sheet.pdf")
    return value


_OPTIONS = (
    click.option(
        "--sheet", type=click.Choice(SHEETS), default="loom", show_default=True, help="Which sheet."
    ),
    click.option(
        "--out",
        type=Path,
        callback=_pdf_file,
        help="PDF file to write, or a folder; left out, PROJECT-SHEET.pdf beside PROJECT.",
    ),
    click.option(
        "--templates",
        metavar="DIR",
        help="Folder with sentences of your own, or a set by its name: english, german.",
    ),
    click.option(
        "--register",
        type=Path,
        metavar="DIR",
        help="Folder of pieces made before: what was measured on them is used.",
    ),
    click.option(
        "--stash",
        type=Path,
        help="For the sheet choice: the stash; left out, that of the description.",
    ),
    click.option(
        "--for",
        "wished",
        metavar="NAME",
        help="For the sheet choice: the yarn to replace, or: all.",
    ),
    click.option(
        "--top", type=Whole(1), help="For the sheet choice: yarns to compare; left out, 5."
    ),
)


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be printed of every description, and where to; ``wish`` is for a choice."""

    sheet: str
    out: Path | None
    templates: str | None
    register: Path | None
    wish: Wish
    press: Press


def sheet_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options that say which sheet is printed, where to and with what words.

    It gets them, and those of printing, as one ``order``.
    """

    @functools.wraps(command)
    def with_order(*arguments: Any, press: Press, **given: Any) -> Any:
        wish = Wish(given.pop("stash"), given.pop("wished"), given.pop("top"))
        own = {name: given.pop(name) for name in ("sheet", "out", "templates", "register")}
        order = Order(**own, wish=wish, press=press)
        if order.sheet not in OF_STASH and wish != Wish():
            raise click.UsageError("--stash, --for and --top go with --sheet choice.")
        return command(*arguments, order=order, **given)

    with_options = press_options(with_order)
    for option in reversed(_OPTIONS):
        with_options = option(with_options)
    return with_options


@click.command("print", epilog="Example: sheetgen print garter.yaml --paper A5 --out to-print.pdf")
@click.argument("projects", type=Path, nargs=-1, required=True, metavar="PROJECT...")
@sheet_options
@quiet_option
def print_command(projects: tuple[Path, ...], order: Order) -> int:
    """Write a sheet of each description PROJECT (a YAML file) as a PDF, true to scale."""
    if len(projects) == 1:
        with progress(f"printing {projects[0]}"):
            return print_one(order, projects[0])
    if fault := _no_room_for(projects, order):
        return failed(*fault)
    from functools import partial

    from sheetgen.cli.batch import do_all

    return do_all(projects, partial(print_one, order), "printing")


def _no_room_for(projects: Sequence[Path], order: Order) -> tuple[Diagnostic, Path] | None:
    """Why several sheets cannot go where they are to go, and which file is meant."""
    from sheetgen.cli.printing import default_name
    from sheetgen.cli.run import file_error

    if order.out is not None and not isdir(order.out):
        told = file_error(
            "unwritable-file",
            "several sheets need a folder, and there is none of this name",
            given=str(order.out),
            hint="make the folder first; without --out each goes beside its description",
        )
        return told, order.out
    taken: dict[Path, Path] = {}
    for project in projects:
        target = default_name(project, order.sheet, order.out)
        if target in taken:
            message = f"{taken[target]} would be printed to the same {target.name}"
            hint = "print them one by one, with a name of its own after --out"
            return file_error("same-name", message, given=str(project), hint=hint), project
        taken[target] = project
    return None


@dataclass(frozen=True, slots=True)
class Once:
    """What came of printing one description once; ``printed`` is None if it came to no sheet.

    ``chest`` is the stash, where one was asked.
    """

    code: int
    outcome: Outcome
    printed: Printed | None = None
    chest: Outcome | None = None


def print_one(order: Order, project: Path) -> int:
    """Print one description, and say so."""
    return print_once(order, project).code


def print_once(order: Order, project: Path) -> Once:
    """Print one description, say so, and hand back what came of it."""
    if order.sheet in OF_STASH:
        return _print_choice(order, project)
    from sheetgen.cli.run import plan_file

    outcome = plan_file(project, order.register)
    if outcome.plan is None:
        tell(outcome, outcome.diagnostics)
        return Once(AT_FAULT, outcome)
    return _print_planned(order, outcome)


def _print_choice(order: Order, project: Path) -> Once:
    """Print the yarns of a stash beside the find."""
    from sheetgen.cli.comparing import compared
    from sheetgen.diagnostics import Diagnostic

    asked, subject = compared(project, order.register, order.wish)
    if subject is None or isinstance(subject, Diagnostic):
        asked.tell()
        if subject is not None:
            failed(subject, project)
        return Once(AT_FAULT, asked.about, chest=asked.chest)
    if asked.chest is not None:
        tell(asked.chest, asked.chest.diagnostics)
    return replace(_print_planned(order, asked.about, subject), chest=asked.chest)


def _print_planned(order: Order, outcome: Outcome, subject: Compared | None = None) -> Once:
    """Print what was planned; ``subject`` is what the sheet is of, if that is not the plan."""
    from sheetgen.cli import printing

    assert outcome.plan is not None, "only a plan is printed"
    sheet, out, press, project = order.sheet, order.out, order.press, outcome.file
    target = out if out and not isdir(out) else printing.default_name(project, sheet, out)
    if fault := printing.fault_of(target, project):
        return Once(failed(fault, target), outcome)
    printed = printing.make_sheet(outcome, sheet, press, order.templates, subject=subject)
    tell(printed.about, printed.diagnostics)
    if printed.wording is not None:
        tell(printed.wording, printed.wording.diagnostics)
    if printed.pdf is None:
        return Once(AT_FAULT, outcome, printed)
    if fault := printing.write(printed.pdf, target):
        return Once(failed(fault, target), outcome, printed)
    from sheetgen.cli.figures import in_short
    from sheetgen.plan.words import counted

    plan = (outcome.kit if sheet in printing.OF_KITS else None) or outcome.plan
    short = in_short(plan)
    if subject is not None:
        short = f"{counted(len(subject.candidates), 'yarn')} to compare"
    what = "side" if press.booklet else "page"
    pages = f"{printed.pages} {what}{'' if printed.pages == 1 else 's'}"
    pages += " of A4 to fold" if press.booklet else ""
    code = done(f"wrote {target}: {pages}; {short}")
    return Once(code, outcome, printed)
