"""Thickness, width and number of tablets of whole pieces against finds and arithmetic."""

import math
from dataclasses import replace

import pytest

from sheetgen.model.pack import DraftLine, HoleColour, Tablets
from sheetgen.model.project import Find, Sample
from sheetgen.model.values import Count, PicksOver, Reading
from sheetgen.plan.planner import make_plan


def by_hole(*yarns):
    return tuple(HoleColour("ABCDEFGH"[i], y) for i, y in enumerate(yarns))


def found(thickness):
    return Find("an invented find", thickness=Reading(thickness, thickness, thickness))


@pytest.mark.parametrize("diameter", [0.222, 0.228, 0.233])
def test_henshalls_cord_5_planned(project, yarn, diameter):
    """Published, Henshall 1964: 1.5 mm, 8 or 9 four-hole tablets, 16 picks in a cm."""
    piece = project(
        yarns=(yarn("silk", diameter, fibre="silk"),),
        tablets=Tablets(threaded=("Z",)),
        find=found(1.5),
        sample=Sample(picks=PicksOver(16, 10.0)),
    )
    plan = make_plan(piece).plan
    assert len(plan.pack.tablets) in (8, 9)
    assert plan.thickness == pytest.approx(1.5, rel=0.05)
    assert 1.07 <= plan.figures["take_up"].value <= 1.09
    assert plan.figures["pick_spacing"].value == pytest.approx(0.625)  # geometry: 10 / 16


def test_the_hobby_cord_is_pressed(project, yarn):
    # published as a hobby report, 2024: nine tablets, roughly 6 mm off tension: ours may lie below
    piece = project(tablets=Tablets(number=9), yarns=(yarn("crochet", 0.6, fibre="cotton"),))
    figure = make_plan(piece).plan.figures["thickness"]
    assert "pressed" in figure.name
    assert figure.value < 6.35


def test_verdict_against_the_find(project):
    plan = make_plan(project(find=found(2.0))).plan
    thick = 0.4 * 4.029602  # published, Specht: R(12)
    assert plan.verdict.difference == pytest.approx(thick - 2.0)
    assert plan.verdict.share == pytest.approx((thick - 2.0) / 2.0)
    assert not plan.verdict.within
    # published, Specht: R(16) = 4.615 makes 1.85 mm, R(20) = 5.122 makes 2.05 mm: five are nearest
    assert plan.verdict.best_tablets == 5
    assert plan.verdict.best_size == pytest.approx(0.4 * 5.122321)


def test_a_measured_sample_outranks(project):
    sample = Sample(diameter=Reading(1.8, 1.7, 1.9), take_up=1.12)
    figures = make_plan(project(sample=sample)).plan.figures
    assert (figures["thickness"].value, figures["thickness"].origin) == (1.8, "measured")
    assert (figures["take_up"].value, figures["take_up"].origin) == (1.12, "measured")
    assert figures["in_weave"].value == pytest.approx(280 * 1.12)  # geometry


def test_two_yarns_fill_their_area(project, yarn):
    yarns = (yarn("thick", 0.6), yarn("thin", 0.3))
    piece = project(
        yarns=yarns, tablets=Tablets(number=3, colours=by_hole("thick", "thick", "thin", "thin"))
    )
    plan = make_plan(piece).plan
    # geometry: six ends each; published, Specht: R(12)
    mean = math.sqrt((6 * 0.36 + 6 * 0.09) / 12)
    assert plan.thickness == pytest.approx(mean * 4.029602)
    assert plan.pack.ends_by_yarn == {"thick": 6, "thin": 6}


