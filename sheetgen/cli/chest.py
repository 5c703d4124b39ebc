"""What is chosen from: takes the names of a description and a stash, gives both read."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from sheetgen.cli.run import Outcome, file_error, read_file, reason, stash_file
from sheetgen.cli.telling import tell
from sheetgen.diagnostics import Diagnostic, has_errors, placed

if TYPE_CHECKING:
    from sheetgen.model.project import Project
    from sheetgen.model.stash import Stash
    from sheetgen.plan.choice import Choice
    from sheetgen.plan.learning import Learning
    from sheetgen.plan.plan import Plan

HERE = ("stash",)
"""Where a description says which stash it is chosen from."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A description and a stash without errors, with their files.

    The plan is that of the piece as described, even where its yarn is too little.
    """

    about: Outcome
    project: Project
    plan: Plan
    chest: Outcome
    stash: Stash
    learning: Learning | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be said of a description and a stash, and both, if they can be used.

    ``chest`` is None where the stash was not even looked for.
    """

    about: Outcome
    chest: Outcome | None = None
    pair: Pair | None = None

    def tell(self) -> None:
        """Say what is wrong with the two files."""
        for outcome in (self.about, self.chest):
            if outcome is not None:
                tell(outcome, outcome.diagnostics)


def ask(file: Path, typed: Path | None, register: Path | None = None) -> Asked:
    """Read both; the stash ``typed`` outranks the description's key, and so does ``register``."""
    about, project = read_file(file)
    if project is None:
        return Asked(about)
    from sheetgen.plan.planner import make_plan

    learning, told = None, tuple[Diagnostic, ...]()
    if register is not None or project.register is not None:
        from sheetgen.cli.learning import learn

        learning, told = learn(file, about.data, project, register)
    fault = _fault_of(file, project.stash) if typed is None else None
    told = (*about.diagnostics, *told, *((fault,) if fault else ()))
    about = replace(about, diagnostics=placed(told, about.spans))
    if has_errors(told):
        return Asked(about)
    found = stash_file(typed if typed is not None else file.parent / (project.stash or ""))
    if found.stash is None:
        return Asked(about, found.about)
    plan = make_plan(project, learning).plan
    about = replace(about, plan=plan)
    pair = Pair(about, project, plan, found.about, found.stash, learning)
    return Asked(about, found.about, pair)


def _fault_of(file: Path, named: str | None) -> Diagnostic | None:
    """Why a description's stash cannot be taken: not named, not there, or (by links) outside."""
    if named is None:
        return file_error(
            "no-stash",
            "nobody has said which stash is chosen from",
            hint="name it with --stash, or write e.g. “stash: stash.yaml” in the description",
        )
    from sheetgen.archive.folder import lies_in

    path = file.parent / named
    try:
        if not lies_in(path, file.parent):
            fault = file_error(
                "stash-outside",
                "the stash lies outside the folder of the description",
                given=named,
                hint="name it with --stash",
            )
        elif not path.is_file():  # a pipe might never end
            fault = file_error(
                "no-such-stash",
                "this is not a file" if path.exists() else "there is no such file",
                given=named,
                hint="name another with --stash",
            )
        else:
            return None
    except (OSError, ValueError) as problem:
        fault = file_error("no-such-stash", reason(problem), given=named)
    return replace(fault, path=HERE)


def chosen(pair: Pair, wished: str | None) -> Choice | Diagnostic:
    """Every yarn of the stash in its place; a diagnostic where none is called as ``wished``."""
    from sheetgen.plan.choice import ALL, choose, target_of

    names = [yarn.name for yarn in pair.project.yarns]
    if wished is not None and wished not in (*names, ALL):
        return file_error(
            "no-such-yarn",
            f"no yarn is called “{wished[:40]}”",
            given=wished,
            allowed=", ".join((*names, ALL)),
            hint="name it with --for",
        )
    target, stash = target_of(pair.project, wished), pair.stash
    return choose(pair.project, stash.yarns, target, stash.tools, pair.learning)
