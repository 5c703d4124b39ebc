"""How a sheet is to be printed: takes the options typed, gives paper and setting for the layout."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from sheetgen.cli.kinds import Word

if TYPE_CHECKING:
    from sheetgen.layout.paper import Paper, Setting
    from sheetgen.model.project import Project

PAPERS = ("A4", "A5", "Letter")
SHEETS = ("loom", "record", "kit", "cutouts", "choice")
"""The sheets that can be printed; ``templates/x.yaml`` has the sentences of the sheet ``x``."""
PICTURED = ("record",)
"""Those that take the description's photographs."""
OF_STASH = ("choice",)
"""Those that want a stash beside the description."""
WORDED = (*SHEETS, "organiser", "tools")
"""All that have sentences; the organiser's sheet is printed by ``kits``, tools stand in others."""


@dataclass(frozen=True, slots=True)
class Press:
    """What was asked for on the command line; None where the description decides."""

    paper: str | None = None
    large: bool = False
    booklet: bool = False
    two_sided: bool = False
    binding: float = 0.0
    printer_factor: float | None = None

    def choose(self, project: Project) -> tuple[Paper, Setting]:
        """The paper with its margins, and the setting, for a description."""
        from dataclasses import replace

        from sheetgen.layout.paper import PAPERS, Setting

        name = "A5" if self.booklet else self.paper or project.paper
        two_sided = self.two_sided or self.booklet
        paper = replace(PAPERS[name], binding=self.binding, two_sided=two_sided)
        factor = self.printer_factor or project.printer_factor
        return paper, Setting(self.large, self.booklet, factor)


AS_DESCRIBED = Press()


def _width(context: click.Context, option: click.Parameter, value: str) -> float:
    """A width such as ``8mm``, as far as a page can spare it, mm."""
    from sheetgen.layout.paper import MOST_BINDING
    from sheetgen.units import QuantityError, quantity

    try:
        width = quantity(value, "length")
    except QuantityError as problem:
        raise click.BadParameter(f"{value!r}: {problem.reason}; {problem.hint}.") from problem
    if width > MOST_BINDING:
        raise click.BadParameter(f"{value!r}: from 0 to {MOST_BINDING:g} mm can be spared.")
    return width


def _factor(context: click.Context, option: click.Parameter, value: str | None) -> float | None:
    """What a printer makes of 1; the message tells what numbers mean that no printer has."""
    from sheetgen.layout.paper import LEAST_FACTOR, MOST_FACTOR
    from sheetgen.model.project import FITTED_TO_PAGE

    if value is None:
        return None
    try:
        factor = float(value)
    except ValueError:
        raise click.BadParameter(f"{value!r} is not a number; write e.g. 0.985.") from None
    if not LEAST_FACTOR <= factor <= MOST_FACTOR:
        allowed = f"from {LEAST_FACTOR:g} to {MOST_FACTOR:g}"
        raise click.BadParameter(f"{value!r}: a factor lies {allowed}; {FITTED_TO_PAGE}.")
    return factor


OPTIONS = (
    click.option("--paper", type=Word(PAPERS), help="Paper; left out, that of the description."),
    click.option("--large", is_flag=True, help="Text of 13 points; drawings keep their size."),
    click.option(
        "--booklet", is_flag=True, help="A5 pages, two on a side of A4, in the order of folding."
    ),
    click.option("--two-sided", is_flag=True, help="Margins mirrored on the backs of pages."),
    click.option(
        "--binding",
        metavar="WIDTH",
        default="0mm",
        callback=_width,
        help="Room for a binding, e.g. 8mm; at most 20mm.",
    ),
    click.option(
        "--printer-factor",
        metavar="NUMBER",
        callback=_factor,
        help="What the printer makes of 1: 0.97 if the bar of 100 mm comes out 97 mm long.",
    ),
)


def press_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options of printing; it gets them as one ``press``."""

    @functools.wraps(command)
    def with_press(*arguments: Any, **given: Any) -> Any:
        chosen = {name: given.pop(name) for name in Press.__slots__}
        press = Press(**chosen)
        if press.booklet and press.paper not in (None, "A4", "A5"):
            raise click.UsageError(
                f"A booklet is printed on A4 and folded to A5: leave --paper {press.paper} out."
            )
        return command(*arguments, press=press, **given)

    for option in reversed(OPTIONS):
        with_press = option(with_press)
    return with_press
