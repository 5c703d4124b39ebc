"""What every command ends with: takes diagnostics, says them, gives the exit code."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen.cli import terminal
from sheetgen.cli.terminal import say

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome
    from sheetgen.diagnostics import Diagnostic

DONE, AT_FAULT, STOPPED = 0, 1, 130
"""Exit codes; 2, a command line that cannot be understood, is click's own."""


_QUIET = "sheetgen.quiet"


def _remember(context: click.Context, option: click.Parameter, value: bool) -> None:
    context.meta[_QUIET] = value


quiet_option = click.option(
    "--quiet",
    is_flag=True,
    expose_value=False,
    callback=_remember,
    help="Say nothing when all went well.",
)
"""For every command that ends with one line about what it did; :func:`done` obeys it."""


def done(text: str) -> int:
    """Say in a line what was done, unless --quiet was typed, and give the exit code for it."""
    if not quiet():
        say(terminal.seen(text))
    return DONE


def quiet() -> bool:
    """True where --quiet was typed: nothing is said of what went well."""
    return bool(click.get_current_context().meta.get(_QUIET, False))


def failed(fault: Diagnostic, file: Path) -> int:
    """Say what is wrong with a file as a whole, and give the exit code for it."""
    from sheetgen.cli.run import Outcome

    tell(Outcome(file), (fault,))
    return AT_FAULT


def tell(outcome: Outcome, diagnostics: Sequence[Diagnostic], *, error: bool = True) -> None:
    """Say what is wrong, on stderr unless it is what was asked for."""
    if not diagnostics:
        return
    from sheetgen.cli.report import rendered

    paint = terminal.paint_for(sys.stderr if error else sys.stdout)
    text = rendered(str(outcome.file), outcome.source, diagnostics, paint, terminal.columns())
    say(text, error=error)
