"""Many PDFs: takes their paths one by one, gives the files that each was printed from.

They are read in a process beside this one, as one PDF is by archive/recover.py; but the process is
kept for the next, since starting it takes many times as long as reading a sheet.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from pathlib import Path

from sheetgen.archive.inside import MOST_MEMORY, Unreadable, files_inside
from sheetgen.archive.recover import MOST_PDF

PATIENCE = 20.0
"""Seconds that one PDF may take; a sheet takes a fiftieth of one."""
NOT_OURS = ("foreign-pdf", "nothing-inside")
"""What is said of PDFs that are no records; all else is a fault."""


class Reading:
    """The process that reads, started when the first PDF comes, anew when one has ended it."""

    def __init__(self) -> None:
        self._pool: ProcessPoolExecutor | None = None

    def files_in(self, path: Path) -> tuple[tuple[str, bytes], ...] | str:
        """Name and bytes of each file inside, or a code of archive/recover.py. OSError of discs."""
        with path.open("rb") as stream:
            if b"%PDF-" not in stream.read(1024):
                return "damaged-pdf"
            if stream.seek(0, 2) > MOST_PDF:
                return "too-much-inside"
        if self._pool is None:
            self._pool = ProcessPoolExecutor(1, get_context("spawn"), _begin)
        try:
            return self._pool.submit(_files_in, str(path)).result(PATIENCE)
        except (BrokenProcessPool, TimeoutError):
            self.end()
            return "too-much-inside"

    def end(self) -> None:
        """Let the process go, busy or not."""
        if self._pool is not None:
            for process in list((self._pool._processes or {}).values()):
                process.kill()
            self._pool.shutdown(wait=True, cancel_futures=True)
            self._pool = None


@contextmanager
def reading() -> Iterator[Reading]:
    """A reading process that ends with the block."""
    it = Reading()
    try:
        yield it
    finally:
        it.end()


def _begin() -> None:
    """Limit the memory of this process, where the system can, and keep the reader quiet."""
    logging.disable()
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def _files_in(path: str) -> tuple[tuple[str, bytes], ...] | str:
    """What is inside one PDF; a broken one can break the reader in any way."""
    try:
        return tuple((each.name, each.data) for each in files_inside(Path(path).read_bytes()))
    except Unreadable as problem:
        return problem.code
    except MemoryError:
        return "too-much-inside"
    except Exception:
        return "damaged-pdf"
