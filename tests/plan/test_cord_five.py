"""Henshall's cord 5 whole: from a description to tube, reversals and the one tablet that differs.

Published: A. S. Henshall, "Five tablet-woven seal-tags", Archaeological Journal 121, 1964, 154-162:
plied silk, tube on eight four-hole tablets (the account counts 36 warp threads, which is nine),
diameter 1.5 mm, about 16 picks per cm, twist reversed every 1.75 to 2.75 inches, all tablets
threaded alike but one.
"""

from pathlib import Path

import pytest

from sheetgen.amounts import plain
from sheetgen.plan.planner import make_plan
from sheetgen.plan.surface import history, surface
from sheetgen.plan.turning import traces
from sheetgen.read import read_description

INCH = 25.4  # exact
REVERSED_EVERY = (1.75 * INCH, 2.75 * INCH)  # published
DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"

CORD = """
piece: cord 5 of the seal-tags
form: cord
length: 30 cm
find: {{name: "Henshall 1964, cord 5", thickness: 1.5 mm}}
yarns: {{silk: {{fibre: silk, diameter: {yarn} mm}}}}
tablets: {{number: {tablets}, threaded: {alike}S Z}}
sample: {{picks: 16 per cm}}
weft: {{enters: left, returns: under}}
turning: [forward {run}, backward {run}]
twist: {{limit: 200 per m}}
"""


def planned(run, tablets=8, yarn=0.23):
    text = CORD.format(run=run, tablets=tablets, alike=tablets - 1, yarn=yarn)
    read = read_description(text.encode())
    assert read.project is not None, read.diagnostics
    done = make_plan(read.project)
    assert not [d for d in done.diagnostics if d.is_error]
    return done.plan


# geometry: 16 picks per cm over 1.75 and 2.75 inches are 71 and 112 picks
RUNS = [round(1.6 * mm) for mm in REVERSED_EVERY]


@pytest.mark.parametrize(("tablets", "yarn"), [(8, 0.233), (8, 0.228), (9, 0.222)])
def test_thickness_spacing_and_take_up(tablets, yarn):
    plan = planned(RUNS[0], tablets, yarn)
    assert plan.figures["ends"].value == 4 * tablets  # published: 32 threads, or 36
    assert plan.thickness == pytest.approx(1.5, rel=0.03)  # published
    assert plan.verdict is not None
    assert plan.verdict.best_tablets == tablets
    spacing = plan.figures["pick_spacing"].value
    assert spacing == pytest.approx(10 / 16)  # published
    assert 2.6 <= spacing / yarn <= 2.9
    assert 1.07 <= plan.figures["take_up"].value <= 1.09


@pytest.mark.parametrize("run", RUNS)
def test_twist_of_the_reversals(run):
    """Geometry: n quarter turns one way gather n / 4 full turns, and lose them again."""
    plan = planned(run)
    (trace,) = set(traces(plan.turning.stretches, len(plan.turning.courses)))
    peaks = {abs(t) / 4 for p, t in zip(trace.picks, trace.twist, strict=True)
             if p < plan.turning.picks}  # fmt: skip
    assert peaks == {0.0, run / 4}
    assert plan.turning.interventions == ()
    for tablet in (plan.pack.tablets[0], plan.pack.tablets[-1]):
        states = list(history(plan.pack, tablet, plan.turning.stretches, ()))
        assert states[run - 1].twist == run / 4
        assert states[2 * run - 1].twist == 0
    lengths = [s.picks * plan.turning.spacing for s in plan.turning.stretches[:-1]]
    low, high = REVERSED_EVERY
    assert all(low - 0.32 <= length <= high + 0.32 for length in lengths)  # half a pick either way


def test_one_tablet_slants_the_other_way_throughout():
    plan = planned(RUNS[0])
    cells = surface(plan.pack, plan.turning.stretches, (), 2 * RUNS[0])
    other = {"S": "Z", "Z": "S"}
    for pick in range(2 * RUNS[0]):
        alike = {column[pick].slant for column in cells[:7]}
        assert len(alike) == 1
        assert cells[7][pick].slant == other[alike.pop()]
    # terms page: S-threaded turned forward gives Z cords; turning back shows the same thread twice
    assert cells[0][0].slant == "Z"
    assert cells[0][RUNS[0] - 1].hole == cells[0][RUNS[0]].hole


def test_the_look_is_told_apart_by_tablet():
    """Seven cords climb with the weft in every other length: the eighth never does with them."""
    plan = planned(RUNS[0])
    (length,) = plan.turning.lengths  # reversals are part of the turning: no intervention parts it
    assert length.look == "cannot tell"
    assert length.hands == ((), (), tuple(range(1, 9)))  # each twists both ways in turn


def test_the_table_of_the_developers_page_is_what_the_engine_gives():
    text = DEVELOPERS.read_text(encoding="utf-8")
    for tablets, yarn in ((8, 0.233), (9, 0.222)):
        plan = planned(RUNS[0], tablets, yarn)
        row = (
            f"| {tablets} tablets, silk of {yarn} mm | {plain(plan.thickness, 2)} mm "
            f"| {plain(plan.turning.spacing / yarn, 2)} d "
            f"| × {plain(plan.figures['take_up'].value, 3)} |"
        )
        assert row in text, row
    assert f"| {RUNS[0]} to {RUNS[1]} picks | {plain(RUNS[0] / 4, 1)} to {RUNS[1] // 4} " in text
