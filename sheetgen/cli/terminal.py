"""The terminal: what it can show, how wide it is, and how a line gets there without a stumble."""

from __future__ import annotations

import codecs
import contextlib
import errno
import os
import re
import shutil
import sys
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TextIO

NARROWEST, USUAL, WIDEST = 40, 100, 160
"""Columns: what is assumed where nothing is known, and the limits beyond which a table is odd."""

TAB = 4
_PLAIN = {
    "“": '"', "”": '"', "‘": "'", "’": "'", "–": "-", "—": "-", "−": "-", "…": "...", "×": "x",
    "√": "sqrt ", "π": "pi", "²": "^2", "³": "^3", "±": "+/-", "·": "-", "Ø": "O", "ø": "o",
    "°": " degrees", "≤": "<=", "≥": ">=", "→": "->",
}  # fmt: skip
_PLAIN_ERRORS = "sheetgen-plain"

BOLD, RED, YELLOW, BLUE = "1", "1;31", "1;33", "34"


@dataclass(frozen=True, slots=True)
class Paint:
    """Colours a stretch of text if ``on``. Colour never stands alone: the words say the same."""

    on: bool = False

    def __call__(self, text: str, colour: str) -> str:
        """The text in a colour, or as it is."""
        return f"\x1b[{colour}m{text}\x1b[0m" if self.on and text else text


def paint_for(stream: TextIO) -> Paint:
    """Colour for a terminal only, and not where NO_COLOR is set or the terminal is a dumb one."""
    try:
        terminal = stream.isatty()
    except ValueError:  # closed
        terminal = False
    wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Paint(terminal and wanted)


def columns() -> int:
    """How many columns a table may take."""
    wide = shutil.get_terminal_size((USUAL, 24)).columns
    return max(NARROWEST, min(wide, WIDEST))


def make_safe() -> None:
    """Let both streams write a plain substitute for a character that they cannot write."""
    codecs.register_error(_PLAIN_ERRORS, _substitute)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors=_PLAIN_ERRORS)


def _substitute(problem: UnicodeError) -> tuple[str, int]:
    if not isinstance(problem, UnicodeEncodeError):
        raise problem
    unwritable = problem.object[problem.start : problem.end]
    return "".join(_plain(c) for c in unwritable), problem.end


def _plain(character: str) -> str:
    if character in _PLAIN:
        return _PLAIN[character]
    decomposed = unicodedata.normalize("NFKD", character)
    ascii_part = decomposed.encode("ascii", "ignore").decode("ascii")
    return ascii_part or ("" if unicodedata.combining(character) else "?")


def say(text: str, *, error: bool = False) -> None:
    """Write lines to stdout, or with ``error`` to stderr. A reader that has gone is not missed."""
    stream = sys.stderr if error else sys.stdout
    try:
        stream.write(text + "\n")
        stream.flush()
    except OSError as problem:
        forget(stream)
        if problem.errno not in (errno.EPIPE, errno.EINVAL):  # Windows says EINVAL of a pipe
            raise


def say_on(text: str) -> None:
    """Write to stdout and stay on the line, for an answer."""
    sys.stdout.write(text)
    sys.stdout.flush()


def forget(stream: TextIO) -> None:
    """Send whatever is still to be written nowhere, so that leaving does not stumble over it."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    with contextlib.suppress(OSError, ValueError):  # a stream that is no file
        os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def seen(text: str) -> str:
    r"""The text with what could command a terminal, or turn its reading direction, made visible.

    >>> seen("a\x1b[2Jb")
    'a�[2Jb'
    """
    return "".join("�" if _is_command(c) else c for c in text)


def _is_command(character: str) -> bool:
    if character in "\t\u200d":
        return False
    return unicodedata.category(character) in ("Cc", "Cf", "Zl", "Zp", "Cs")


def cells(text: str) -> int:
    r"""How many columns a text without tabs takes on a terminal.

    >>> cells("e\u0301"), cells("\u7d79")
    (1, 2)
    """
    return sum(width for _, width in _widths(text, 0))


def _widths(text: str, column: int) -> Iterator[tuple[str, int]]:
    """Each character with the columns it takes, the first one standing at ``column``."""
    for character in text:
        if character == "\t":
            width = TAB - column % TAB
        elif unicodedata.category(character) in ("Mn", "Me", "Cf"):
            width = 0
        else:
            width = 2 if unicodedata.east_asian_width(character) in "WF" else 1
        yield character, width
        column += width


def laid_out(text: str) -> tuple[str, list[int]]:
    """The text with its tabs as spaces, and the column at which each character starts.

    The list has one entry more than there are characters: where the text ends.
    """
    shown, starts, column = [], [], 0
    for character, width in _widths(text, 0):
        starts.append(column)
        shown.append(" " * width if character == "\t" else character)
        column += width
    return "".join(shown), [*starts, column]


def padded(text: str, width: int, *, right: bool = False) -> str:
    """The text filled up with spaces to ``width`` columns."""
    space = " " * max(0, width - cells(text))
    return space + text if right else text + space


_BREAKS = re.compile(r"[^\S\u00a0]+")


def wrapped(text: str, width: int) -> list[str]:
    """The text broken at spaces into lines of at most ``width`` columns; long words are cut.

    Hard spaces (U+00A0) are not broken at.
    """
    lines, line = [], ""
    for word in filter(None, _BREAKS.split(text)):
        if line and cells(line) + 1 + cells(word) <= width:
            line += f" {word}"
            continue
        if line:
            lines.append(line)
        while cells(word) > width:
            cut = next(n for n in range(width, 0, -1) if cells(word[:n]) <= width)
            lines.append(word[:cut])
            word = word[cut:]
        line = word
    return [*lines, line] if line or not lines else lines
