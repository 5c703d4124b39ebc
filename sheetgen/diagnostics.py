"""What is wrong with a description, where, and how to mend it.

A user's mistakes are collected as values of :class:`Diagnostic` and handed back; exceptions are
for bugs. Rendering for the terminal lives with the command line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

Severity = Literal["error", "warning"]
Path = tuple[str | int, ...]
"""Where a value stands: keys and list positions (from 0), outermost first."""


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of one source line; ``line`` and ``column`` count from 1, ``length`` characters."""

    line: int
    column: int
    length: int = 1


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake or one thing worth knowing.

    ``code`` is stable and hyphenated, ``message`` one sentence without its full stop, ``given`` the
    value as written, ``allowed`` what may stand there, ``hint`` how to mend it.
    """

    code: str
    severity: Severity
    message: str
    path: Path = ()
    span: Span | None = None
    given: str | None = None
    allowed: str | None = None
    hint: str | None = None

    @property
    def is_error(self) -> bool:
        """True when nothing may be printed because of it."""
        return self.severity == "error"


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """True when at least one of the diagnostics is an error."""
    return any(d.is_error for d in diagnostics)


def placed(diagnostics: Iterable[Diagnostic], spans: Mapping[Path, Span]) -> tuple[Diagnostic, ...]:
    """Give every diagnostic the span of its path, or of the nearest around it; sort by place."""

    def with_span(d: Diagnostic) -> Diagnostic:
        path = d.path
        while d.span is None and path:
            if path in spans:
                return replace(d, span=spans[path])
            path = path[:-1]
        return d

    found = [with_span(d) for d in diagnostics]
    return tuple(sorted(found, key=lambda d: (d.span or Span(0, 0), d.code)))
