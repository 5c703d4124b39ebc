"""A file is written whole or not at all."""

from __future__ import annotations

import os
import secrets
import stat
from contextlib import suppress
from pathlib import Path

_TRIES = 100


def write_whole(path: Path, data: bytes) -> None:
    """Put ``data`` into ``path``, replacing what was there in one stroke.

    The bytes go into a new file in the same folder and are on the disk before the name changes
    hands, so that at every moment the name leads to the whole old file or the whole new one. A new
    file gets the permissions of any new file, a replaced one keeps its own; a link is followed.

    Raises OSError, for the caller to word; the old file is then untouched and nothing is left
    lying about, also after an interruption.
    """
    target = Path(os.path.realpath(path))
    descriptor, beside = _new_file(target.parent)
    try:
        with open(descriptor, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        with suppress(FileNotFoundError):
            beside.chmod(stat.S_IMODE(target.stat().st_mode))
        os.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            beside.unlink()
        raise
    _settle(target.parent)


def _new_file(folder: Path) -> tuple[int, Path]:
    """An open file of a name that nobody else has; two writers never meet in one."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    for _ in range(_TRIES):
        # Not made from the target's name, which may already be as long as a name can be.
        path = folder / f".sheetgen-{secrets.token_hex(8)}.tmp"
        with suppress(FileExistsError):
            # 0o666 less the umask, as for any new file; tempfile would leave 0o600.
            return os.open(path, flags, 0o666), path
    raise FileExistsError(f"no free name for a new file in {folder}")


def _settle(folder: Path) -> None:
    """Ask that the new name be on the disk too; not every system can, and the file is whole."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
