"""Files that are being worked on: takes their names, gives a word whenever one has been saved.

The files are looked at by their state on the disc, a few times a second. Editors that write a new
file and give it the old one's name, and those that write into the old one, look the same so.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from time import sleep
from typing import Literal

BEAT = 0.25
"""Seconds between two looks: soon enough for a hand, and next to nothing for the machine."""
SETTLED = 0.1
"""Seconds in which a file must not change any more before it counts as saved."""
EMPTY_WAIT = 8
"""So many looks an empty file is waited for: an editor empties it before it writes."""

State = tuple[int, int, int] | None
"""What tells one saving from another: time in ns, bytes, number on the disc; None: not there."""

News = Literal["saved", "gone"]


def state(file: Path) -> State:
    """How the file stands on the disc."""
    try:
        found = os.stat(file)
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def settled(file: Path, wait: Callable[[float], None] = sleep) -> State:
    """The state once it has stopped changing; an empty file is given a while to be filled."""
    before, empty = state(file), 0
    while True:
        wait(SETTLED)
        now = state(file)
        if now == before and (now is None or now[1] or empty >= EMPTY_WAIT):
            return now
        empty += bool(now and not now[1])
        before = now


def news(files: Sequence[Path], wait: Callable[[float], None] = sleep) -> Iterator[News]:
    """``saved`` after every saving of any of the files, ``gone`` once when the first is missing.

    A file that is seen for the first time counts as saved. ``files`` is gone through at every look
    and may be changed in between: which files matter depends on what is written in them.
    """
    known: dict[Path, State] = {}
    while True:
        wait(BEAT)
        wanted = list(files)
        changed = [file for file in wanted if file not in known or state(file) != known[file]]
        if not changed:
            continue
        for file in changed:
            known[file] = settled(file, wait)
        if known[wanted[0]] is None:
            if wanted[0] in changed:
                yield "gone"
        else:
            yield "saved"


def contents(files: Iterable[Path]) -> dict[Path, bytes | None]:
    """What stands in each file; None where it cannot be read."""
    found: dict[Path, bytes | None] = {}
    for file in files:
        try:
            found[file] = file.read_bytes()
        except (OSError, ValueError):
            found[file] = None
    return found
