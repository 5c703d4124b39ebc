"""Collects the mistakes of one description: takes what readers find wrong, gives diagnostics."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from itertools import islice

from sheetgen.diagnostics import Diagnostic, Path, Severity, Span

MOST = 200
"""Mistakes that are kept; beyond it the rest is only noise, and slow."""

_LONGEST_WORD = 60
_LONGEST_SENTENCE = 600
_MOST_COMPARED = 300


class Misread(ValueError):  # noqa: N818  # a user's mistake, not a bug
    """A written value that cannot be read: what is wrong, what may stand there, how to mend it."""

    def __init__(self, code: str, reason: str, *, allowed: str = "", hint: str = "") -> None:
        super().__init__(reason)
        self.code = code
        self.reason = reason
        self.allowed = allowed
        self.hint = hint


class Findings:
    """The mistakes found so far, in the order found."""

    def __init__(self) -> None:
        self.diagnostics: list[Diagnostic] = []

    @property
    def full(self) -> bool:
        """True when no more are kept."""
        return len(self.diagnostics) >= MOST

    def error(
        self,
        code: str,
        message: str,
        path: Path = (),
        *,
        span: Span | None = None,
        given: str = "",
        allowed: str = "",
        hint: str = "",
    ) -> None:
        """Note a mistake that must be mended before anything is printed."""
        self._add("error", code, message, path, span, given, allowed, hint)

    def warning(
        self,
        code: str,
        message: str,
        path: Path = (),
        *,
        span: Span | None = None,
        given: str = "",
        allowed: str = "",
        hint: str = "",
    ) -> None:
        """Note something worth knowing that stops nothing."""
        self._add("warning", code, message, path, span, given, allowed, hint)

    def errors_in(self, line: int) -> bool:
        """True when an error has been told in that line."""
        return any(d.is_error and d.span and d.span.line == line for d in self.diagnostics)

    def withdraw(self, code: str, line: int) -> bool:
        """Take back what was told by that code in a line, its cause being known; True if it was."""
        kept = [d for d in self.diagnostics if (d.code, d.span and d.span.line) != (code, line)]
        taken = len(kept) < len(self.diagnostics)
        self.diagnostics = kept
        return taken

    def withdraw_at(self, code: str, path: Path) -> None:
        """Take back what was told by that code of the value at a path."""
        self.diagnostics = [d for d in self.diagnostics if (d.code, d.path) != (code, path)]

    def _add(
        self,
        severity: Severity,
        code: str,
        message: str,
        path: Path,
        span: Span | None,
        given: str,
        allowed: str,
        hint: str,
    ) -> None:
        if self.full:
            return
        self.diagnostics.append(
            Diagnostic(
                code,
                severity,
                shortened(message, _LONGEST_SENTENCE),
                path,
                span,
                shortened(given) or None,
                shortened(allowed, _LONGEST_SENTENCE) or None,
                shortened(hint, _LONGEST_SENTENCE) or None,
            )
        )


def shortened(text: str, most: int = _LONGEST_WORD) -> str:
    r"""The text as it may stand in a message: one line, at most so many characters.

    >>> shortened("a long \n name", 8)
    'a long …'
    """
    line = " ".join(text[: 4 * most].split())
    return line if len(line) <= most else line[: most - 1] + "…"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The one of ``known`` that looks most like ``word``, if one does."""
    if len(word) > _LONGEST_WORD:
        return None
    by_folded = {k.casefold(): k for k in islice(known, _MOST_COMPARED)}
    found = difflib.get_close_matches(word.casefold(), list(by_folded), n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """A hint with the nearest of ``known``, or ``otherwise``."""
    near = nearest(word, known)
    return f"did you mean “{near}”?" if near else otherwise


CURLY = ("“", "”", "„", "‟", "‘", "’", "‚", "«", "»")
"""Marks that a word processor puts in place of straight quotes."""


def straight(text: str) -> str:
    """The text in straight quotes, its own marks round it taken away."""
    bare = text.strip("".join(CURLY) + "\"' ")
    return f'"{bare}"'


def listed(words: Iterable[str]) -> str:
    """Words as they stand in a sentence: ``a, b, c``."""
    return ", ".join(words)
