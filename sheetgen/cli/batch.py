"""Many descriptions at once: takes files and what is to be done with one, does it on every core.

Whatever is said of a file is said when its turn comes, in the order of the files.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Callable, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from sheetgen.cli.cores import spread
from sheetgen.cli.progress import progress
from sheetgen.cli.telling import DONE
from sheetgen.cli.terminal import say

One = Callable[[Path], int]
"""What is done with one file; gives the exit code."""


@dataclass(frozen=True, slots=True)
class Said:
    """What came of one file: the exit code, and what is to be said on stdout and on stderr."""

    code: int
    out: str
    error: str


class _Kept(io.StringIO):
    """What is said instead of a stream, as for it: in colour where it would be."""

    def __init__(self, instead_of: TextIO) -> None:
        super().__init__()
        self._terminal = instead_of.isatty()

    def isatty(self) -> bool:
        return self._terminal


def do_all(files: Sequence[Path], one: One, what: str) -> int:
    """Do ``one`` with every file; the highest exit code. A mistake in one stops no other.

    ``one`` must be such that another process can get it: a function of a module, or a
    ``functools.partial`` of one.
    """
    code = DONE
    with spread(files, _Work(one)) as others, progress(what, len(files)) as work:
        for said in others:
            for text, error in ((said.out, False), (said.error, True)):
                if text:
                    say(text.removesuffix("\n"), error=error)
            code = max(code, said.code)
            work.step()
    return code


@dataclass(frozen=True, slots=True)
class _Work:
    """What a process of the pool does with a file."""

    one: One

    def __call__(self, file: Path) -> Said:
        return _kept(file, self.one)


def _kept(file: Path, one: One) -> Said:
    """Do it with one file, keeping what is said."""
    out, error = _Kept(sys.stdout), _Kept(sys.stderr)
    with redirect_stdout(out), redirect_stderr(error):
        code = one(file)
    return Said(code, out.getvalue(), error.getvalue())
