"""Words: takes a template part and named figures, gives sentences ready for paper.

A sentence may hold ``{name}`` for a figure and ``**bold**``. What is filled in is never read
again, so a text from a description prints as it was written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from sheetgen import amounts
from sheetgen.amounts import Writing
from sheetgen.layout.blocks import Run, Runs
from sheetgen.model.template import SheetPart, Template

_FIELD = re.compile(r"\{([^{}]*)\}")


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

    def line(self, name: str, key: str, **more: str) -> str | None:
        """One line of a list as plain text, whatever its conditions; None if it is not there."""
        found = (line for line in self.part.lists.get(name, ()) if line.key == key)
        return next((self._fill(line.say.replace("**", ""), more) for line in found), None)

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
        return filled(sentence, more, self.fields)


def filled(sentence: str, *figures: Mapping[str, str]) -> str:
    """The sentence with each {name} from the first of ``figures`` that has it.

    UnknownFieldError if none has.
    """

    def value(match: re.Match[str]) -> str:
        name = match[1]
        for each in figures:
            if name in each:
                return each[name]
        raise UnknownFieldError(name)

    return _FIELD.sub(value, sentence)


def named_in(sentence: str) -> list[str]:
    """The names of the figures in a sentence, in order."""
    return _FIELD.findall(sentence)


def writing_of(template: Template) -> Writing:
    """How the template's language writes amounts: its decimal mark and its words for units."""
    words = template.words
    return Writing(
        words.get("decimal mark", "."), {w: words[w] for w in amounts.WORDS if w in words}
    )


def plain(text: str, bold: bool = False) -> Runs:
    """One run of text."""
    return (Run(text, bold),)
