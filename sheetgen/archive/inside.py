"""What lies inside a PDF of ours: takes its bytes, gives the files that it was printed from.

Run as a program it does the same for the PDF on its input, within limits of memory and time: a
PDF comes from anywhere, and a few bytes of it can ask for far more than a machine has.
"""

from __future__ import annotations

import base64
import json
import re
import sys
import zlib
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from hashlib import md5
from io import BytesIO
from itertools import islice
from typing import Any

from pypdf import PdfReader

OURS = "sheetgen"
MOST_FILES = 1000
"""Files in one PDF; a sheet has one or two, one for many pieces a few more."""
MOST_BYTES = 2_000_000
"""Bytes of one file: as large as a description may be."""
_A_PIECE = re.compile(rb"^piece[ \t]*:", re.MULTILINE)
"""What tells a description from a template."""
MOST_MEMORY = 1_000_000_000
"""Bytes that reading may take; a sheet of a hundred pages takes a tenth of it."""
MOST_SECONDS = 20
"""Time of the processor that reading may take; a sheet takes a quarter of a second."""


class Unreadable(Exception):  # noqa: N818  (what is wrong is the PDF)
    """A PDF from which nothing can be had; ``code`` says why."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Inside:
    """A file inside a PDF. The name is as it stands there: not to be trusted."""

    name: str
    data: bytes


def files_inside(pdf: bytes) -> tuple[Inside, ...]:
    """The sources of a sheet of ours, the description first.

    Raises Unreadable, and for a damaged PDF whatever the reader trips over.
    """
    reader = PdfReader(BytesIO(pdf))
    if reader.is_encrypted:
        raise Unreadable("encrypted-pdf")
    root: Any = reader.trailer["/Root"].get_object()
    told = reader.metadata
    if told is None or OURS not in (told.producer, told.creator):
        raise Unreadable("foreign-pdf")
    listed = root.get("/AF")
    found = [] if listed is None else [each.get_object() for each in listed.get_object()]
    if sources := _sources(found):
        return tuple(_file(each) for each in sources)
    # Another program may have dropped the list of relations and kept the files.
    named = [_file(each) for each in _sources(list(islice(_named(root), MOST_FILES)))]
    if not named:
        raise Unreadable("nothing-inside")
    return tuple(sorted(named, key=lambda each: not _A_PIECE.search(each.data)))


def _sources(found: list[Any]) -> list[Any]:
    return [each for each in found[:MOST_FILES] if each.get("/AFRelationship") == "/Source"]


def _named(root: Any) -> Iterator[Any]:
    """The files in the catalog's tree of names (ISO 32000-1, 7.9.6), which may be a circle."""
    names = root.get("/Names")
    tree = names.get_object().get("/EmbeddedFiles") if names is not None else None
    waiting = [] if tree is None else [tree.get_object()]
    for _ in range(MOST_FILES):
        if not waiting:
            return
        node = waiting.pop()
        yield from (each.get_object() for each in node.get("/Names", [])[1::2])
        waiting += [kid.get_object() for kid in reversed(node.get("/Kids", []))]


def _file(specification: Any) -> Inside:
    """The bytes of a file and its name; they must be those of which it has the checksum."""
    stream = specification["/EF"]["/F"].get_object()
    told = stream["/Params"].get_object()
    if int(told["/Size"]) > MOST_BYTES:
        raise Unreadable("too-large-inside")
    data = _unpacked(stream)
    if len(data) > MOST_BYTES:
        raise Unreadable("too-large-inside")
    checksum = told["/CheckSum"].original_bytes
    if len(data) != int(told["/Size"]) or md5(data, usedforsecurity=False).digest() != checksum:
        raise Unreadable("changed-inside")
    return Inside(str(specification.get("/UF") or specification["/F"]), data)


def _unpacked(stream: Any) -> bytes:
    """The bytes of a file, one more than there may be at most: a few can swell to millions."""
    filters = stream.get("/Filter")
    if filters not in ("/FlateDecode", ["/FlateDecode"]) or "/DecodeParms" in stream:
        data: bytes = stream.get_data()
        return data
    try:
        return zlib.decompressobj().decompress(stream._data, MOST_BYTES + 1)
    except zlib.error as problem:
        raise Unreadable("changed-inside") from problem


def _limit() -> None:
    """Ask the system to end this process where it goes too far; not every system can."""
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))


def main() -> None:
    """Write the files inside the PDF on the input as one line of JSON, or why there are none."""
    _limit()
    answer: dict[str, Any]
    try:
        files = files_inside(sys.stdin.buffer.read())
        listed = [[each.name, base64.b64encode(each.data).decode("ascii")] for each in files]
        answer = {"files": listed}
    except Unreadable as problem:
        answer = {"code": problem.code}
    except MemoryError:
        answer = {"code": "too-much-inside"}
    except Exception:  # a broken PDF can break the reader in any way
        answer = {"code": "damaged-pdf"}
    sys.stdout.write(json.dumps(answer))


if __name__ == "__main__":
    main()