@pytest.mark.parametrize(("holes", "ratio"), [(2, 2.0), (3, 2.154701), (4, 2.414214), (6, 3.0)])
def test_width_of_a_band(project, holes, ratio):
    band = project(form="band", tablets=Tablets(number=20, holes=holes))
    plan = make_plan(band).plan
    assert plan.width == pytest.approx(20 * 0.4 * ratio)  # published, Specht: R(holes)
    assert plan.thickness == pytest.approx(0.4 * ratio)
    figure = plan.figures["width"]
    assert (figure.low, figure.high) == pytest.approx((0.8 * plan.width, 1.2 * plan.width))
    assert plan.turning.lengths == ()  # a band neither spirals nor lies straight


def test_six_hole_tablets_used_as_four_hole_ones(project):
    colours = by_hole("madder", "madder", "empty", "madder", "madder", "empty")
    six = make_plan(project(tablets=Tablets(number=3, holes=6, colours=colours))).plan
    four = make_plan(project()).plan
    assert six.pack.ends == four.pack.ends == 12
    assert six.thickness == four.thickness  # geometry: as many ends of the same yarn
    # geometry: one turn takes six picks of the same length and not four, so it is less steep
    rise = 4 * four.turning.spacing
    steep = math.sqrt(four.figures["take_up"].value ** 2 - 1)
    less = math.sqrt(six.figures["take_up"].value ** 2 - 1)
    assert less == pytest.approx(steep * rise / (6 * six.turning.spacing))
    # geometry: full turns are six picks long, so the same picks gather fewer of them
    assert len(six.turning.interventions) < len(four.turning.interventions)


@pytest.mark.parametrize("holes", [3, 4, 6])
def test_tablets_from_a_find_count_threads_not_holes(project, holes):
    """One empty hole in a tablet, by colours or by a draft: the find's thickness needs the same."""
    colours = by_hole(*["madder"] * (holes - 1), "empty")
    thickness = 0.4 * 4.029602  # published, Specht: R(12)
    for tablets in (
        Tablets(holes=holes, colours=colours),
        Tablets(holes=holes, draft=(DraftLine("S", colours), DraftLine("Z", colours))),
    ):
        plan = make_plan(project(tablets=tablets, find=found(thickness))).plan
        off = [abs(n * (holes - 1) - 12) for n in range(1, 13)]
        assert abs(plan.pack.ends - 12) == min(off)
        assert plan.figures["tablets"].origin == "computed"


def test_a_find_as_thick_as_a_rope_stops_at_the_most(project):
    plan = make_plan(project(find=found(90.0), tablets=Tablets())).plan
    assert len(plan.pack.tablets) == 300
    assert plan.verdict.difference < -50


def test_a_sample_outranks_the_formula_in_the_verdict(project, yarn, told):
    """The ferry string: silk 30/2, forty ends; the sample is 1.65 mm, the find 1.9 mm.

    Worked here: 30/2 spun silk is 590.541 / 30 = 19.68 tex (published, ASTM D2260), the sample
    is as thick as yarns of 1.65 mm / R(40), whatever the formula says of the yarn. R(N) beyond
    37 is near sqrt(N / 0.80): 1.9 / 1.65 = sqrt(N / 40) for N = 53, thirteen tablets of four.
    """
    silk = yarn(diameter=None, fibre="silk", count=Count("30/2", 590.541 / 30, "NeC", 2))
    find = Find("x", thickness=Reading(1.9, 1.7, 2.1, False))
    sample = Sample(diameter=Reading(1.65, 1.55, 1.75))
    piece = project(yarns=(silk,), tablets=Tablets(number=10), find=find, sample=sample)
    plan = make_plan(piece).plan
    figure = plan.figures["tablets_for_find"]
    assert (figure.value, plan.verdict.best_tablets) == (13, 13)
    assert "sample" in figure.working
    assert "sample" in figure.source
    # geometry: both cords of so many ends swell alike, so 52 ends come to about 1.65 sqrt(52 / 40)
    assert plan.verdict.best_size == pytest.approx(1.65 * math.sqrt(52 / 40), rel=0.01)
    bare = make_plan(replace(piece, sample=None)).plan.figures["tablets_for_find"]
    assert bare.value > 20  # without the sample the silk is thought 0.18 mm: 40 ends make 1.24 mm
    assert "sample" not in bare.working


