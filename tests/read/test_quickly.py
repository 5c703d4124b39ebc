"""One of many is read as it is read by itself."""

from pathlib import Path

import pytest

from sheetgen.read import read_description, read_quickly

HERE = Path(__file__).parents[1]
FILES = [
    *sorted((HERE / "read" / "bad").glob("*.yaml")),
    *sorted((HERE / "cli" / "pieces").glob("*.yaml")),
    *sorted((HERE.parent / "example_projects").glob("*.yaml")),
]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_quick_parser_gives_the_same_description_and_the_same_mistakes(file):
    data = file.read_bytes()
    quick, careful = read_quickly(data), read_description(data)
    assert quick.project == careful.project
    assert quick.diagnostics == careful.diagnostics
