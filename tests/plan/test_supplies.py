"""Yarn of whole pieces, tassels and aglets, by arithmetic."""

import math

import pytest

from sheetgen.model.ends import Aglets, Tassels
from sheetgen.model.pack import HoleColour, Tablets
from sheetgen.model.turning import Weft
from sheetgen.model.values import Count, PutUp
from sheetgen.plan.planner import make_plan


def test_yarn_by_colour_and_use(project, yarn):
    count = Count("100 tex", 100.0, "tex")
    yarns = (yarn(count=count), yarn("weld", count=count), yarn("silk", 0.2, fibre="silk"))
    tablets = Tablets(number=5, colours=(HoleColour("A", "weld"),))
    plan = make_plan(project(yarns=yarns, tablets=tablets, weft=Weft("silk"), reserve=0.2)).plan
    end = plan.warp.length
    # geometry: one hole in four is weld's
    assert dict(plan.use("madder").by_use) == {"warp": pytest.approx(15 * end)}
    assert dict(plan.use("weld").by_use) == {"warp": pytest.approx(5 * end)}
    assert list(dict(plan.use("silk").by_use)) == ["weft"]
    assert plan.figures["mass:weld"].value == pytest.approx(1.2 * 5 * end / 1e6 * 100)


def test_pieces_one_by_one_and_on_one_warp(project):
    one, apart, together = (
        make_plan(project(pieces=n, one_warp=w)).plan
        for n, w in ((1, False), (3, False), (3, True))
    )
    warp = [dict(p.use("madder").by_use)["warp"] for p in (one, apart, together)]
    assert warp[1] == pytest.approx(3 * warp[0])
    # geometry: 12 ends save the loom waste (250 mm, common practice) of two warps
    assert warp[2] == pytest.approx(3 * warp[0] - 12 * 2 * 250)
    weft = [dict(p.use("madder").by_use)["weft"] for p in (one, apart, together)]
    assert weft[1] == weft[2] == pytest.approx(3 * weft[0])


def test_balls_to_have(project, yarn):
    sold = yarn(put_up=PutUp(10.0, 5_000.0))
    plan = make_plan(project(yarns=(sold,))).plan
    use = plan.use("madder")
    balls = plan.figures["put_ups:madder"].value
    assert (balls - 1) * 5_000 < use.wanted <= balls * 5_000


@pytest.mark.parametrize(
    ("form", "number", "tails"),
    # geometry: both ends of a loop of 12 hang together; two tassels share them
    [("loop", 1, 24), ("loop", 2, 12), ("cord", 1, 12), ("cord", 2, 12)],
)
def test_tails_of_a_tassel(project, beads, form, number, tails):
    strung = beads() if form == "loop" else None
    piece = project(form=form, beads=strung, tassels=Tassels(number))
    assert make_plan(piece).plan.tassel.tails == tails


def test_yarn_of_tassels(project, yarn):
    yarns = (yarn(), yarn("weld", 0.5))
    tassels = Tassels(2, skirt=60.0, thickness=6.0, neck_wraps=12, yarn="weld")
    plan = make_plan(project(yarns=yarns, tassels=tassels)).plan
    # geometry by area: 12 tails of 0.4 mm fill 1.92 mm2 (d squared), 0.6 x 36 are wanted
    strands = math.ceil((0.6 * 36 - 12 * 0.16) / 0.25 / 2)
    assert plan.tassel.strands == strands
    uses = dict(plan.use("weld").by_use)
    assert uses["tassel"] == pytest.approx(2 * strands * plan.tassel.strand_length)
    assert uses["binding"] == pytest.approx(2 * plan.tassel.binding)


def test_no_tassels(project):
    assert make_plan(project(tassels=Tassels(0))).plan.tassel is None


def test_aglets_hold_the_pressed_cord(project):
    figure = make_plan(project(aglets=Aglets())).plan.figures["aglet_inside"]
    cord = 0.4 * 4.029602  # published, Specht: R(12)
    assert figure.low == pytest.approx(0.85 * cord)  # common practice, no source
    assert figure.low < figure.value <= figure.high


def test_the_working_of_a_pick_of_weft_says_what_is_subtracted(project):
    """Published (Specht): R(12) = 4.0296 and R(4) = 2.4142, of threads of 0.4 mm."""
    working = make_plan(project()).plan.figures["weft_per_pick"].working
    assert "cord 1.61 mm − one tablet’s cord 0.966 mm" in working
    assert "d = 0.4 mm" in working
