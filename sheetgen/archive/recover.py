"""Getting a description back: takes a PDF, gives the files inside under names that are safe.

The PDF is read by a process of its own (archive/inside.py), which ends when it takes too much.
"""

from __future__ import annotations

import base64
import json
import re
import stat
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

MOST_PDF = 200_000_000
"""Bytes of a PDF that is opened at all; a record with many photographs has a tenth of it."""
DEADLINE = 30.0
"""Seconds to wait for the reading; it ends by itself after twenty of work."""
_READING = (sys.executable, "-P", "-m", "sheetgen.archive.inside")
"""-P: nothing that lies in the current folder is run."""
_ENDINGS = (".yaml", ".yml", ".txt")
_DEVICE = re.compile(r"(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(\..*)?", re.I)
_LONGEST = 200
"""Bytes of a name; most systems allow 255 (POSIX NAME_MAX)."""
_FAULTS = {
    "damaged-pdf": ("this PDF is damaged, or no PDF at all", "try another copy of the sheet"),
    "encrypted-pdf": ("this PDF is encrypted", "our sheets never are: look for the first copy"),
    "foreign-pdf": ("this PDF was not printed by sheetgen", "nothing of ours can be in it"),
    "nothing-inside": (
        "there is no description inside this PDF",
        "it is a register, which lists many, or another program left the description out",
    ),
    "too-much-inside": (
        "reading this PDF takes more memory or time than any sheet of ours",
        "it is damaged, or made to do harm",
    ),
    "too-large-inside": (
        "a file inside this PDF is far larger, once unpacked, than a description can be",
        "it is damaged, or made to do harm: no sheet of ours holds more than 2 MB in a file",
    ),
    "changed-inside": (
        "the description inside is not what was put there: its checksum differs",
        "try another copy of the sheet",
    ),
}


@dataclass(frozen=True, slots=True)
class Recovered:
    """A file out of a PDF: its bytes and a name that is safe, and the one that it had."""

    name: str
    data: bytes
    had: str


@dataclass(frozen=True, slots=True)
class Unrecovered:
    """Why nothing was got out of a PDF, and what can be done."""

    code: str
    message: str
    hint: str


def recover(file: Path) -> tuple[Recovered, ...] | Unrecovered:
    """The files that a sheet was printed from, the description first; or why there are none.

    Takes bounded time and memory for any file. Raises OSError for one that cannot be opened.
    """
    if stat.S_ISFIFO(file.stat().st_mode) or file.is_char_device():
        return fault_of("damaged-pdf")  # it might never end, or never begin
    with file.open("rb") as stream:
        if b"%PDF-" not in stream.read(1024):
            return fault_of("damaged-pdf")
        if stream.seek(0, 2) > MOST_PDF:
            return fault_of("too-much-inside")
        stream.seek(0)
        try:
            done = subprocess.run(
                _READING, stdin=stream, capture_output=True, timeout=DEADLINE, check=False
            )
        except subprocess.TimeoutExpired:
            return fault_of("too-much-inside")
    try:
        answer = json.loads(done.stdout)
    except ValueError:  # it was ended by the system
        return fault_of("too-much-inside")
    if "code" in answer:
        return fault_of(answer["code"])
    return _named([(had, base64.b64decode(data)) for had, data in answer["files"]])


def fault_of(code: str) -> Unrecovered:
    """What is wrong with a PDF, by its code, in words."""
    return Unrecovered(code, *_FAULTS[code])


def _named(files: list[tuple[str, bytes]]) -> tuple[Recovered, ...]:
    """The files under safe names, each name once on every system."""
    taken, found = set[str](), []
    for had, data in files:
        name = safe = safe_name(had)
        number = 1
        while name.casefold() in taken:
            number += 1
            name = f"{number}-{safe}"
        taken.add(name.casefold())
        found.append(Recovered(name, data, had))
    return tuple(found)


def safe_name(name: str) -> str:
    r"""The name for a file that a PDF calls ``name``: never a path, nothing hidden, no device.

    >>> safe_name("../../etc/cord.yaml")
    'cord.yaml'
    >>> safe_name("C:\\x\\NUL.yaml"), safe_name(".bashrc"), safe_name("")
    ('recovered.yaml', 'recovered.yaml', 'recovered.yaml')
    >>> safe_name("run.sh")
    'run.sh.yaml'
    """
    last = re.split(r"[/\\]", name)[-1]
    plain = "".join(c for c in last if c.isprintable() and c not in '<>:"|?*').strip()
    plain = plain.rstrip(". ")
    if not plain or plain[0] in ".-~" or _DEVICE.fullmatch(plain):
        return "recovered.yaml"
    plain = plain if plain.lower().endswith(_ENDINGS) else f"{plain}.yaml"
    stem, ending = plain[: plain.rindex(".")], plain[plain.rindex(".") :]
    while len((stem + ending).encode("utf-8")) > _LONGEST:
        stem = stem[:-1]
    return stem.rstrip(". ") + ending
