"""What is said of a bug: takes the exception and the line typed, gives words and the exit code."""

from __future__ import annotations

import platform
import shlex
import traceback
from collections.abc import Sequence
from itertools import takewhile
from pathlib import Path

from sheetgen import __version__
from sheetgen.cli.terminal import say, seen

BUG = 70
"""Exit code of a bug: EX_SOFTWARE of BSD's ``sysexits.h``."""

DEBUG = "--debug"


def wanted(words: Sequence[str]) -> bool:
    """True when ``--debug`` stands before the command."""
    return DEBUG in takewhile(lambda word: word.startswith("-"), words)


def told(problem: Exception, words: Sequence[str]) -> int:
    """Say that this is a bug: in one line what to attach; with ``--debug`` the traceback too."""
    if wanted(words):
        lines = "".join(traceback.format_exception(problem)).rstrip().split("\n")
        say("\n".join(seen(line) for line in lines), error=True)
        say(
            "\nThis is a bug in sheetgen, not a mistake of yours. Please report it: attach all "
            f"lines above, the description, and this line: sheetgen {__version__}, "
            f"Python {platform.python_version()}, {platform.system()}",
            error=True,
        )
        return BUG
    again = seen(shlex.join(["sheetgen", DEBUG, *words]))
    say(
        f"sheetgen: a bug, not a mistake of yours: {type(problem).__name__}{_place(problem)}. "
        f"Please report it; attach the description and what this prints: {again}",
        error=True,
    )
    return BUG


def _place(problem: Exception) -> str:
    """Where in the program it happened last: `` in plan/size.py, line 42``."""
    ours = Path(__file__).parent.parent
    for frame in reversed(traceback.extract_tb(problem.__traceback__)):
        file = Path(frame.filename)
        if file.is_relative_to(ours):
            return f" in {file.relative_to(ours).as_posix()}, line {frame.lineno}"
    return ""
