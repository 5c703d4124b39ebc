"""A template: which parts a sheet has, in which order, and every sentence that is printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence by its key. ``when`` are flags that must hold (``not x``: must not hold)."""

    key: str
    say: str
    when: tuple[str, ...] = ()

    def applies(self, flags: frozenset[str]) -> bool:
        """True when all of ``when`` holds among ``flags``."""
        return all(
            (w[4:] not in flags) if w.startswith("not ") else (w in flags) for w in self.when
        )


@dataclass(frozen=True, slots=True)
class SheetPart:
    """One part: its heading, its ordered lists of lines, and single words by key."""

    name: str
    heading: str
    lists: Mapping[str, tuple[Line, ...]]
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Template:
    """All parts of one sheet in the order of printing, and words used on every page."""

    sheet: str
    language: str
    parts: tuple[SheetPart, ...]
    words: Mapping[str, str]
