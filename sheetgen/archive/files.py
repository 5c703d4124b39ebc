"""Writing: takes bytes and a name, gives a file that is whole, or none."""

from __future__ import annotations

import errno
import os
import re
import secrets
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path

_TRIES = 100
_FRESH = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
"""With 0o666 less the umask, as for any new file; tempfile would leave 0o600."""
_LEFT = re.compile(r"\.sheetgen-[0-9a-f]{16}\.tmp")
_OLD = 3600.0
"""Seconds after which an unfinished file is nobody's."""
LEFT_BY_A_CRASH = ".sheetgen-"
"""How the name of a file begins that is not yet whole."""


def write_whole(path: Path, data: bytes) -> None:
    """Put ``data`` into ``path``, replacing what was there in one stroke.

    The bytes go into a new file in the same folder and are on the disk before the name changes
    hands, so that at every moment the name leads to the whole old file or the whole new one. A new
    file gets the permissions of any new file, a replaced one keeps its own; a link is followed.

    Raises OSError, for the caller to word; the old file is then untouched and nothing is left
    lying about, also after an interruption.
    """
    target = Path(os.path.realpath(path))
    if target.exists() and not target.is_file():  # else a device would become a file
        raise OSError(errno.EINVAL, "not an ordinary file", str(path))
    with _written_beside(target.parent, data) as beside:
        with suppress(FileNotFoundError):
            beside.chmod(stat.S_IMODE(target.stat().st_mode))
        os.replace(beside, target)
    settle(target.parent)


def write_new(path: Path, data: bytes) -> None:
    """Put ``data`` into a new file ``path``; FileExistsError if anything has that name already.

    Of two writers one gets the name, and the file is whole from the moment it has it. Where a disc
    knows no second name for a file, the name is taken first, and a crash then leaves it empty.
    Raises OSError as :func:`write_whole` does; nothing is followed and nothing replaced.
    """
    with _written_beside(path.parent, data) as beside:
        _name(beside, path)
    settle(path.parent)


def _name(beside: Path, path: Path) -> None:
    """Give a finished file the name ``path``, if that is free."""
    try:
        os.link(beside, path, follow_symlinks=False)
    except FileExistsError:
        raise
    except (OSError, NotImplementedError):  # no second names there, as on a card of a camera
        os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666))
        os.replace(beside, path)


@contextmanager
def _written_beside(folder: Path, data: bytes) -> Iterator[Path]:
    """A finished file in ``folder`` under a name of no meaning, its bytes on the disc.

    Afterwards it is gone, unless it was given another name. The name is chosen before there is a
    file, so that an interruption leaves none, even between its making and the next line.
    """
    _sweep(folder)
    path = _free_name(folder)
    try:
        with open(os.open(path, _FRESH, 0o666), "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        yield path
    finally:
        _remove(path)


def _remove(path: Path) -> None:
    with suppress(OSError):
        path.unlink()


@cache
def _sweep(folder: Path) -> None:
    """Clear away what a writer that was killed an hour ago or more left; once in a folder."""
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in entries:
            if not _LEFT.fullmatch(entry.name) or not entry.is_file(follow_symlinks=False):
                continue
            if time.time() - entry.stat(follow_symlinks=False).st_mtime > _OLD:
                os.unlink(entry.path)


def _free_name(folder: Path) -> Path:
    """A name that nobody else has, 64 bits of it drawn by lot; two writers never meet in one."""
    for _ in range(_TRIES):
        # Not made from the target's name, which may already be as long as a name can be.
        path = folder / f"{LEFT_BY_A_CRASH}{secrets.token_hex(8)}.tmp"
        if not os.path.lexists(path):
            return path
    raise FileExistsError(f"no free name for a new file in {folder}")


def settle(folder: Path) -> None:
    """Ask that the new name be on the disk too; not every system can, and the file is whole."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
