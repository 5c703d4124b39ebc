"""At a glance: takes the plan, gives what is made, the figures that matter and the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from sheetgen import amounts
from sheetgen.layout.blocks import Block, Boxed, Heading, Para, Run, Runs, Table
from sheetgen.layout.desk import Desk
from sheetgen.layout.fields import written
from sheetgen.layout.words import Words, filled, plain
from sheetgen.model.values import Reading
from sheetgen.plan.figure import Figure
from sheetgen.plan.planner import surest_figure

PART = "at a glance"
MOST_NAMED = 12
"""Pieces that are named for one figure; of more, their number is told."""


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
    if figures := tuple(_figures(desk, words)):
        heads = tuple(words.runs(f"head {column}") for column in ("figure", "value", "how"))
        yield Table(heads, figures, (0.38, 0.34, 0.28))
    for name in ("verdict", "choices"):
        if said := [runs for _, runs in words.lines(name)]:
            yield Para(joined(said, " "))
    if learned := tuple(_learned(desk, words)):
        yield Para((*words.runs("learned"), *joined(learned, " ")))
    for _, runs in words.lines("remarks", next=measure_next(desk, words)):
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


def _learned(desk: Desk, words: Words) -> Iterator[Runs]:
    """What pieces made before taught, and which they are."""
    for what, lesson in desk.plan.lessons.items():
        low, value, high = (
            amounts.plain(v, 2, desk.writing) for v in (lesson.low, lesson.value, lesson.high)
        )
        said = words.line(
            "lessons", what, value=value if low == high else f"{value} ({low} – {high})"
        )
        if said is None:
            continue
        count = len(lesson.pieces)
        pieces = ", ".join(lesson.pieces[:MOST_NAMED])
        if count > MOST_NAMED:
            pieces = words.text("and more", pieces=pieces, n=str(count - MOST_NAMED))
        text = words.text(
            f"of {lesson.among}", said=said, n=str(count), pieces=pieces, kind=lesson.kind
        )
        yield plain(text)
        if lesson.left_out:
            yield words.runs("left out", pieces=", ".join(lesson.left_out[:MOST_NAMED]))


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


def measure_next(desk: Desk, words: Words) -> str:
    """Which figure to measure to make the plan surer, and how, in the template's words.

    The lists ``names`` (by figure) and ``measures`` (by the plan's own words, with {yarn} for a
    yarn's name) hold them; what they do not hold is said as the plan says it.
    """
    figure = surest_figure(desk.plan)
    if figure is None:
        return ""
    key, _, yarn = figure.key.partition(":")
    measure = figure.next_measure
    for line, use in product(words.part.lists.get("measures", ()), desk.plan.yarns):
        if filled(line.key, {"yarn": use.name}) == figure.next_measure:
            measure = filled(line.say, {"yarn": use.name})
            break
    return words.text(
        "next figure",
        name=words.line("names", key, yarn=yarn) or figure.name,
        doubt=_doubt(desk, figure),
        measure=measure,
    )


def _doubt(desk: Desk, figure: Figure) -> str:
    """How unsure a figure is: a share either way, or its ends where these lie unevenly."""
    if figure.spread <= 0.5:
        return f"±\u00a0{amounts.plain(figure.spread * 100, 0)}\u00a0%"
    units = "mm" if desk.plan.project.units == "both" else desk.plan.project.units
    low, high = (written(v, figure.unit, units, desk.writing) for v in (figure.low, figure.high))
    return f"{low} – {high}"


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
