"""The page to compare yarns by: takes the choice, writes it as a PDF and says what it wrote."""

from __future__ import annotations

from pathlib import Path

from sheetgen.cli import printing, sets
from sheetgen.cli.press import Press
from sheetgen.cli.run import Outcome, file_error
from sheetgen.cli.telling import AT_FAULT, done, failed, tell
from sheetgen.plan.choice import ALL, Choice

SHEET = "choice"


def print_page(
    planned: Outcome,
    choice: Choice,
    stash: str,
    top: int,
    out: Path,
    press: Press,
    templates: str | None,
) -> int:
    """Write the first ``top`` yarns that can be used as bars at true scale into ``out``."""
    from sheetgen.draw.boxes import LayoutError
    from sheetgen.draw.fonts import text_width
    from sheetgen.draw.pdf import render
    from sheetgen.layout.choice import Compared, choice_sheet

    assert planned.plan is not None, "the piece was planned before"
    if fault := printing.fault_of(out, planned.file):
        return failed(fault, out)
    chosen = sets.choose(planned, SHEET, templates)
    if chosen.template is None:
        tell(chosen.about, chosen.about.diagnostics)
        return AT_FAULT
    usable = tuple(c for c in choice.candidates if not c.failures)[:top]
    target = choice.wanted.target
    if target == ALL:
        target = ", ".join(yarn.name for yarn in planned.plan.project.yarns)
    paper, setting = press.choose(planned.plan.project)
    compared = Compared(usable, stash, target)
    try:
        document = choice_sheet(compared, planned.plan, chosen.template, paper, text_width, setting)
        pdf = printing.folded(render(document, printing.sources_of(planned, chosen)), press)
    except LayoutError as problem:
        hint = "choose larger paper with --paper"
        return failed(file_error("does-not-fit", str(problem), hint=hint), planned.file)
    if fault := printing.write(pdf, out):
        return failed(fault, out)
    return done(f"wrote {out}: {len(usable)} of {len(choice.candidates)} yarns to compare")
