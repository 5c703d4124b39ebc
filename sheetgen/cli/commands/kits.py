"""``sheetgen kits``: the organiser's sheet and the kit sheets for a number of guests."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.kinds import Whole
from sheetgen.cli.press import SHEETS, Press, press_options
from sheetgen.cli.progress import progress
from sheetgen.cli.telling import AT_FAULT, DONE, done, failed, quiet_option, tell

if TYPE_CHECKING:
    from sheetgen.cli.printing import Printed
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic
    from sheetgen.draw.copies import Copies
    from sheetgen.plan.kits import KitPlan

MOST_PEOPLE, MOST_SPARES = 5000, 500
"""As in the description's own ``people`` and ``spares``."""


@click.command("kits", epilog="Example: sheetgen kits garter.yaml --people 12 --out to-print")
@click.argument("project", type=Path)
@click.option(
    "--people",
    type=Whole(1, MOST_PEOPLE),
    metavar="NUMBER",
    help="Guests; left out, “people” under “kit” in PROJECT.",
)
@click.option(
    "--spares",
    type=Whole(0, MOST_SPARES),
    metavar="NUMBER",
    help="Bags beyond one a guest; left out, “spares” under “kit”, or none.",
)
@click.option(
    "--out", type=Path, metavar="DIR", help="Folder to write to; left out, beside PROJECT."
)
@click.option("--numbered", is_flag=True, help="A kit sheet for every bag, with its number.")
@click.option("--json", "as_json", is_flag=True, help="Write the plan as JSON, and no sheets.")
@click.option(
    "--templates",
    metavar="DIR",
    help="Folder with sentences of your own, or a set by its name: english, german.",
)
@press_options
@quiet_option
def kits_command(
    project: Path,
    people: int | None,
    spares: int | None,
    out: Path | None,
    numbered: bool,
    as_json: bool,
    templates: str | None,
    press: Press,
) -> int:
    """Write the organiser's sheet and the kit sheets of PROJECT (a YAML file) as PDFs."""
    from sheetgen.cli.kits import fault_of_people, json_of, plan_all
    from sheetgen.cli.run import plan_file

    if press.booklet:
        raise click.UsageError("A kit sheet is one sheet of paper: print it without --booklet.")
    outcome = plan_file(project)
    if outcome.plan is None:
        tell(outcome, outcome.diagnostics)
        return AT_FAULT
    if fault := fault_of_people(outcome, people):
        tell(outcome, (*outcome.diagnostics, fault))
        return AT_FAULT
    planned = plan_all(outcome, people, spares)
    if planned.kits is None:
        tell(planned.about, planned.about.diagnostics)
        return AT_FAULT
    if as_json:
        terminal.say(json.dumps(json_of(planned), indent=2))
        return DONE
    return _print(planned.about, planned.kits, out, templates, press, numbered)


def _print(
    about: Outcome,
    kits: KitPlan,
    out: Path | None,
    templates: str | None,
    press: Press,
    numbered: bool,
) -> int:
    """A file for each sheet, each whole or not at all."""
    from sheetgen.cli.printing import OF_KITS, default_name, fault_of, make_sheet

    sheets = ("organiser", *(sheet for sheet in OF_KITS if sheet in SHEETS))
    targets = {sheet: default_name(about.file, sheet, out) for sheet in sheets}
    for target in targets.values():
        if fault := fault_of(target, about.file):
            return failed(fault, target)
    tell(about, about.diagnostics)
    for sheet in sheets:
        marks = kits.bags if numbered and sheet == "kit" else 0
        with progress(f"printing {sheet} sheets", of=marks) as work:
            copies = _copies(about, templates, marks, work.step)
            subject = kits if sheet == "organiser" else kits.plan
            printed = make_sheet(about, sheet, press, templates, subject=subject, copies=copies)
        often = 1 if sheet == "organiser" or marks else kits.bags
        if code := _written(printed, targets[sheet], about, often):
            return code
    return DONE


def _copies(about: Outcome, templates: str | None, bags: int, step: object) -> Copies | None:
    """A mark for every bag; None where one sheet does for all."""
    from sheetgen.cli.sets import choose
    from sheetgen.draw.copies import Copies

    template = choose(about, "organiser", templates).template
    if not bags or template is None:
        return None
    word = template.words["bag"]
    marks = [word.replace("{n}", str(bag)) for bag in range(1, bags + 1)]
    return Copies(marks, lambda _: step())  # type: ignore[operator]


def _written(printed: Printed, target: Path, about: Outcome, often: int) -> int:
    """Write what was printed and say so with how often it is wanted, or why not."""
    from sheetgen.cli.printing import write

    told: tuple[Diagnostic, ...] = printed.diagnostics
    if printed.about is about:
        told = tuple(d for d in told if d not in about.diagnostics)
    tell(printed.about, told)
    if printed.wording is not None:
        tell(printed.wording, printed.wording.diagnostics)
    if printed.pdf is None:
        return AT_FAULT
    if fault := write(printed.pdf, target):
        return failed(fault, target)
    pages = f"{printed.pages} page{'' if printed.pages == 1 else 's'}"
    wanted = f"; print it {often} times" if often > 1 else ""
    return done(f"wrote {target}: {pages}{wanted}")
