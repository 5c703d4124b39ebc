"""``sheetgen new``: a description to begin with, as it stands or by questions."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli.telling import AT_FAULT, STOPPED, done, failed, quiet_option, tell
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.diagnostics import Diagnostic

FORMS = ("loop", "straight", "cord", "band")
_USUAL_FORM = "cord"


@click.command("new", epilog="Example: sheetgen new my-cord.yaml --form cord --ask")
@click.argument("file", type=Path)
@click.option("--form", type=click.Choice(FORMS), help="What kind of piece.")
@click.option("--ask", is_flag=True, help="Ask ten questions, with the figures as they are known.")
@click.option(
    "--templates",
    metavar="DIR",
    default="english",
    show_default=True,
    help="Language of the remarks and questions: english, german; or a folder of your own.",
)
@quiet_option
def new_command(file: Path, form: str | None, ask: bool, templates: str) -> int:
    """Write a description with remarks into the new FILE, ready to print as it stands."""
    from sheetgen.cli import asking, beginning

    if form is None and not ask:
        raise click.UsageError(f"Say what it is: --form {', '.join(FORMS)}; or --ask.")
    target = beginning.with_ending(file)
    if fault := beginning.fault_of(target):
        return failed(fault, target)
    if not ask:
        assert form is not None
        text = beginning.text_of(form, templates)
        if not isinstance(text, str):
            return failed(text, Path(templates))
        return _written(target, text)
    questions, about = beginning.questions_of(templates)
    if questions is None:
        tell(about, about.diagnostics)
        return AT_FAULT
    try:
        form = form or asking.form_wanted(questions, FORMS, _USUAL_FORM)
        text = beginning.text_of(form, templates)
        if not isinstance(text, str):
            return failed(text, Path(templates))
        text = asking.answered(text, form, questions)
    except (click.Abort, KeyboardInterrupt):
        say(questions.words["stopped"], error=True)
        return STOPPED
    return _written(target, text)


def _written(target: Path, text: str) -> int:
    from sheetgen.cli import beginning
    from sheetgen.cli.run import plan_file

    fault: Diagnostic | None = beginning.write(target, text)
    if fault:
        return failed(fault, target)
    outcome = plan_file(target)
    if outcome.failed:
        say(f"wrote {target}, but these do not go together yet:", error=True)
    tell(outcome, outcome.diagnostics)
    return AT_FAULT if outcome.failed else done(f"wrote {target}; now: sheetgen print {target}")
