"""Locks: takes an open file or a folder, holds it against other processes of the program."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

try:
    import fcntl
except ImportError:  # Windows has no such lock
    fcntl = None  # type: ignore[assignment]


def lock(descriptor: int) -> bool:
    """Hold the open file against other processes; whether that could be done here."""
    if fcntl is None:
        return False
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX)
    except OSError:  # a file system without locks
        return False
    return True


@contextmanager
def folder_held(folder: Path) -> Iterator[None]:
    """Let others that want to hold the folder wait; where folders cannot be held, go on."""
    try:
        descriptor = os.open(folder, os.O_RDONLY)
    except OSError:  # Windows opens no folders; one that is not there is told when it is written to
        yield
        return
    try:
        lock(descriptor)
        yield
    finally:
        os.close(descriptor)