def test_a_bands_sample_sets_the_width_of_a_tablet(project):
    """Geometry: ten tablets measured 8 mm wide are 0.8 mm each, 12 mm need fifteen."""
    find = Find("x", width=Reading(12.0, 11.0, 13.0, False))
    sample = Sample(width=Reading(8.0, 7.8, 8.2))
    piece = project(form="band", length=300.0, tablets=Tablets(10), find=find, sample=sample)
    plan = make_plan(piece).plan
    assert (plan.verdict.best_tablets, plan.verdict.best_size) == (15, pytest.approx(12.0))
    assert "sample" in plan.figures["tablets_for_find"].working


def test_far_from_the_find(project, codes, told):
    """Published (Specht): R(12) = 4.0296, R(16) = 4.6154, R(28) = 6.0149, of 0.4 mm threads."""
    cord = 0.4 * 4.029602
    near, far = cord / 0.8, cord / 0.5  # 20 and 50 % too thin
    assert codes(project(find=found(near))) == []
    warned = told(project(find=found(far)), "far-from-find")
    assert not warned.is_error
    assert warned.path == ("tablets",)
    assert "1.61 mm (50 %) thinner" in warned.message
    # 3.22 mm / 0.4 mm = 8.06 = sqrt(N / 0.80) for N = 52, or a little more: 13 tablets
    assert "13 tablets come nearest" in warned.hint
    thick = told(project(find=found(cord / 2), tablets=Tablets(number=3)), "far-from-find")
    assert "0.81 mm (100 %) thicker" in thick.message
    # 0.81 mm / 0.4 mm = 2.01: one tablet has R(4) = 2.41, no number has less
    assert "1 tablet comes nearest, at 0.97 mm" in thick.hint
    # a reading as rough as that meets the prediction
    rough = Find("x", thickness=Reading(far, cord * 0.99, far * 1.5, False))
    assert codes(project(find=rough)) == []
    # a rope is beyond any number of tablets that may be: then the yarn is what can be changed
    rope = told(project(find=found(90.0), tablets=Tablets()), "far-from-find")
    assert (rope.path, rope.hint) == (("find", "thickness"), "take a thicker yarn")


def test_a_band_far_from_the_find(project, told):
    """Geometry: ten tablets of four threads of 0.4 mm are 9.66 mm wide and 0.97 mm thick."""
    find = Find("x", width=Reading(20.0, 19.0, 21.0), thickness=Reading(1.0, 0.9, 1.1))
    piece = project(form="band", length=300.0, tablets=Tablets(10), find=find)
    wide = told(piece, "far-from-find")
    assert wide.path == ("tablets",)
    assert "10.3 mm (52 %) narrower" in wide.message
    assert "21 tablets come nearest, at 20.3 mm" in wide.hint
    thin = replace(piece, find=Find("x", thickness=Reading(2.0, 1.9, 2.1)))
    thinner = told(thin, "far-from-find")
    assert (thinner.path, thinner.hint) == (("find", "thickness"), "take a thicker yarn")


def test_a_band_is_held_against_the_finds_width(project):
    """Geometry: ten tablets of four threads of 0.4 mm are 10 × 0.4 × (1 + √2) mm wide."""
    wide = 10 * 0.4 * (1 + math.sqrt(2))
    find = Find("an invented find", width=Reading(12.0, 11.0, 13.0, False))
    plan = make_plan(project(form="band", length=300.0, tablets=Tablets(10), find=find)).plan
    assert plan.verdict.what == "width"
    assert plan.verdict.difference == pytest.approx(wide - 12.0, abs=1e-4)
    # 12 mm / 0.966 mm a tablet = 12.4: twelve tablets come nearest
    assert plan.figures["tablets_for_find"].value == 12
