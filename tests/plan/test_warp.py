"""Warp ends and winding against published sums and common practice."""

import pytest

from sheetgen.model.ends import Tassels
from sheetgen.model.pack import HoleColour, Tablets
from sheetgen.model.project import Allowance
from sheetgen.plan.constants import LOOM_WASTE, PLAIN_TAIL
from sheetgen.plan.pack import build_pack
from sheetgen.plan.planner import make_plan
from sheetgen.plan.warp import (
    BETWEEN_POSTS,
    CUT_ENDS,
    WarpEnd,
    lay_out_end,
    same_threads,
    tails_wanted,
    wind,
)

INCH = 25.4


def test_four_pieces_on_one_warp():
    # published: Handwoven, March/April 2011, pp. 52-53: 180 in = 4 x 34 + 31 waste + 13 take-up
    end = WarpEnd(0, 34 * INCH, (4 * 34 + 13) / (4 * 34), 0, 31 * INCH, 4, "stated", "stated")
    assert end.length / INCH == pytest.approx(180)


def test_take_up_is_a_share_and_waste_is_not():
    # published: beginners' weaving course, 1999: 82 in = 40 + 15 % + 36 waste
    end = WarpEnd(0, 40 * INCH, 1.15, 0, 36 * INCH, 1, "stated", "stated")
    assert end.length / INCH == pytest.approx(82)


def test_yarn_of_a_warp(project, yarn):
    # published: beginners' weaving course, 1999: 390 ends x 3.5 yd = 1365 yd
    yards = 3.5 * 36 * INCH
    piece = project(
        form="band",
        tablets=Tablets(number=65, holes=6),
        length=1000.0,
        allowance=Allowance(whole=yards),
        yarns=(yarn(), yarn("edging")),
    )
    plan = make_plan(piece).plan
    allowed = plan.warp.length - plan.warp.in_weave
    assert allowed == pytest.approx(yards)
    warp = dict(plan.use("madder").by_use)["warp"]
    assert plan.pack.ends == 390
    yarn_allowed = warp - 390 * plan.warp.in_weave
    assert yarn_allowed / (36 * INCH) == pytest.approx(1365)


def test_a_wool_cord_of_28_cm(project):
    """Common practice, no source: a warp is the finished length and about 50 cm."""
    plan = make_plan(project()).plan
    assert plan.pack.ends == 12  # common practice: three four-hole tablets
    parts = {k: plan.figures[k].value for k in ("near_tail", "far_tail", "loom_waste", "in_weave")}
    assert parts["near_tail"] == parts["far_tail"] == 100  # to tie on by and to finish with
    assert parts["loom_waste"] == 250  # what tablets and shed keep from being woven
    assert 280 < parts["in_weave"] < 1.15 * 280  # the cord itself and its take-up
    assert plan.warp.length == pytest.approx(sum(parts.values()))
    assert plan.warp.length == pytest.approx(280 + 500, rel=0.10)


def test_shrinkage_is_divided(project):
    # published: with 20 % shrinkage, to end with 10 in weave 12.5 in
    plan = make_plan(project(length=10 * INCH, shrinkage=0.20)).plan
    assert plan.figures["woven_length"].value / INCH == pytest.approx(12.5)
    assert plan.warp.woven / INCH == pytest.approx(12.5)
    assert plan.figures["finished_length"].value / INCH == pytest.approx(10)


def test_tails_follow_the_finish(project):
    plain = PLAIN_TAIL.value
    assert tails_wanted(project()) == (plain, plain)
    near, far = tails_wanted(project(tassels=Tassels(number=1, skirt=120.0)))
    assert near == plain
    assert far > 120  # the skirt, and the neck above it
    assert tails_wanted(project(tassels=Tassels(number=2, skirt=120.0))) == (far, far)
    assert tails_wanted(project(form="loop", tassels=Tassels(number=1, skirt=120.0))) == (far, far)
    assert tails_wanted(project(tassels=Tassels(number=0))) == (plain, plain)
    assert tails_wanted(project(tassels=Tassels(number=2, skirt=5.0))) == (plain, plain)


def test_stated_parts_outrank(project):
    end = lay_out_end(
        project(allowance=Allowance(near_tail=70.0, far_tail=80.0, loom_waste=300.0)), 200, 1.1
    )
    assert end.length == pytest.approx(70 + 220 + 80 + 300)  # geometry
    whole = lay_out_end(project(allowance=Allowance(whole=600.0)), 200, 1.1)
    assert whole.length == pytest.approx(820)  # geometry: 200 x 1.1 + 600
    one = make_plan(project(allowance=Allowance(near_tail=70.0))).plan.figures
    assert (one["near_tail"].origin, one["far_tail"].origin) == ("stated", "rule of thumb")


def test_pieces_share_the_loom_waste(project):
    alone, three = (make_plan(project(pieces=n, one_warp=n > 1)).plan.warp for n in (1, 3))
    # geometry: two more of everything but the waste
    assert three.length - alone.length == pytest.approx(2 * (alone.length - LOOM_WASTE.value))


@pytest.mark.parametrize("letters", ["S", "Z", "SZ", "SSZZ", "SZZ"])
def test_a_warp_between_posts_walked(letters):
    """Geometry: at every second pass the winder walks back and the tablet hangs the other way."""
    pack = build_pack(Tablets(threaded=tuple(letters)), 9, "m")
    facing, turned = pack.tablets[0].threaded, []
    for tablet in pack.tablets:
        if tablet.threaded != facing:
            turned.append(tablet.number)
        facing = "Z" if facing == "S" else "S"
    winding = wind(BETWEEN_POSTS, 800.0, pack)
    assert (winding.turned, winding.passes, winding.distance) == (tuple(turned), 9, 800.0)
    assert wind(CUT_ENDS, 800.0, pack).turned == ()


def test_threads_alike():
    assert same_threads(build_pack(Tablets(), 3, "m"))
    colours = (HoleColour("A", "red"),)
    assert same_threads(build_pack(Tablets(colours=colours), 3, "m"))
