"""The desk: what every part of a sheet is laid out from."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from sheetgen import amounts
from sheetgen.amounts import Writing
from sheetgen.layout.fields import whole
from sheetgen.layout.shapes import Raster
from sheetgen.layout.words import Words, filled, writing_of
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

Measure = Callable[[str, float, bool], float]
"""Text, size in points, bold -> width in mm."""


@dataclass(frozen=True)
class Desk:
    """Plan, template, figures as text, flags, the frame's size (mm), a ruler for text."""

    plan: Plan
    template: Template
    fields: Mapping[str, str]
    flags: frozenset[str]
    width: float
    height: float
    measure: Measure
    photographs: Mapping[str, Raster] = field(default_factory=dict)
    """By the names of their files, for the record."""

    def words(self, part: str) -> Words:
        """The sentences of a part; KeyError if the template has no such part."""
        for candidate in self.template.parts:
            if candidate.name == part:
                return Words(candidate, self.fields, self.flags)
        raise KeyError(part)

    def length(self, mm: float) -> str:
        """A length in the units of the sheet."""
        return whole(amounts.length(mm, self.plan.project.units, self.writing))

    def along(self, mm: float) -> str:
        """A place along the work, always in cm (or inches), so that places compare at a glance."""
        metric = whole(f"{amounts.plain(mm / 10, 1, self.writing)} {self.writing('cm')}")
        match self.plan.project.units:
            case "mm":
                return metric
            case "inches":
                return self.length(mm)
            case _:
                return f"{metric} / {whole(amounts.length(mm, 'inches', self.writing))}"

    def mass(self, grams: float) -> str:
        """A mass in the units of the sheet."""
        return whole(amounts.mass(grams, self.plan.project.units, self.writing))

    def time(self, minutes: float) -> str:
        """A time."""
        return whole(amounts.minutes(minutes, self.writing))

    @property
    def writing(self) -> Writing:
        """How the template's language writes amounts."""
        return writing_of(self.template)

    def common(self, key: str, **more: str) -> str:
        """A word used on more than one part, ``more`` filled in."""
        return filled(self.template.words[key], more)

    def broken(self, text: str, size: float, bold: bool, width: float) -> list[str]:
        """The text in lines of at most ``width`` mm; a word wider than that is parted."""
        lines = [""]
        for word in text.split(" "):
            for part in self._parts(word, size, bold, width):
                longer = f"{lines[-1]} {part}" if lines[-1] else part
                if self.measure(longer, size, bold) <= width:
                    lines[-1] = longer
                else:
                    lines.append(part)
        return [line for line in lines if line]

    def _parts(self, word: str, size: float, bold: bool, width: float) -> Iterator[str]:
        while len(word) > 1 and self.measure(word, size, bold) > width:
            fits = len(word) - 1
            while fits > 1 and self.measure(word[:fits], size, bold) > width:
                fits -= 1
            yield word[:fits]
            word = word[fits:]
        yield word
