"""The plan as a table and as JSON."""

from __future__ import annotations

import json
import re

import pytest

from sheetgen.cli import figures
from sheetgen.cli.run import plan_file
from sheetgen.cli.terminal import Paint, cells
from sheetgen.plan.figure import Figure


def plan_of(file):
    plan = plan_file(file).plan
    assert plan is not None
    return plan


def figure(**changes) -> Figure:
    given = {
        "key": "x", "name": "x", "value": 12.0, "unit": "mm", "origin": "computed",
        "working": "w", "low": 12.0, "high": 12.0,
    }  # fmt: skip
    return Figure(**(given | changes))


@pytest.mark.parametrize("name", ["cord", "loop", "band"])
def test_every_figure_stands_under_a_heading_of_its_own(piece, name):
    plan = plan_of(piece(name))
    groups = dict(figures.grouped(plan.figures.values()))
    assert figures.OTHERS not in groups
    assert sum(map(len, groups.values())) == len(plan.figures)


@pytest.mark.parametrize("width", [40, 60, 80, 100, 160])
@pytest.mark.parametrize("name", ["cord", "loop", "band"])
def test_the_table_fits_the_window(piece, name, width):
    text = figures.table(plan_of(piece(name)), Paint(), width, sources=True)
    assert max(cells(line) for line in text.splitlines()) <= width


@pytest.mark.parametrize("width", [40, 80, 160])
def test_nothing_is_lost_in_any_window(piece, width):
    plan = plan_of(piece("loop"))
    text = " ".join(figures.table(plan, Paint(), width).split())
    for f in plan.figures.values():
        assert f.name in text
        assert f.origin in text
        assert " ".join(f.working.split()) in text or width == 40


@pytest.mark.parametrize(
    ("changes", "shown"),
    [
        ({}, "12 mm"),
        ({"unit": "picks"}, "12 picks"),
        ({"unit": "picks", "value": 1.0}, "1 pick"),
        ({"unit": "turns per mm", "value": 0.04}, "40 turns/m"),
        ({"unit": "share", "value": 0.1}, "10 %"),
        ({"unit": "picks per min", "value": 6.0}, "6 picks per min"),
    ],
)
def test_values_with_their_units(changes, shown):
    assert figures.value_of(figure(**changes), "mm") == shown


def test_a_range_says_its_unit_once(piece):
    text = figures.table(plan_of(piece("cord")), Paint(), 160)
    assert re.search(r"weave +\S.*computed", text)
    assert re.search(r"pace +6 picks per min +3 to 10 picks per min +rule of thumb", text)


def test_sources_are_named_when_asked_for(piece, run):
    file = piece("cord")
    assert "from E. Specht" not in run("plan", file).stdout
    assert "from E. Specht" in run("plan", file, "--sources").stdout


def test_the_table_ends_with_what_to_measure_next(piece, run):
    last = run("plan", piece("cord")).stdout.rstrip().splitlines()[-1]
    assert last.startswith("Measure next: ")


def test_json_has_every_figure_with_its_source(piece, run):
    file = piece("loop")
    result = run("plan", "--json", file)
    assert (result.exit_code, result.stderr) == (0, "")
    content = json.loads(result.stdout)
    plan = plan_of(file)
    assert content["version"] == plan.project.digest
    assert [f["key"] for f in content["figures"]] == list(plan.figures)
    thickness = next(f for f in content["figures"] if f["key"] == "thickness")
    assert thickness["value"] == plan.thickness
    assert thickness["unit"] == "mm"
    assert "Specht" in thickness["source"]
    assert content["diagnostics"] == []
    assert content["measure_next"]


@pytest.mark.parametrize(
    ("threaded", "weft", "look"),
    [
        ("Z", "right", "a spiral climbing like S, from end to end"),
        ("S", "right", "straight from end to end; it spirals with the weft in at the left"),
        ("S", "left", "a spiral climbing like Z, from end to end"),
    ],
)
def test_how_a_tube_will_look_is_told(piece, run, threaded, weft, look):
    """Henshall 1964, seal-tags: it spirals where cords and weft climb with the same hand.

    Z-threaded, forward, weft in at the right and back under it was seen to spiral (a hobby report
    of 2024).
    """
    lines = f"twist: let out\nweft: {{enters: {weft}}}\n"
    file = piece("cord", lines)
    text = file.read_text("utf-8").replace(
        "tablets: 4", f"tablets: {{number: 4, threaded: {threaded}}}"
    )
    file.write_text(text, "utf-8")
    assert f"Expected look: {look}\n" in run("plan", file).stdout


def test_a_band_is_told_no_look(piece, run):
    assert "Expected look" not in run("plan", piece("band")).stdout
