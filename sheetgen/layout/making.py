"""Making: takes the plan with what was made, gives interventions, notes, time, what to change."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from sheetgen.layout.blocks import Block, Heading, Para, Runs, Table, WritingLines
from sheetgen.layout.desk import Desk
from sheetgen.layout.words import Words, plain
from sheetgen.model.made import Made, TimeTaken

NOTES, DIFFERENTLY = 6, 4
"""Lines to write on."""
BLANKS = 3
"""Empty rows for sessions and tasks that were not planned."""


def making(desk: Desk) -> Iterator[Block]:
    """How the piece was woven: interventions, working notes, time."""
    words, project = desk.words("making"), desk.plan.project
    made = project.made or Made()
    yield Heading(words.heading)
    if desk.plan.turning.interventions or made.interventions:
        yield Heading(words.text("interventions"), 2)
        yield _interventions(desk, words, made)
    yield Heading(words.text("time"), 2)
    yield _time(desk, words, made)
    yield Heading(words.text("notes"), 2)
    for note in project.notes:
        yield Para((*words.runs("of the plan"), *plain(note)))
    for note in made.notes:
        yield Para(plain(note))
    if not made.notes:
        yield WritingLines(NOTES)


def _interventions(desk: Desk, words: Words, made: Made) -> Table:
    """Planned beside as woven, in order; what was not noted is left to write."""
    turning = desk.plan.turning
    rows: list[tuple[Runs, ...]] = []
    pairs = zip_longest(turning.interventions, made.interventions)
    for number, (planned, woven) in enumerate(pairs, start=1):
        rows.append(
            (
                plain(str(number), bold=True),
                words.runs("planned at", pick=str(planned.pick), way=words.text(turning.way))
                if planned
                else words.runs("not planned"),
                words.runs("woven at", pick=str(woven.pick), done=woven.done) if woven else (),
            )
        )
    heads = tuple(words.runs(f"head {head}") for head in ("number", "planned", "woven"))
    open_ = any(not woven for *_, woven in rows)
    return Table(heads, tuple(rows), (0.08, 0.42, 0.5), to_write=open_)


def _time(desk: Desk, words: Words, made: Made) -> Table:
    """A row a session, then a row a task, then the sum of what was noted."""
    project = desk.plan.project
    taken = {part.name: part for part in made.time}
    planned = {session.name: session.lasts for session in project.sessions}
    rows: list[tuple[Runs, ...]] = []
    for name in dict.fromkeys((*planned, *taken)):
        lasts = plain(_short(desk, planned[name])) if name in planned else plain("–")
        rows.append((plain(name), lasts, *_took(desk, words, taken.get(name))))
    for part in made.other_time:
        rows.append((plain(part.name), plain("–"), *_took(desk, words, part)))
    if project.made is None:
        rows += [(words.runs("warping"), (), (), plain("–"))]
        rows += [(words.runs("making up"), (), (), plain("–"))]
        rows += [((), (), (), ())] * BLANKS
    elif not made.time:
        rows += [((), (), (), ())]
    if every := [part.took for part in (*made.time, *made.other_time)]:
        total = plain(_short(desk, sum(every)), bold=True)
        rows.append((words.runs("in all"), (), total, plain("–")))
    heads = tuple(words.runs(f"head {head}") for head in ("session", "lasts", "took", "picks"))
    open_ = any(not took for _, _, took, _ in rows)
    return Table(heads, tuple(rows), (0.36, 0.2, 0.22, 0.22), to_write=open_)


def _took(desk: Desk, words: Words, part: TimeTaken | None) -> tuple[Runs, Runs]:
    if part is None:
        return (), ()
    picks = "–" if part.picks is None else str(part.picks)
    return plain(_short(desk, part.took)), plain(picks)


def _short(desk: Desk, minutes: float) -> str:
    """A time that may be parted at the end of a line: the columns are narrow on small paper."""
    return desk.time(minutes).replace("\u00a0", " ")


def differently(desk: Desk) -> Iterator[Block]:
    """What would be done differently next time."""
    words, made = desk.words("differently"), desk.plan.project.made
    yield Heading(words.heading)
    if made and made.differently:
        for text in made.differently:
            yield Para(plain(text))
    else:
        yield WritingLines(DIFFERENTLY)
