"""The gist of a plan has the figures of the whole plan."""

from pathlib import Path

import pytest

from sheetgen.plan.gist import gist_of
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description

HERE = Path(__file__).parents[1]
PIECES = [
    file
    for folder in (HERE / "cli" / "pieces", HERE.parent / "example_projects")
    for file in sorted(folder.glob("*.yaml"))
    if b"\npiece:" in b"\n" + file.read_bytes() and file.stem != "faulty"
]


@pytest.mark.parametrize("file", PIECES, ids=lambda file: file.stem)
def test_every_figure_of_the_gist_is_that_of_the_plan(file):
    project = read_description(file.read_bytes()).project
    plan, gist = make_plan(project).plan, gist_of(project)
    assert set(gist.figures) < set(plan.figures)
    assert all(gist.figures[key] == plan.figures[key] for key in gist.figures)
    assert gist.pack == plan.pack
    assert gist.yarns == tuple(use.figures for use in plan.yarns)
