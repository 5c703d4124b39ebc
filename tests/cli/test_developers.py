"""DEVELOPERS.md: the table that leads from a figure to its formula and test is that of the code."""

from __future__ import annotations

import importlib
import inspect
import re
from pathlib import Path

import pytest

from sheetgen.cli.figures import GROUPS
from sheetgen.cli.run import plan_file
from sheetgen.resources import data_folder

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ROWS = {
    cells[0].strip("` "): cells[1:]
    for line in TEXT.split("<!-- figures -->")[1].split("<!-- end of figures -->")[0].splitlines()
    if (cells := [cell.strip() for cell in line.strip().strip("|").split("|")])[0].startswith("`")
}
FUNCTION = re.compile(r"`([\w/]+)\.py` `(\w+)`")


def functions(cell: str) -> list[object]:
    """What the cell names, by module and name."""
    found = []
    for module, name in FUNCTION.findall(cell):
        found.append(getattr(importlib.import_module(f"sheetgen.{module.replace('/', '.')}"), name))
    return found


def test_every_figure_has_a_row_and_a_heading():
    assert sorted(ROWS) == sorted(key for _, keys in GROUPS for key in keys)


EXAMPLES = sorted(
    file for file in data_folder("example_projects").glob("*.yaml") if "stash" not in file.stem
)


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_figure_of_the_examples_has_a_row(example):
    plan = plan_file(example).plan
    assert plan is not None
    assert {key.partition(":")[0] for key in plan.figures} <= set(ROWS)


@pytest.mark.parametrize("key", sorted(ROWS))
def test_a_row_names_what_there_is(key):
    entered, formula, test = ROWS[key]
    where = functions(entered)
    assert where
    assert all(re.search(rf'"{key}[":]', inspect.getsource(f)) for f in where)
    assert all(callable(f) for f in functions(formula))
    assert (ROOT / test.strip("`")).is_file()
