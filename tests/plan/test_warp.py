"""Warp ends and winding against published sums and common practice."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.ends import Tassels
from sheetgen.model.pack import HoleColour, Tablets
from sheetgen.model.project import Allowance, Sample, Warping
from sheetgen.plan.constants import LOOM_WASTE, PLAIN_TAIL
from sheetgen.plan.pack import build_pack
from sheetgen.plan.planner import make_plan
from sheetgen.plan.warp import (
    BETWEEN_POSTS,
    CUT_ENDS,
    WarpEnd,
    lay_out_end,
    length_to_cut,
    same_threads,
    tails_wanted,
    top_when_turned,
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


@pytest.mark.parametrize(("end", "cut"), [(701, 705), (705, 705), (705.01, 710), (0.3, 5)])
def test_ends_are_cut_to_the_next_5_mm(end, cut):
    assert length_to_cut(end) == cut  # geometry: a rule marked in steps of 5 mm


def test_the_length_to_cut_and_its_range(project):
    allowance = Allowance(near_tail=70.0, far_tail=80.0, loom_waste=300.0)
    sample = Sample(take_up=1.1)
    figures = make_plan(project(allowance=allowance, length=203.0, sample=sample)).plan.figures
    # geometry: 70 + 203 × 1.1 + 80 + 300 = 673.3
    assert figures["warp_end"].value == pytest.approx(673.3)
    assert figures["cut_length"].value == 675.0
    assert "range" not in figures["warp_end"].working  # a measured take-up has none
    loose = make_plan(project(allowance=allowance)).plan.figures["warp_end"]
    assert loose.has_range
    assert "range is the take-up’s, which the loom waste covers" in loose.working
    tight = replace(allowance, loom_waste=0.0)
    bare = make_plan(project(allowance=tight)).plan.figures["warp_end"].working
    assert "range is the take-up’s" in bare
    assert "covers" not in bare


def test_what_tails_are_made_of(project):
    """The words and the sum agree: skirt, neck 30 mm and trimming 20 mm (common practice)."""
    loop = make_plan(project(form="loop", tassels=Tassels(number=1, skirt=55.0), length=300.0))
    figures = loop.plan.figures
    for key in ("near_tail", "far_tail"):
        assert figures[key].working == "skirt 55 mm + neck 30 mm + trim 20 mm"
        assert figures[key].value == 105  # geometry
    one = make_plan(project(tassels=Tassels(number=1, skirt=55.0))).plan.figures
    assert one["near_tail"].working == "to tie on by and to finish with"
    assert "skirt" in one["far_tail"].working
    short = make_plan(project(tassels=Tassels(number=2, skirt=20.0))).plan.figures["far_tail"]
    assert short.value == 100
    assert short.working.startswith("to tie on by")
    stated = Allowance(near_tail=70.0)
    given_ = make_plan(project(allowance=stated)).plan.figures["near_tail"].working
    assert given_ == "as described"


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


def brought(corners, turns):
    """Geometry: what stands at the near top before each of ``turns`` forward turns.

    ``corners`` are the holes' yarns by their place, seen from the weaver's right with away to the
    right of the picture: y away, z up. Forward carries the top away, so the picture turns
    clockwise.
    """
    count, found = len(corners), []
    near_top = (-math.sin(math.pi / count), math.cos(math.pi / count))
    for _ in range(turns):
        found.append(next(yarn for at, yarn in corners if math.dist(at, near_top) < 1e-6))
        c, s = math.cos(2 * math.pi / count), math.sin(2 * math.pi / count)
        corners = [((y * c + z * s, z * c - y * s), yarn) for (y, z), yarn in corners]
    return found


def standing(yarns, top):
    """A tablet with hole ``top`` (from 0) at the near top; forward brings the next one there."""
    count = len(yarns)
    angles = [math.pi / count + 2 * math.pi * k / count for k in range(count)]
    holes = [(top + k) % count for k in range(count)]
    # the next hole stands a turn before the near top: below it on the near side
    return [((-math.sin(a), math.cos(a)), yarns[h]) for a, h in zip(angles, holes, strict=True)]


def about_its_upright_axis(corners):
    """Near and far change places, up and down stay."""
    return [((-y, z), yarn) for (y, z), yarn in corners]


@given(st.lists(st.sampled_from([None, "r", "w", "b"]), min_size=2, max_size=6))
def test_a_turned_tablet_brings_its_yarns_in_order(yarns):
    """Geometry: turn a tablet about its upright axis, then seek the hole by trying them all."""
    count = len(yarns)
    assert brought(standing(yarns, 0), count) == yarns
    good = []
    for first in range(count):
        corners = about_its_upright_axis(standing(list(enumerate(yarns)), first))
        shown = brought(corners, count)
        if [yarn for _, yarn in shown] == yarns:
            good.append("ABCDEF"[shown[0][0]])
    assert top_when_turned(yarns) == min(good, default=None)


def test_the_near_top_of_turned_tablets(project, yarn, codes, told):
    # by hand: turned about, forward brings B A D C = r r w w
    def piece(colours, letters=("S",), way=BETWEEN_POSTS):
        tablets = Tablets(
            number=4, threaded=letters, colours=tuple(map(HoleColour, "ABCD", colours))
        )
        yarns = tuple(yarn(n) for n in dict.fromkeys(colours))
        return project(yarns=yarns, tablets=tablets, warping=Warping(way))

    wound = make_plan(piece("rrww")).plan.winding
    assert (wound.turned, wound.turned_top) == ((2, 4), "B")
    assert make_plan(piece("rrrr")).plan.winding.turned_top == "A"
    assert make_plan(piece("rwrw")).plan.winding.turned_top == "A"  # A D C B = r w r w
    found = told(piece("rwbb"), "order-turns-over")  # by hand: b b w r, b w r b, w r b b, r b b w
    assert (found.path, found.is_error) == (("warping",), True)
    assert "tablets 2, 4 " in found.message
    assert "cut ends" in found.hint
    assert codes(piece("rwbb", letters=("S", "Z"))) == []  # none has to be turned
    assert codes(piece("rwbb", way=CUT_ENDS)) == []


def test_threads_alike():
    assert same_threads(build_pack(Tablets(), 3, "m"))
    colours = (HoleColour("A", "red"),)
    assert same_threads(build_pack(Tablets(colours=colours), 3, "m"))
