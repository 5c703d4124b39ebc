"""Compared: takes the plan with what was made, gives find, plan and made side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sheetgen import amounts
from sheetgen.layout.blocks import Block, Heading, Para, Run, Runs, Table
from sheetgen.layout.desk import Desk
from sheetgen.layout.fields import written
from sheetgen.layout.glance import joined
from sheetgen.layout.words import Words, plain
from sheetgen.model.values import Unknown
from sheetgen.plan.figure import Unit
from sheetgen.plan.record import Row, compare, share
from sheetgen.plan.told import Told

PART = "compared"
WIDE = 150.0
"""On less, mm, five columns leave no room for a word."""


def compared(desk: Desk) -> Iterator[Block]:
    """The quantities that are known of the piece, then those that are still to be measured."""
    words = desk.words(PART)
    yield Heading(words.heading)
    for _, runs in words.lines("how"):
        yield Para(runs, small=True)
    rows = [row for row in compare(desk.plan) if row.find or row.plan or row.made]
    done = [row for row in rows if row.made]
    if done:
        yield _measured(desk, words, done)
    if left := [row for row in rows if not row.made]:
        if done:
            yield Heading(words.text("still to measure"), 2)
        yield _form(desk, words, left)


def _measured(desk: Desk, words: Words, rows: Sequence[Row]) -> Table:
    """Rows of what is known; on narrow paper two columns stand in one."""
    cells = [
        (
            _name(words, row),
            _find(desk, words, row),
            _told(desk, row.plan, row.unit) if row.plan else words.runs("not planned"),
            _told(desk, row.made, row.unit, bold=True),
            _differences(desk, words, row),
        )
        for row in rows
    ]
    if desk.width < WIDE:
        narrow = tuple(
            (
                name,
                joined((_both(words, find, plan), (*words.runs("the piece"), *made)), "; "),
                difference,
            )
            for name, find, plan, made, difference in cells
        )
        heads = tuple(words.runs(f"head {head}") for head in ("what", "all three", "difference"))
        return Table(heads, narrow, (0.26, 0.46, 0.28))
    heads = tuple(
        words.runs(f"head {head}") for head in ("what", "find", "plan", "made", "difference")
    )
    return Table(heads, tuple(cells), (0.2, 0.16, 0.22, 0.17, 0.25))


def _form(desk: Desk, words: Words, rows: Sequence[Row]) -> Table:
    """Rows to fill in by pencil."""
    cells = [
        (_name(words, row), _find(desk, words, row), _told(desk, row.plan, row.unit))
        for row in rows
    ]
    if desk.width < WIDE:
        narrow = tuple((name, _both(words, find, plan), ()) for name, find, plan in cells)
        heads = tuple(words.runs(f"head {head}") for head in ("what", "both", "made"))
        return Table(heads, narrow, (0.28, 0.4, 0.32), to_write=True)
    heads = tuple(words.runs(f"head {head}") for head in ("what", "find", "plan", "made"))
    rest = tuple((*row, ()) for row in cells)
    return Table(heads, rest, (0.22, 0.18, 0.26, 0.34), to_write=True)


def _both(words: Words, find: Runs, plan: Runs) -> Runs:
    """Find and plan in one cell, each with its name."""
    named = [(*words.runs("the plan"), *plan)] if plan else []
    if find != plain("–"):
        named.insert(0, (*words.runs("the find"), *find))
    return joined(named, "; ")


def _name(words: Words, row: Row) -> Runs:
    kind, _, name = row.key.partition(":")
    return words.runs(f"row {kind}", name=name)


def _find(desk: Desk, words: Words, row: Row) -> Runs:
    if isinstance(row.find, Unknown):
        return words.runs("unknown")
    return _told(desk, row.find, row.unit) if row.find else plain("–")


def _told(desk: Desk, told: Told | None, unit: Unit, bold: bool = False) -> Runs:
    """Value, range where there is one, and where it came from."""
    if told is None:
        return ()
    value = _written(desk, told.value, unit)
    if told.high > told.low:
        low, high = (_written(desk, end, unit, single=True) for end in (told.low, told.high))
        if low != high:
            number, _, sign = low.partition("\u00a0")
            high = high.removeprefix("× ")
            value += f" ({number.removeprefix('× ') if high.endswith(sign) else low} – {high})"
    origin = desk.common(told.origin) + (desk.common("resting") if told.by_rule else "")
    return (Run(value, bold), Run(f", {origin}"))


def _differences(desk: Desk, words: Words, row: Row) -> Runs:
    """How far the piece lies from plan and find, in size and per cent."""
    found: list[Run] = []
    pairs = (("to plan", row.from_plan, row.plan), ("to find", row.from_find, row.find))
    for key, difference, other in pairs:
        if difference is None or not isinstance(other, Told):
            continue
        if found:
            found.append(Run("; "))
        part = share(difference, other.value)
        told = _signed(desk, _rounded(difference, other.value, row.unit), row.unit)
        percent = "" if part is None else amounts.percent(part).replace(" ", "\u00a0")
        found += words.runs(key, difference=told, share=percent or "–")
    return tuple(found) or plain("–")


def _rounded(difference: float, of: float, unit: Unit) -> float:
    """A difference of lengths no finer than they are printed: to 1, 0.1 or 0.01 mm."""
    if unit != "mm":
        return difference
    places = 0 if abs(of) >= 99.95 else 1 if abs(of) >= 9.995 else 2
    return round(difference, places)


def _signed(desk: Desk, difference: float, unit: Unit) -> str:
    """A difference with its sign; nothing has none."""
    size = _written(desk, abs(difference), unit, single=True)
    if not any(digit in size for digit in "123456789"):
        return size
    sign = "+" if difference > 0 else "−"
    return sign + size.removeprefix("× ")


def _written(desk: Desk, value: float, unit: Unit, single: bool = False) -> str:
    """A value with its unit; ``single``: in metric units alone where both are wanted."""
    units = desk.plan.project.units
    units = "mm" if single and units == "both" else units
    if unit == "picks per min":
        return amounts.plain(value, 1, desk.writing)
    return written(value, unit, units, desk.writing)
