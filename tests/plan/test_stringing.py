"""Strings of beads: the length of the cord, its parts, and what stands for what."""

import pytest

from sheetgen.model.beads import BeadKind, Finial, Gap, Knot, KnotSize, StandsFor, Strung
from sheetgen.plan.planner import make_plan


def test_a_loop_of_26_beads(project, beads):
    # common practice, no source: 24 beads of 10 mm and 2 of 12 mm go on about 28 cm
    order = (Strung("small", 12), Strung("large", 1)) * 2
    plan = make_plan(project(form="loop", beads=beads(order))).plan
    assert plan.figures["beads_length"].value == 264  # geometry
    assert plan.figures["cord_length"].value == pytest.approx(280, rel=0.01)
    assert plan.string.room == pytest.approx(plan.string.cord - 264)  # the rest is finger room


def test_a_loop_stated_at_28_cm(project, beads):
    order = (Strung("small", 12), Strung("large", 1)) * 2
    planned = make_plan(project(form="loop", beads=beads(order), length=280.0))
    assert planned.diagnostics == ()
    assert planned.plan.figures["finger_room"].value == pytest.approx(16)  # geometry: 280 - 264
    assert planned.plan.warp.woven == 280


def test_everything_on_the_cord(project, beads):
    order = (Strung("small", 5), Gap(7.0), Knot(), Strung("small", 5))
    strung = beads(
        order,
        finger_room=20.0,
        join=10.0,
        finial=Finial("bell", length=15.0, takes=12.0, hole=9.0),
        knots=KnotSize(length=3.0, takes=21.0),
    )
    loop = make_plan(project(form="loop", beads=strung)).plan
    # geometry: beads 100, gap 7, a knot's 21, room 20, twice 10 and 12
    assert loop.string.cord == pytest.approx(100 + 7 + 21 + 20 + 2 * (10 + 12))
    assert loop.string.start == pytest.approx(22)  # geometry: half of both ends
    straight = make_plan(project(form="straight", beads=strung)).plan
    assert straight.string.cord == pytest.approx(100 + 7 + 21 + 20 + 2 * 10 + 12)
    assert straight.string.start == pytest.approx(10)  # geometry: the join; the finial is far off


def test_shrinkage_of_the_cord_and_not_of_the_beads(project, beads):
    plan = make_plan(project(form="loop", beads=beads(), length=120.0, shrinkage=0.2)).plan
    assert plan.warp.woven == pytest.approx(150)  # geometry: 120 / 0.8
    assert plan.figures["beads_length"].value == 100


def test_what_stands_for_what(project, beads):
    kinds = (
        BeadKind("glass", 8.0, stands_for=StandsFor("amber", length=9.5, why="none at hand")),
        BeadKind("wood", 6.0, stands_for=StandsFor("bone")),
    )
    plan = make_plan(
        project(form="loop", beads=beads((Strung("glass", 10), Strung("wood", 3)), kinds))
    ).plan
    glass, wood = plan.string.substitutions
    assert glass.change == pytest.approx(-15)  # geometry: ten times 8 - 9.5
    assert (glass.original, glass.why, glass.count) == ("amber", "none at hand", 10)
    assert wood.change is None


def test_fits_tell_the_limits(project, beads):
    fits = {f.name: f for f in make_plan(project(form="loop", beads=beads())).plan.string.fits}
    cord = 0.4 * 4.029602  # published, Specht: R(12)
    strands = fits["small"].strands
    assert fits["small"].smallest == pytest.approx(strands * 0.85 * cord)  # common practice: 0.85
    assert fits["small"].largest_cord == pytest.approx(3.0 / (strands * 0.85))
