"""A size read off a picture with a scale: proportion, and the widest that two pixels allow."""

from __future__ import annotations

import itertools

import pytest

from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description

PIECE = """piece: p
form: cord
length: 1 m
find: {name: f, thickness: {%s}}
yarns: {a: {fibre: wool, count: 20/2 Nm}}
"""


def test_the_value_and_the_range_are_those_of_the_proportion():
    read = read_description((PIECE % "pixels: 84, known: 100 mm, known pixels: 3250").encode())
    assert read.diagnostics == ()
    project = read.project
    assert project is not None
    assert project.find is not None
    reading = project.find.thickness
    # geometry: like sides of like figures; every corner of two pixels either way
    corners = [(84 + a) * 100 / (3250 + b) for a, b in itertools.product((-2, 2), repeat=2)]
    assert reading.value == pytest.approx(84 * 100 / 3250)
    assert (reading.low, reading.high) == pytest.approx((min(corners), max(corners)))
    assert not reading.sure
    figure = make_plan(project).plan.figures["find_thickness"]
    assert "84 of 3250 pixels" in figure.working
    assert (figure.low, figure.high) == (reading.low, reading.high)


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ("pixels: 84, known: 100 mm", "missing-key"),
        ("pixels: 84, known: 100, known pixels: 3250", "no-unit"),
        ("pixels: many, known: 100 mm, known pixels: 3250", "not-a-number"),
        ("pixels: 8400, known: 100 mm, known pixels: 2", "out-of-range"),
        ("pixel: 84, known: 100 mm, known pixels: 3250", "unknown-key"),
        ("pixels: 84, known: unknown, known pixels: 3250", "unknown-not-here"),
    ],
)
def test_what_is_wrong_is_told(keys: str, code: str):
    read = read_description((PIECE % keys).encode())
    assert read.project is None
    assert code in [d.code for d in read.diagnostics]
