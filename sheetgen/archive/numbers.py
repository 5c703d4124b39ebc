"""The numbers on a shelf: takes its folder, gives those that its descriptions and names bear.

Descriptions are not read for it, as there may be ten thousand, but glanced at. What is taken for a
number and is none only leaves a gap in the row.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path

from sheetgen.archive.folder import files_below

_WIDEST_NAME = 100
_MOST_BYTES = 500_000
"""Bytes that are glanced at; a description has no more."""
_VALUE = rb"""(?:"([^"\r\n]*)"|'([^'\r\n]*)'|([^\s"'#](?:(?![ \t]#)[^\r\n])*))"""
_LINE = re.compile(
    rb"""(?:^|\r)(?:\xef\xbb\xbf)?(["']?)number\1[ \t]*:[ \t]+""" + _VALUE, re.MULTILINE
)
_IN_BRACES = re.compile(
    rb"""[{,]\s*(["']?)number\1[ \t]*:[ \t]+"""
    rb"""(?:"([^"\r\n]*)"|'([^'\r\n]*)'|([^\s"'#,}][^,}\r\n]*))"""
)


def folder_name(number: str) -> str:
    """A name for the folder of a number: what no file system minds.

    >>> folder_name("1932.4/2 b")
    '1932.4-2-b'
    """
    name = re.sub(r"[^\w.-]+", "-", number).strip("-.")
    return name[:_WIDEST_NAME] or "-"


def same(number: str, other: str) -> bool:
    """True for numbers that one shelf does not tell apart: SW-7 and sw-7."""
    return _folded(number) == _folded(other)


def _folded(number: str) -> str:
    return unicodedata.normalize("NFC", number.strip()).casefold()


def number_in(data: bytes) -> str | None:
    r"""The number that a description has, by a glance at its text.

    >>> number_in(b'piece: x\nnumber: "SW-014"  # from the old book\n')
    'SW-014'
    >>> number_in(b"{piece: x, number: SW-014}"), number_in(b"notes: |\n  number: 3")
    ('SW-014', None)
    """
    pattern = _IN_BRACES if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{") else _LINE
    match = pattern.search(data)
    if match is None:
        return None
    value = next(part for part in match.groups()[1:] if part is not None)
    return value.decode("utf-8", errors="replace").strip()


def described(folder: Path) -> Iterator[tuple[str, Path]]:
    """Number and file of each description below the folder that has one."""
    for path in files_below(folder, (".yaml", ".yml")):
        try:
            with path.open("rb") as file:
                number = number_in(file.read(_MOST_BYTES))
        except OSError:
            continue
        if number:
            yield number, path


def names_below(folder: Path) -> Iterator[str]:
    """What is called so in the folder, and descriptions and PDFs below it without their endings.

    Nothing else: a photograph 0457.jpg is not piece 457.
    """
    yield from (path.name for path in folder.iterdir())
    yield from (path.stem for path in files_below(folder, (".yaml", ".yml", ".pdf")))


def greatest(prefix: str, names: Iterable[str]) -> int:
    """The greatest number with a prefix among names; 0 for none.

    >>> greatest("SW", ["SW-014", "sw-7", "LH-99", "SW-12b"])
    14
    """
    before = f"{re.escape(prefix)}-" if prefix else ""
    pattern = re.compile(before + r"(\d{1,9})", re.IGNORECASE | re.ASCII)
    found = (pattern.fullmatch(name) for name in names)
    return max((int(match[1]) for match in found if match), default=0)
