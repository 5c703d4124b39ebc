"""Diagnostics to words: takes diagnostics and the text they are about, gives lines or JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sheetgen.cli.terminal import BLUE, BOLD, RED, YELLOW, Paint, cells, laid_out, seen, wrapped
from sheetgen.diagnostics import Diagnostic, Span

_COLOUR = {"error": RED, "warning": YELLOW}
_BEFORE = 12
"""Columns that stay in sight before the place when a long line is cut."""
_LABEL = 9


def rendered(
    file: str, source: str, diagnostics: Sequence[Diagnostic], paint: Paint, width: int
) -> str:
    """All diagnostics of a file, each with its source line, and how many there are."""
    lines = source.split("\n")
    parts = [_rendered(file, lines, d, paint, width) for d in diagnostics]
    return "\n".join([*parts, counted(diagnostics)])


def counted(diagnostics: Sequence[Diagnostic]) -> str:
    """How many there are: ``3 errors, 1 warning``."""
    errors = sum(d.is_error for d in diagnostics)
    numbers = (("error", errors), ("warning", len(diagnostics) - errors))
    return ", ".join(f"{n} {word}{'' if n == 1 else 's'}" for word, n in numbers if n)


def as_json(file: str, diagnostics: Sequence[Diagnostic]) -> dict[str, Any]:
    """The same fields for a program to read."""
    return {"file": file, "diagnostics": [_fields(d) for d in diagnostics]}


def _fields(d: Diagnostic) -> dict[str, Any]:
    span = d.span
    return {
        "code": d.code,
        "severity": d.severity,
        "message": d.message,
        "line": span.line if span else None,
        "column": span.column if span else None,
        "length": span.length if span else None,
        "path": list(d.path),
        "given": d.given,
        "allowed": d.allowed,
        "hint": d.hint,
    }


def _rendered(file: str, lines: list[str], d: Diagnostic, paint: Paint, width: int) -> str:
    place = f"{file}:{d.span.line}:{d.span.column}" if d.span else file
    severity = paint(f"{d.severity}:", _COLOUR[d.severity])
    out = [f"{paint(seen(place) + ':', BOLD)} {severity} {seen(d.message)} [{d.code}]"]
    if d.span and 1 <= d.span.line <= len(lines):
        out += _underlined(lines[d.span.line - 1], d.span, paint, _COLOUR[d.severity], width)
    for label, text in (("given", d.given), ("allowed", d.allowed), ("hint", d.hint)):
        if text:
            out += _labelled(label, seen(text), paint, width)
    return "\n".join([*out, ""])


def _labelled(label: str, text: str, paint: Paint, width: int) -> list[str]:
    first, *rest = wrapped(text, max(20, width - _LABEL - 4))
    margin = " " * (_LABEL + 4)
    return [f"    {paint(label.ljust(_LABEL), BLUE)}{first}", *(margin + line for line in rest)]


def _underlined(line: str, span: Span, paint: Paint, colour: str, width: int) -> list[str]:
    """The source line and the marks below it; a line too wide is cut round the place."""
    number = str(span.line)
    # A line may be as long as the file: only what can come into the window is looked at.
    first = max(0, span.column - 1 - 2 * width)
    at = span.column - 1 - first
    shown, starts = laid_out(seen(line[first : span.column - 1 + 2 * width].rstrip()))
    last = len(starts) - 1
    begin, end = starts[min(at, last)], starts[min(at + span.length, last)]
    room = max(20, width - len(number) - 8)
    if first or cells(shown) > room:
        shown, cut = _cut(shown, begin - _BEFORE if begin > room - _BEFORE else 0, room)
        begin, end = begin - cut, min(end - cut, cells(shown.removesuffix("…")))
    marks = " " * begin + paint("^" * max(1, end - begin), colour)
    return [f"  {number} | {shown}", f"  {' ' * len(number)} | {marks}"]


def _cut(shown: str, start: int, room: int) -> tuple[str, int]:
    """The columns from about ``start`` with dots where something is left out, and the shift."""
    column, kept, first, after = 0, "", None, ""
    for character in shown:
        wide = cells(character)
        if first is not None and column + wide - first > room - 2:
            after = "…"
            break
        if column >= start:
            first = column if first is None else first
            kept += character
        column += wide
    before = "…" if start else ""
    return f"{before}{kept}{after}", (first or 0) - len(before)
