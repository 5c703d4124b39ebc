"""Words: takes a template part and named figures, gives sentences ready for paper.

A sentence may hold ``{name}`` for a figure and ``**bold**``. What is filled in is never read
again, so a text from a description prints as it was written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from sheetgen.layout.blocks import Run, Runs
from sheetgen.model.template import SheetPart

_FIELD = re.compile(r"\{([a-z0-9_:.-]+)\}")


class UnknownFieldError(KeyError):
    """A sentence names a figure that this plan does not have."""


class Words:
    """The sentences of one part of a sheet, filled with figures."""

    def __init__(self, part: SheetPart, fields: Mapping[str, str], flags: frozenset[str]) -> None:
        self.part = part
        self.fields = fields
        self.flags = flags

    @property
    def heading(self) -> str:
        """The heading of the part."""
        return self._fill(self.part.heading, {})

    def text(self, key: str, **more: str) -> str:
        """The word or sentence ``key`` as plain text, ``more`` filled in first."""
        return self._fill(self.part.words[key].replace("**", ""), more)

    def runs(self, key: str, **more: str) -> Runs:
        """The word or sentence ``key`` with its bold stretches."""
        return self._runs(self.part.words[key], more)

    def lines(self, name: str, **more: str) -> Iterator[tuple[str, Runs]]:
        """Key and runs of every line of a list that applies to this plan, in order."""
        for line in self.part.lists.get(name, ()):
            if line.applies(self.flags):
                yield line.key, self._runs(line.say, more)

    def keys(self, name: str) -> list[str]:
        """Keys of the lines of a list that apply to this plan, in order."""
        return [line.key for line in self.part.lists.get(name, ()) if line.applies(self.flags)]

    def _runs(self, sentence: str, more: Mapping[str, str]) -> Runs:
        stretches = sentence.split("**")
        return tuple(
            Run(self._fill(stretch, more), bold=bool(i % 2))
            for i, stretch in enumerate(stretches)
            if stretch
        )

    def _fill(self, sentence: str, more: Mapping[str, str]) -> str:
        def value(match: re.Match[str]) -> str:
            name = match[1]
            if name in more:
                return more[name]
            if name in self.fields:
                return self.fields[name]
            raise UnknownFieldError(name)

        return _FIELD.sub(value, sentence)


def plain(text: str, bold: bool = False) -> Runs:
    """One run of text."""
    return (Run(text, bold),)
