"""Runs of text broken into lines: nothing in a text is markup, nothing runs out of its column."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from itertools import groupby

from sheetgen.draw.fonts import CAP_HEIGHT, printable, text_width
from sheetgen.draw.scale import millimetres
from sheetgen.layout.blocks import Runs

_TOKEN = re.compile(r"\n| +|[^ \n]+")
_BREAK_AFTER = "-/\\_.,;:=&?"


@dataclass(frozen=True, slots=True)
class Setting:
    """How a text is set: size and leading in points; ``bold`` makes every run bold."""

    size: float
    leading: float
    bold: bool = False

    @property
    def line(self) -> float:
        """Height of a line, mm."""
        return millimetres(self.leading)

    @property
    def base(self) -> float:
        """From the top of a line to its base line, mm: capitals stand midway in the line."""
        return millimetres((self.leading + CAP_HEIGHT * self.size) / 2)


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a line in one weight, ``x`` mm from the start of the line."""

    x: float
    text: str
    bold: bool


@dataclass(frozen=True, slots=True)
class SetLine:
    """One line, ready to be drawn; ``width`` in mm."""

    pieces: tuple[Piece, ...]
    width: float


_Word = list[tuple[str, bool]]


def set_lines(runs: Runs, setting: Setting, width: float) -> tuple[SetLine, ...]:
    """Break ``runs`` into lines of at most ``width`` mm.

    Lines break at spaces and at line ends in the text; a word longer than a line is broken where
    it has a hyphen or the like, else anywhere. An empty text gives one empty line.
    """
    lines: list[SetLine] = []
    line: _Word = []
    filled = 0.0
    for word in _words(runs, setting):
        if word is None:
            lines.append(_set(line, setting))
            line, filled = [], 0.0
            continue
        wide = _width(word, setting)
        gap = text_width(" ", setting.size, line[-1][1]) if line else 0.0
        if line and filled + gap + wide > width:
            lines.append(_set(line, setting))
            line, filled, gap = [], 0.0, 0.0
        while wide > width and sum(len(text) for text, _ in word) > 1:
            head, word = _cut(word, setting, width)
            lines.append(_set(head, setting))
            wide = _width(word, setting)
        if line:
            line[-1] = (line[-1][0] + " ", line[-1][1])
        line += word
        filled += gap + wide
    if line or not lines:
        lines.append(_set(line, setting))
    return tuple(lines)


def shortened(text: str, size_pt: float, bold: bool, width: float) -> str:
    """``text`` if it fits into ``width`` mm, else its beginning and an ellipsis."""
    text = printable(text)
    if text_width(text, size_pt, bold) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if text_width(text[:middle].rstrip() + "…", size_pt, bold) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def _words(runs: Runs, setting: Setting) -> list[_Word | None]:
    """Words as lists of (text, bold); None stands for a line end inside the text."""
    words: list[_Word | None] = []
    joined = False
    for position, run in enumerate(runs):
        bold = run.bold or setting.bold
        text = run.text.replace("\r\n", "\n")
        if position == len(runs) - 1:
            text = text.rstrip("\n")  # a folded text often ends in a line end that means nothing
        for token in _TOKEN.findall("\n".join(printable(part) for part in text.split("\n"))):
            if token == "\n":
                words.append(None)
                joined = False
            elif token[0] == " ":
                joined = False
            else:
                last = words[-1] if joined and words else None
                if last is None:
                    words.append([(token, bold)])
                else:
                    last.append((token, bold))
                joined = True
    return words


def _width(word: _Word, setting: Setting) -> float:
    return sum(text_width(text, setting.size, bold) for text, bold in word)


def _cut(word: _Word, setting: Setting, width: float) -> tuple[_Word, _Word]:
    """The longest beginning of a long word that fits (one character at least), and the rest."""
    letters = [(letter, bold) for text, bold in word for letter in text]
    room, fits = width, 0
    for letter, bold in letters:
        room -= text_width(letter, setting.size, bold)
        if room < 0:
            break
        fits += 1
    fits = min(max(fits, 1), len(letters) - 1)
    for place in range(fits, fits // 2, -1):
        if letters[place - 1][0] in _BREAK_AFTER:
            fits = place
            break
    while fits < len(letters) - 1 and unicodedata.combining(letters[fits][0]):
        fits += 1
    return _merged(letters[:fits]), _merged(letters[fits:])


def _merged(word: _Word) -> _Word:
    """Neighbours in one weight as one."""
    return [
        ("".join(text for text, _ in group), bold)
        for bold, group in groupby(word, key=lambda piece: piece[1])
    ]


def _set(word: _Word, setting: Setting) -> SetLine:
    pieces, x = [], 0.0
    for text, bold in _merged(word):
        pieces.append(Piece(x, text, bold))
        x += text_width(text, setting.size, bold)
    return SetLine(tuple(pieces), x)
