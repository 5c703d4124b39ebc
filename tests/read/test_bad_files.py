"""Every file in ``bad`` names, at its top, the mistakes that must be told, and no others."""

from __future__ import annotations

import codecs
import re
from collections import Counter
from pathlib import Path

import pytest

from sheetgen.diagnostics import has_errors
from sheetgen.read import read_description

BAD = sorted((Path(__file__).parent / "bad").glob("*.yaml"))
EXPECT = re.compile(r"^# expect: (\d+):(\d+) ([\w-]+)$", re.MULTILINE)


MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def remarks(data: bytes) -> str:
    """The text as far as its remarks can be read, whatever it is written in."""
    if data.startswith(MARKS) and not data.startswith(codecs.BOM_UTF32_LE):
        return data.decode("utf-16")
    plain = data.removeprefix(codecs.BOM_UTF32_LE).replace(b"\0", b"").decode("latin-1")
    return plain.replace("\r\n", "\n").replace("\r", "\n")


def test_there_are_bad_files() -> None:
    assert len(BAD) >= 200
    assert sum(len(EXPECT.findall(remarks(path.read_bytes()))) for path in BAD) >= 440


@pytest.mark.parametrize("path", BAD, ids=lambda p: p.stem)
def test_mistakes_are_told_where_they_stand(path: Path) -> None:
    data = path.read_bytes()
    wanted = Counter((int(m[1]), int(m[2]), m[3]) for m in EXPECT.finditer(remarks(data)))
    result = read_description(data)
    told = Counter(
        (d.span.line, d.span.column, d.code) if d.span else (0, 0, d.code)
        for d in result.diagnostics
    )
    assert wanted, "no expectation is written"
    assert told == wanted
    assert (result.project is None) == has_errors(result.diagnostics)


@pytest.mark.parametrize("path", BAD, ids=lambda p: p.stem)
def test_every_error_says_what_to_do(path: Path) -> None:
    for found in read_description(path.read_bytes()).diagnostics:
        assert found.hint or found.allowed, found
        assert not found.message.endswith(".")
        assert "\n" not in found.message
