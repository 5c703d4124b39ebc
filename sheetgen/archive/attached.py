"""Many PDFs: takes their paths one by one, gives the files that each was printed from.

They are read in processes beside this one, as one PDF is by archive/recover.py; but a process is
kept for the next, since starting it takes many times as long as reading a sheet.
"""

from __future__ import annotations

import logging
import os
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from multiprocessing import get_context, parent_process
from pathlib import Path
from queue import LifoQueue
from threading import Thread

from sheetgen.archive.inside import MOST_MEMORY, Unreadable, files_inside
from sheetgen.archive.recover import MOST_PDF

PATIENCE = 20.0
"""Seconds that one PDF may take; a sheet takes a fiftieth of one."""
NOT_OURS = ("foreign-pdf", "nothing-inside")
"""What is said of PDFs that are no records; all else is a fault."""

Inside = tuple[tuple[str, bytes], ...] | str | OSError
"""Name and bytes of each file in a PDF, or a code of archive/recover.py, or what the disc said."""


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
        pool, self._pool = self._pool, None
        if pool is not None:
            for process in list((pool._processes or {}).values()):
                process.kill()
            pool.shutdown(wait=True, cancel_futures=True)


def inside_each(paths: Iterable[Path], hands: int) -> Iterator[Inside]:
    """What is in each PDF, in order, read by up to ``hands`` processes that end with the last."""
    readers = [Reading() for _ in range(hands)]
    idle: LifoQueue[Reading] = LifoQueue()
    for reader in readers:
        idle.put(reader)

    def read(path: Path) -> Inside:
        reader = idle.get()
        try:
            return reader.files_in(path)
        except OSError as problem:
            return problem
        finally:
            idle.put(reader)

    with ThreadPoolExecutor(hands) as threads:
        ahead = deque[Future[Inside]]()
        try:
            for path in paths:
                ahead.append(threads.submit(read, path))
                if len(ahead) > 2 * hands:  # no further ahead: what is inside may be large
                    yield ahead.popleft().result()
            while ahead:
                yield ahead.popleft().result()
        finally:
            for waiting in ahead:
                waiting.cancel()
            for reader in readers:
                reader.end()


def _begin() -> None:
    """Limit the memory of this process, where the system can, and keep the reader quiet."""
    logging.disable()
    Thread(target=_end_with_parent, daemon=True).start()
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def _end_with_parent() -> None:
    """Do not outlive the program where that was killed: nobody would ever ask for more."""
    if parent := parent_process():
        parent.join()
        os._exit(1)


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
