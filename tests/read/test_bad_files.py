"""Every file in ``bad`` names, at its top, the mistakes that must be told, and no others."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from sheetgen.diagnostics import has_errors
from sheetgen.read import read_description

BAD = sorted((Path(__file__).parent / "bad").glob("*.yaml"))
EXPECT = re.compile(r"^# expect: (\d+):(\d+) ([\w-]+)$", re.MULTILINE)


def test_there_are_bad_files() -> None:
    assert len(BAD) >= 40


@pytest.mark.parametrize("path", BAD, ids=lambda p: p.stem)
def test_mistakes_are_told_where_they_stand(path: Path) -> None:
    data = path.read_bytes()
    wanted = Counter((int(m[1]), int(m[2]), m[3]) for m in EXPECT.finditer(data.decode("utf-8")))
    result = read_description(data)
    told = Counter(
        (d.span.line, d.span.column, d.code) if d.span else (0, 0, d.code)
        for d in result.diagnostics
    )
    assert told == wanted
    assert (result.project is None) == has_errors(result.diagnostics)


@pytest.mark.parametrize("path", BAD, ids=lambda p: p.stem)
def test_every_error_says_what_to_do(path: Path) -> None:
    for found in read_description(path.read_bytes()).diagnostics:
        assert found.hint or found.allowed, found
        assert not found.message.endswith(".")
        assert "\n" not in found.message
