"""Choice: takes a Project and the yarns of a stash, gives each as a candidate, in words, in order.

There is no score. The order is lexicographic, see :func:`place`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum

from sheetgen.model.project import Project
from sheetgen.model.stash import StashYarn, Tool
from sheetgen.model.yarn import Yarn
from sheetgen.plan.candidate import Candidate, Reason, Wanted
from sheetgen.plan.figure import Ledger
from sheetgen.plan.learning import Learning
from sheetgen.plan.planner import make_plan
from sheetgen.plan.reasons import (
    amount_reasons,
    handling_reasons,
    thickness_reasons,
    tight_holes,
    tool_reasons,
)
from sheetgen.plan.size import size_up
from sheetgen.plan.sought import alike, same_colour, wanted_of, what_follows

ALL = "all"
"""Written instead of a yarn's name: one sort in the place of every yarn."""
PLANNED_IN_FULL = 200
"""Yarns, those nearest to the find, that are planned to the end; a drawer holds fewer."""
ORDER = (
    "yarns that can be used before yarns that cannot",
    "within what was read off the find (10 % of a plain figure) before outside it",
    "fibre as wanted, then spin as wanted",
    "nearest to the find in thickness, of a band whose width was read in width",
    "fewest warnings",
    "colour as described",
    "name",
)
"""What orders the list, first things first."""
SAID = {"not-enough-yarn"}
"""Errors of the plan that are said of a candidate in words of its own."""


@dataclass(frozen=True, slots=True)
class Choice:
    """All candidates in order; those beyond ``looked_into`` were not planned to the end."""

    wanted: Wanted
    candidates: tuple[Candidate, ...]
    looked_into: int
    follows: tuple[str, ...]


def place(c: Candidate) -> tuple[object, ...]:
    """Where a candidate stands in the list: compared from left to right, as :data:`ORDER` says."""
    no = {True: 0, None: 1, False: 2}
    verdict = c.verdict
    return (
        bool(c.failures),
        not c.meets,
        no[c.fibre_as],
        no[c.spin_as],
        round(abs(verdict.share), 3) if verdict else 0.0,
        len(c.remarks),
        no[c.colour_as],
        c.yarn.name,
    )


def target_of(project: Project, wished: str | None) -> str:
    """The yarn that is chosen for: as wished, else the one of most warp ends.

    :data:`ALL` where that is wished and no yarn is called so.
    """
    if wished is not None:
        return wished
    size = size_up(project, Ledger())
    ends = size.pack.ends_by_yarn
    names = [yarn.name for yarn in project.yarns]
    return max(names, key=lambda name: (ends.get(name, 0), -names.index(name)))


def as_described(yarn: Yarn, name: str, letter: str | None) -> Yarn:
    """A yarn of the stash as it stands in a description, under another name."""
    own = {f.name: getattr(yarn, f.name) for f in dataclasses.fields(Yarn)}
    return Yarn(**(own | {"name": name, "letter": letter}))


def with_yarn(project: Project, target: str, yarn: Yarn) -> Project:
    """The project with the yarn in the target's place.

    A sample is left out: it was woven with the yarn described.
    """
    every = target == ALL and all(y.name != ALL for y in project.yarns)
    yarns = tuple(
        as_described(yarn, old.name, old.letter) if every or old.name == target else old
        for old in project.yarns
    )
    if every:  # what is left is shared by all of them, and is looked at in one sum
        yarns = tuple(replace(y, at_hand=None) for y in yarns)
    return replace(project, yarns=yarns, sample=None)


def choose(
    project: Project,
    yarns: Sequence[StashYarn],
    target: str,
    tools: Sequence[Tool] = (),
    learning: Learning | None = None,
) -> Choice:
    """Every yarn in the target's place, in order. Pure.

    All are sized by the planner; the first :data:`PLANNED_IN_FULL` in order are planned whole.
    What was measured on pieces made before is used as in a plan.
    """
    wanted = wanted_of(project, target)
    base = {(d.code, d.path) for d in make_plan(project, learning).diagnostics if d.is_error}
    sized = sorted((_sized(project, target, yarn, wanted, learning) for yarn in yarns), key=place)
    full = [_planned(project, target, c, base, tools, learning) for c in sized[:PLANNED_IN_FULL]]
    full.sort(key=place)
    rest = tuple(sized[PLANNED_IN_FULL:])
    return Choice(wanted, (*full, *rest), len(full), what_follows(project, wanted))


def _sized(
    project: Project, target: str, yarn: StashYarn, wanted: Wanted, learning: Learning | None
) -> Candidate:
    """A yarn as far as its size, fibre, spin and colour tell."""
    size = size_up(with_yarn(project, target, yarn), Ledger(learning))
    name = project.yarns[0].name if target not in size.yarns else target
    predicted = size.width if size.verdict and size.verdict.what == "width" else size.thickness
    assert predicted is not None, "a verdict by width has a width"
    fibre, spin = alike(yarn.fibre, wanted.fibre), alike(yarn.spin, wanted.spin)
    colour = same_colour(yarn.colour, wanted.colour)
    found = Candidate(
        yarn,
        size.yarns[name].diameter,
        predicted,
        size.verdict,
        len(size.pack.tablets),
        size.pack.ends,
        fibre,
        spin,
        colour,
        (),
        (),
    )
    own = thickness_reasons(project, found)
    return replace(found, failures=own[0], remarks=(*own[1], *handling_reasons(yarn, wanted)))


def _planned(
    project: Project,
    target: str,
    c: Candidate,
    base: set[tuple[str, tuple[str | int, ...]]],
    tools: Sequence[Tool],
    learning: Learning | None,
) -> Candidate:
    """The candidate with what a whole plan tells: amounts, holes, tools, errors of its own."""
    planned = make_plan(with_yarn(project, target, c.yarn), learning)
    uses = [u for u in planned.plan.yarns if target in (u.name, ALL)]
    used, with_reserve = fsum(u.used for u in uses), fsum(u.wanted for u in uses)
    tex = next(f for key, f in planned.plan.figures.items() if key.startswith("tex:"))
    if uses:
        tex = uses[0].figures.tex
    left = c.yarn.at_hand
    have = None
    if left is not None:
        have = left.length if left.length is not None else (left.mass or 0.0) / tex.value * 1e6
    c = replace(c, used=used, wanted=with_reserve, at_hand=have, plan=planned.plan)
    errors = [d for d in planned.diagnostics if d.is_error and d.code not in SAID]
    own = [Reason(d.code, d.message) for d in errors if (d.code, d.path) not in base]
    holes = [d for d in errors if d.code == "hole-too-small" and (d.code, d.path) in base]
    own += [Reason(d.code, d.message) for d in holes]
    bad, good = amount_reasons(c, tex)
    return replace(
        c,
        failures=(*c.failures, *own, *bad),
        remarks=(*c.remarks, *good, *tool_reasons(project, c, tools), *tight_holes(planned.plan)),
    )
