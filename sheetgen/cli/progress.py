"""Work that takes long: takes what is being done, gives a line about it while it lasts.

The line stands on stderr, on a terminal only, only after the first second, and is wiped away at
the end: a reader of a file or a pipe never gets it, and whoever need not wait never sees it.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic

from sheetgen.cli.terminal import cells, columns, seen, wrapped

PATIENCE = 1.0
"""Seconds without a word. Common practice: a second is borne without a sign of life."""
BAR = 20
"""Characters of the bar; it stands last, so that a narrow terminal loses it first."""
BEAT = 0.5
"""Seconds between two looks at how far it is."""


class Progress:
    """How far a piece of work is; :meth:`step` is called by whoever does it."""

    def __init__(self, what: str, of: int = 0) -> None:
        self.what, self.of, self.done = what, of, 0
        self.began = monotonic()

    def step(self, done: int = 1) -> None:
        """So many more are done."""
        self.done += done

    def line(self) -> str:
        """What is told at this moment.

        >>> work = Progress("printing hand-outs", of=12); work.step(5); work.line()
        'printing hand-outs: 5 of 12 [########............]'
        """
        if self.of:
            share = min(1.0, self.done / self.of)
            bar = ("#" * int(BAR * share)).ljust(BAR, ".")
            return f"{self.what}: {self.done} of {self.of} [{bar}]"
        return f"{self.what}: {monotonic() - self.began:.0f} s"


@contextmanager
def progress(what: str, of: int = 0) -> Iterator[Progress]:
    """While the block lasts longer than a second, say ``what`` it does and how far it is.

    With ``of`` the steps are counted, otherwise the seconds::

        with progress("printing hand-outs", of=len(people)) as work:
            for person in people:
                ...
                work.step()
    """
    work = Progress(seen(what), of)
    if not _is_watched():
        yield work
        return
    over = threading.Event()
    teller = threading.Thread(target=_tell, args=(work, over), daemon=True)
    teller.start()
    try:
        yield work
    finally:
        over.set()
        teller.join()


def _is_watched() -> bool:
    """True where somebody sits before a terminal that can wipe a line."""
    try:
        return sys.stderr.isatty() and os.environ.get("TERM") != "dumb"
    except ValueError:  # closed
        return False


def _tell(work: Progress, over: threading.Event) -> None:
    """Write the line after the first second and again at every beat; wipe it at the end."""
    wide = 0
    wait = PATIENCE
    while not over.wait(wait):
        line = wrapped(work.line(), columns() - 1)[0]
        sys.stderr.write(f"\r{line}{' ' * (wide - cells(line))}")
        sys.stderr.flush()
        wide, wait = max(wide, cells(line)), BEAT
    if wide:
        sys.stderr.write(f"\r{' ' * wide}\r")
        sys.stderr.flush()
