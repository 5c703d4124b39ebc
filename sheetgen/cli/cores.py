"""The same work on many things: takes them in order, gives what comes of each, on every core."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TypeVar

FEW = 4
"""Things below which another process would not be ready before they are done."""
AT_A_TIME = 4
"""Things that a process takes at once."""

Thing = TypeVar("Thing")
Done = TypeVar("Done")


@contextmanager
def spread(
    things: Sequence[Thing],
    work: Callable[[Thing], Done],
    few: int = FEW,
    at_a_time: int = AT_A_TIME,
) -> Iterator[Iterator[Done]]:
    """What comes of each thing, in order, by as many processes as there are cores for.

    ``work`` must be such that another process can get it: a function of a module, or a
    ``functools.partial`` of one. The first thing is done here, so that what all need is imported
    and read once. ``few`` is the least share of a process that is worth its start.
    """
    cores = min(os.cpu_count() or 1, len(things) // few)
    if cores < 2 or not _may_fork():
        yield map(work, things)
        return
    first = work(things[0])
    with multiprocessing.get_context("fork").Pool(cores) as pool:
        yield _in_turn(first, pool.imap(work, things[1:], at_a_time))


def _may_fork() -> bool:
    """Not on every system, and not in a process that is itself one of a pool."""
    known = multiprocessing.get_all_start_methods()
    return "fork" in known and not multiprocessing.current_process().daemon


def _in_turn(first: Done, others: Iterator[Done]) -> Iterator[Done]:
    yield first
    yield from others
