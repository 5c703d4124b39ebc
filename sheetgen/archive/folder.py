"""A folder of records: takes its path, gives the files below it in order, within limits."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

DEEPEST = 16
"""Folders within folders that are looked into."""
MOST_FILES = 100_000
"""Files that are listed; the rest is passed over, and the caller says so."""


def lies_in(path: Path, folder: Path) -> bool:
    """Whether a path, links followed, lies in a folder or is it; links that go round end there."""
    return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))


def files_below(folder: Path, endings: tuple[str, ...]) -> Iterator[Path]:
    """Every file below ``folder`` that has one of the ``endings``, folder by folder, by name.

    Hidden files and folders are passed over, and so is every link that leads out of the folder;
    links to folders are never followed, so that none is seen twice. At most :data:`MOST_FILES`
    and one, which tells the caller that there are more. A folder that cannot be opened gives
    nothing. OSError if ``folder`` itself cannot be.
    """
    left = MOST_FILES + 1
    os.scandir(folder).close()
    for path in _below(folder, endings, DEEPEST):
        if path.is_symlink() and not lies_in(path, folder):
            continue
        yield path
        left -= 1
        if not left:
            return


def _below(folder: Path, endings: tuple[str, ...], depth: int) -> Iterator[Path]:
    try:
        with os.scandir(folder) as scan:
            entries = sorted(scan, key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith("."):
            continue
        if entry.is_dir(follow_symlinks=False):
            if depth:
                yield from _below(folder / entry.name, endings, depth - 1)
        elif entry.name.lower().endswith(endings) and _is_file(entry):
            yield folder / entry.name


def _is_file(entry: os.DirEntry[str]) -> bool:
    """Whether it is an ordinary file or leads to one; links that go round lead nowhere."""
    try:
        return entry.is_file()
    except OSError:
        return False
