"""At a glance: takes the plan, gives what is made, the figures that matter and the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sheetgen.layout.blocks import Block, Boxed, Heading, Para, Run, Runs, Table
from sheetgen.layout.desk import Desk
from sheetgen.layout.words import Words, plain
from sheetgen.model.values import Reading
from sheetgen.plan.figure import Figure
from sheetgen.plan.planner import surest_next

PART = "at a glance"


def glance(desk: Desk) -> Iterator[Block]:
    """What is made, from which find, the figures that matter, cautions."""
    words, project = desk.words(PART), desk.plan.project
    yield Heading(words.heading)
    for _, runs in words.lines("what"):
        yield Para(runs)
    if identity := [runs for _, runs in words.lines("identity")]:
        yield Para(joined(identity, " · "))
    if project.find:
        yield from _find(desk, words)
    yield Table(
        tuple(words.runs(f"head {column}") for column in ("figure", "value", "how")),
        tuple(_figures(desk, words)),
        (0.42, 0.36, 0.22),
    )
    for name in ("verdict", "choices"):
        if said := [runs for _, runs in words.lines(name)]:
            yield Para(joined(said, " "))
    for _, runs in words.lines("remarks", next=surest_next(desk.plan)):
        yield Para(runs, small=True)
    for note in project.notes:
        yield Para((*words.runs("note"), *plain(note)))
    cautions = tuple(Para(runs) for _, runs in words.lines("cautions"))
    if cautions:
        yield Boxed(cautions, words.text("cautions"))


def joined(parts: Sequence[Runs], between: str) -> Runs:
    """Several sentences as one, with ``between`` between them."""
    found: list[Run] = []
    for runs in parts:
        if found:
            found.append(Run(between))
        found += runs
    return tuple(found)


def _figures(desk: Desk, words: Words) -> Iterator[tuple[Runs, ...]]:
    """Rows of the template's list whose figure is in this plan."""
    for line in words.part.lists.get("figures", ()):
        figure = desk.plan.figures.get(line.key)
        if figure is None or not line.applies(desk.flags):
            continue
        name = next(runs for key, runs in words.lines("figures") if key == line.key)
        value = plain(desk.fields[f"{line.key}.range"], bold=True)
        yield name, value, plain(origin_word(desk, figure))


def origin_word(desk: Desk, figure: Figure) -> str:
    """Where a figure came from in words, and whether it rests on a rule of thumb."""
    resting = desk.common("resting") if figure.rests_on_rule else ""
    return desk.common(figure.origin) + resting


def _find(desk: Desk, words: Words) -> Iterator[Block]:
    """What was read off the find, what is uncertain, what cannot be known."""
    find = desk.plan.project.find
    assert find is not None, "asked only where there is a find"
    read: list[str] = []
    unknown = list(find.not_known)
    for key in ("thickness", "width", "length"):
        value = getattr(find, key)
        name = words.text(f"find {key}")
        if isinstance(value, Reading):
            about = "" if value.sure else words.text("about") + " "
            read.append(f"{name} {about}{desk.length(value.value)}")
        elif value is not None:
            unknown.append(name)
    for key in ("beads", "tablets", "fibre", "colours", "dated", "kept", "reference", "read_from"):
        if text := getattr(find, key):
            read.append(f"{words.text(f'find {key}')} {text}")
    runs = words.runs("find")
    if read:
        runs = (*runs, *words.runs("read"), *plain("; ".join(read) + "."))
    if find.uncertain:
        runs = (*runs, *words.runs("uncertain"), *plain(" " + "; ".join(find.uncertain) + "."))
    if unknown:
        runs = (*runs, *words.runs("not known"), *plain(" " + "; ".join(unknown) + "."))
    yield Para(runs)
