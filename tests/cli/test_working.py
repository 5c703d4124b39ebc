"""How figures are worked out, against calculation by hand."""

from __future__ import annotations

import json

import pytest

from sheetgen.cli.figures import GROUPS
from sheetgen.cli.run import plan_file
from sheetgen.plan.equations import EQUATIONS, equation_of
from sheetgen.resources import data_folder

CORD = """\
piece: Cord worked out by hand
form: cord
length: 70 cm
yarns: {red: {fibre: wool, diameter: 0.5 mm, count: 60 tex}}
tablets: {number: 4, holes: 4, threaded: S}
allowance: {near tail: 10 cm, far tail: 10 cm, loom waste: 25 cm}
reserve: 10 %
"""

# By hand, with R(4) = 1 + root 2 and R(16) = 4.615426 (E. Specht's table, 2014), the yarn 0.5 mm:
#   thickness    0.5 x 4.615426                                   = 2.3077 mm
#   a pick       2.8 x 0.5                                        = 1.4 mm
#   picks        700 / 1.4                                        = 500
#   radius       1.414214 x 0.5 / 2                               = 0.353553 mm
#   take-up      root of 1 + (2 x 3.141593 x 0.353553 / 5.6)^2    = 1.07579
#   in the weave 700 x 1.07579                                    = 753.05 mm
#   warp end     100 + 753.05 + 100 + 250                         = 1203.05 mm
BY_HAND = {
    "ends": 16,
    "thickness": 2.3077,
    "pick_spacing": 1.4,
    "picks": 500,
    "take_up": 1.07579,
    "in_weave": 753.05,
    "warp_end": 1203.05,
    "weaving_time": 500 / 6,
}
NUMBERS = {
    "thickness": "0.5 mm × 4.62 for 16 ends",
    "pick_spacing": "2.8 × 0.5 mm",
    "picks": "70 cm / 1.4 mm",
    "take_up": "√(1 + (2 × π × 0.354 mm / (4 × 1.4 mm))²)",
    "warp_end": "10 cm + 75.3 cm + 10 cm + 25 cm",
}


@pytest.fixture
def cord(tmp_path):
    file = tmp_path / "cord.yaml"
    file.write_text(CORD, encoding="utf-8")
    return file


@pytest.mark.parametrize("key", BY_HAND)
def test_figures_are_those_worked_out_by_hand(cord, key):
    figures = plan_file(cord).plan.figures
    assert figures[key].value == pytest.approx(BY_HAND[key], rel=2e-5)


@pytest.mark.parametrize("key", NUMBERS)
def test_the_numbers_are_filled_in(run, cord, key):
    told = " ".join(run("plan", cord, "--working", key).stdout.split())
    assert NUMBERS[key] in told
    assert f"formula {equation_of(plan_file(cord).plan.figures[key]).formula}" in told
    assert "source" in told or key == "pick_spacing"


def test_what_a_figure_rests_on_is_named(run, cord):
    told = " ".join(run("plan", cord, "--working", "picks").stdout.split())
    assert "computed, resting on a rule of thumb" in told
    assert "p is length of one pick, mm: 1.4 mm, rule of thumb (pick_spacing)" in told
    assert "L is length to weave, mm: 70 cm, stated (finished_length)" in told


def test_a_yarns_figure_rests_on_the_same_yarn(run, cord):
    told = " ".join(run("plan", cord, "--working", "mass").stdout.split())
    assert "60 tex, stated (tex:red)" in told


@pytest.mark.parametrize("name", ["warp_end", "warp end", "length of a warp end", "Warp-End"])
def test_a_figure_goes_by_its_key_or_its_name(run, cord, name):
    assert run("plan", cord, "--working", name).stdout.startswith("warp_end: ")


def test_a_misspelt_figure_is_told_with_the_nearest(run, cord):
    result = run("plan", cord, "--working", "thicknes")
    assert result.exit_code == 1
    assert "did you mean “thickness”?" in result.stderr
    content = json.loads(run("plan", cord, "--working", "thicknes", "--json").stdout)
    assert content["diagnostics"][0]["code"] == "no-such-figure"
    assert content["figures"] == []


def test_json_has_formula_and_what_it_rests_on(run, cord):
    content = json.loads(run("plan", cord, "--working", "picks", "--json").stdout)
    (picks,) = content["figures"]
    assert picks["rests_on_rule"] is True
    assert [root["figure"] for root in picks["rests_on"]] == ["finished_length", "pick_spacing"]
    every = json.loads(run("plan", cord, "--json").stdout)["figures"]
    assert {f["key"]: f["rests_on_rule"] for f in every}["ends"] is False


def test_all_figures_at_once_in_any_window(run, cord, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    told = run("plan", cord, "--working", "all").stdout
    assert max(map(len, told.splitlines())) <= 60
    assert told.count("  result") == len(plan_file(cord).plan.figures)


@pytest.mark.parametrize(
    "example", sorted(data_folder("example_projects").glob("*.yaml")), ids=lambda f: f.stem
)
def test_whatever_is_computed_has_an_equation_of_its_own(example):
    plan = plan_file(example).plan
    if plan is None:  # a stash
        return
    for figure in plan.figures.values():
        if figure.origin in ("computed", "rule of thumb"):
            assert equation_of(figure) in EQUATIONS[figure.key.partition(":")[0]], figure.key


def test_every_equation_is_of_a_figure_and_rests_on_figures():
    known = {key for _, keys in GROUPS for key in keys}
    assert set(EQUATIONS) <= known
    for equations in EQUATIONS.values():
        for equation in equations:
            assert {k for _, _, keys in equation.symbols for k in keys.split()} <= known
