"""Characters that no font has: takes what is to be printed, gives a warning for every place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

from sheetgen.diagnostics import Diagnostic, Span
from sheetgen.diagnostics import Path as Place
from sheetgen.model.schema import written_key

if TYPE_CHECKING:
    from sheetgen.cli.run import Outcome
    from sheetgen.model.template import Template

_MOST = 5
"""So many characters are named in one warning."""


def in_description(outcome: Outcome) -> list[Diagnostic]:
    """A warning for every text of the description with such a character."""
    from sheetgen.draw.fonts import missing_characters

    assert outcome.plan is not None, "only a plan without errors is printed"
    texts = _texts(outcome.plan.project, ())
    found = [(place, missing_characters(text)) for place, text in texts]
    return [_warning(missing, place) for place, missing in found if missing]


def in_template(template: Template, source: str) -> tuple[Diagnostic, ...]:
    """A warning for every line of the template's file that brings such characters onto paper."""
    from sheetgen.draw.fonts import missing_characters

    if not missing_characters("".join(set(source))):  # most files: no need to look at each text
        return ()
    wanted = {c for _, text in _texts(template, ()) for c in missing_characters(text)}
    found = []
    for number, line in enumerate(source.splitlines(), start=1):
        missing = sorted(wanted.intersection(line.partition(" #")[0]))
        if missing:
            column = min(line.index(c) for c in missing) + 1
            found.append(_warning(missing, (), Span(number, column)))
    return tuple(found)


def _warning(missing: Sequence[str], place: Place, span: Span | None = None) -> Diagnostic:
    named = ", ".join(f"“{c}” (U+{ord(c):04X})" for c in missing[:_MOST])
    more = " and others" if len(missing) > _MOST else ""
    return Diagnostic(
        "no-such-character",
        "warning",
        f"the fonts cannot print {named}{more}: its number will stand there",
        place,
        span,
        hint="write it in Latin, Greek or Cyrillic letters",
    )


def _texts(value: Any, place: Place) -> Iterator[tuple[Place, str]]:
    """Every text in a part of the model, with its place in the description."""
    if isinstance(value, str):
        yield place, value
    elif is_dataclass(value):
        for each in fields(value):
            yield from _texts(getattr(value, each.name), (*place, written_key(each.name)))
    elif isinstance(value, Mapping):
        for key, item in value.items():
            yield from _texts(item, (*place, key))
    elif isinstance(value, tuple):
        for i, item in enumerate(value):
            yield from _texts(item, (*place, getattr(item, "name", i)))
