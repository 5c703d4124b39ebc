"""Which sentences a sheet is printed with: takes a plan and a folder or a name, gives a template.

A name is that of a set that comes with the program; anything else is a folder of the user's own
templates, which need hold only what differs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.cli.press import WORDED
from sheetgen.cli.run import Outcome, file_error, read_bytes, reason, shown_source
from sheetgen.diagnostics import Diagnostic, Span, has_errors, placed
from sheetgen.resources import data_folder

if TYPE_CHECKING:
    from sheetgen.model.template import Template
    from sheetgen.plan.plan import Plan
    from sheetgen.read.templates import TemplateResult

USUAL = "english"
"""The set that stands in the folder of templates itself; others stand in folders of their own."""
TOOLS = "tools"
TOOLED = {"loom": "materials", "kit": "bag", "organiser": "bag", "cutouts": "stand-ins"}
"""Sheets that name tools -> the part of each that gets them, as its list of that name."""
HERE = ("templates",)
"""Where a description says which templates are to be taken."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A template, or None and why; ``about`` is the file that it is from, or that is at fault.

    ``own`` are files of the user's that went into it, whose bytes only the user has.
    """

    template: Template | None
    about: Outcome
    own: tuple[Outcome, ...] = ()


def choose(outcome: Outcome, sheet: str, typed: str | None = None) -> Chosen:
    """The template for a planned description; ``typed`` on the command line outranks its key."""
    assert outcome.plan is not None, "only a plan without errors is printed"
    wanted = typed if typed is not None else outcome.plan.project.templates
    if wanted is None or wanted in names(sheet):
        return shipped(sheet, wanted or USUAL)
    described = typed is None
    folder = outcome.file.parent / wanted if described else Path(wanted)
    file, tools = folder / f"{sheet}.yaml", folder / f"{TOOLS}.yaml"
    inside = outcome.file.parent if described else None
    faults = (_fault_of(folder, each, inside, wanted) for each in (file, tools))
    fault = next(filter(None, faults), None)
    if fault and described:
        told = placed((replace(fault, path=HERE),), outcome.spans)
        return Chosen(None, replace(outcome, diagnostics=told))
    if fault:
        return Chosen(None, Outcome(folder, diagnostics=(fault,)))
    own = None
    if sheet in TOOLED and tools.is_file():
        own = _read(tools, TOOLS, outcome.plan)
        if own.template is None:
            return own
    return _with_own(file, sheet, outcome.plan, own)


def _with_own(file: Path, sheet: str, plan: Plan, tools: Chosen | None) -> Chosen:
    """The user's file over its set, or a set as it is; in both the user's own tools, if any."""
    if tools is None or tools.template is None:
        return _read(file, sheet, plan) if file.is_file() else shipped(sheet, USUAL)
    if file.is_file():
        read = _read(file, sheet, plan, tools.template)
        return replace(read, own=(*read.own, *tools.own))
    alike = (shipped(sheet, name) for name in names(sheet))
    language = tools.template.language
    usual = shipped(sheet, USUAL)
    base = next((c for c in alike if c.template and c.template.language == language), usual)
    return replace(base, template=_with_tools(base.template, tools.template), own=tools.own)


def _with_tools(template: Template | None, tools: Template | None) -> Template | None:
    """The template with these tools in its part for them; the loom sheet has no use for all."""
    if template is None or tools is None or template.sheet not in TOOLED:
        return template
    lists = tools.parts[0].lists
    lines = lists[TOOLS]
    if template.sheet != "loom":
        others = {line.key: line for line in lists["kits"]}
        lines = (*(others.pop(line.key, line) for line in lines), *others.values())
    parts = (
        replace(part, lists={**part.lists, TOOLS: lines})
        if part.name == TOOLED[template.sheet]
        else part
        for part in template.parts
    )
    return replace(template, parts=tuple(parts))


def names(sheet: str) -> tuple[str, ...]:
    """The sets that come with the program, the usual one first."""
    folders = (file.parent.name for file in data_folder("templates").glob(f"*/{sheet}.yaml"))
    return (USUAL, *sorted(folders))


def _fault_of(folder: Path, file: Path, inside: Path | None, wanted: str) -> Diagnostic | None:
    """Why the file cannot be taken: it is not there, or (by links, too) not ``inside``."""
    from sheetgen.archive.folder import lies_in
    from sheetgen.read.findings import did_you_mean

    known = names(file.stem)
    try:
        if not folder.is_dir():
            return file_error(
                "no-such-templates",
                "there is no such folder of templates, and no set of that name",
                given=wanted,
                allowed=f"{', '.join(known)}, or a folder",
                hint="write german"
                if wanted.casefold() in ("de", "deutsch")
                else did_you_mean(wanted, known, f"make the folder, with a {file.name} in it"),
            )
        if inside is not None and not lies_in(file, inside):
            return file_error(
                "templates-outside",
                "the templates lie outside the folder of the description",
                given=wanted,
                hint="put a copy beside the description, or name them with --templates",
            )
        if not any((folder / f"{sheet}.yaml").is_file() for sheet in WORDED):
            return file_error(
                "no-such-templates",
                f"there is no {file.name} in this folder",
                given=wanted,
                hint=f"write a {file.name}; it need hold only what differs",
            )
    except (OSError, ValueError) as problem:
        return file_error("no-such-templates", reason(problem), given=wanted)
    return None


@cache
def shipped(sheet: str, name: str) -> Chosen:
    """A set that came with the program."""
    from sheetgen.read.templates import read_template

    folder = data_folder("templates")
    file = (folder if name == USUAL else folder / name) / f"{sheet}.yaml"
    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return Chosen(None, Outcome(file, diagnostics=(data,)))
    read = read_template(data)
    about = Outcome(file, data, shown_source(data), diagnostics=read.diagnostics)
    tools = shipped(TOOLS, name).template if sheet in TOOLED else None
    return Chosen(_with_tools(read.template, tools), about)


def _read(file: Path, sheet: str, plan: Plan, tools: Template | None = None) -> Chosen:
    """The user's own file, over the set that it is based on, looked through for this plan.

    ``tools`` stand in that set in place of its own.
    """
    from sheetgen.read.templates import Sets, read_template

    data = read_bytes(file)
    if isinstance(data, Diagnostic):
        return Chosen(None, Outcome(file, diagnostics=(data,)))

    def base(name: str) -> Template | None:
        return _with_tools(shipped(sheet, name).template, tools)

    read = read_template(data, Sets(names(sheet), base))
    source = shown_source(data)
    told = read.diagnostics or _looked_through(read, plan)
    told = tuple(_narrowed(d, source.split("\n")) for d in told)
    about = Outcome(file, data, source, diagnostics=told)
    return Chosen(None if has_errors(told) else read.template, about, own=(about,))


def _looked_through(read: TemplateResult, plan: Plan) -> tuple[Diagnostic, ...]:
    """What is wrong with the sentences of the file itself, each at its place in the file."""
    from sheetgen.layout.sentences import unprintable

    if read.template is None or read.base is None:
        return ()
    template, base = read.template, read.base
    if template.sheet == TOOLS and (loom := shipped("loom", USUAL).template):
        # tools have no words of their own: figures are filled in with those of a sheet
        template, base = replace(template, words=loom.words), replace(base, words=loom.words)
    found = []
    for diagnostic in unprintable(template, base, plan):
        *place, last = diagnostic.path
        if last == "when" and (line := read.own.get(tuple(place))):
            line = line[:-1] if line[-1] == "say" else line
            found.append(replace(diagnostic, path=(*line, "when")))
        elif sentence := read.own.get(diagnostic.path):
            found.append(replace(diagnostic, path=sentence))
    return placed(found, read.spans)


def _narrowed(diagnostic: Diagnostic, lines: list[str]) -> Diagnostic:
    """The place of what is meant within a sentence, if it stands in the first line of it."""
    span, given = diagnostic.span, diagnostic.given
    if span is None or not given or span.line > len(lines):
        return diagnostic
    end = span.column - 1 + max(span.length, len(given))
    at = lines[span.line - 1].find(given, span.column - 1, end)
    if at < 0 and given[0] not in "{}*":  # a key or a flag, which stands beside the sentence
        line = lines[span.line - 1]
        at = max(line.find(given, span.column - 1), line.find(given))
    if at < 0:
        return diagnostic
    return replace(diagnostic, span=Span(span.line, at + 1, len(given)))
