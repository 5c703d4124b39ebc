"""What whole plans do about the twist: the number of times, the places, beads that hide them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.beads import BeadKind, Gap, Strung
from sheetgen.model.pack import HoleColour, Tablets
from sheetgen.model.turning import Twist
from sheetgen.plan.hiding import under_beads
from sheetgen.plan.planner import make_plan
from sheetgen.plan.turning import traces, unroll


def test_a_short_cord_is_flipped_a_third_of_the_way(project):
    """Common practice, no source: one flip, about a third of the way along."""
    # geometry: 150 mm are 134 picks, 33 turns; 350 mm and more at 40 per m bear 14 at the end
    plan = make_plan(project(length=150.0)).plan
    assert len(plan.turning.interventions) == 1
    assert plan.turning.interventions[0].at == pytest.approx(150 / 3, abs=1)
    assert [x.look for x in plan.turning.lengths] in (
        ["straight", "spiral S"],
        ["spiral Z", "straight"],
        ["straight", "spiral Z"],
        ["spiral S", "straight"],
    )


def test_colours_keep_flips_at_whole_turns(project, yarn):
    tablets = Tablets(number=3, colours=(HoleColour("A", "weld"),))
    plan = make_plan(project(yarns=(yarn(), yarn("weld")), tablets=tablets, length=900.0)).plan
    picks = [i.pick for i in plan.turning.interventions]
    assert picks
    assert all(p % 4 == 0 for p in picks)


def test_the_load_is_what_the_picks_say(project):
    plan = make_plan(project(length=900.0)).plan
    flips, twist, sign, worst = plan.turning.flips_at, 0, 1, 0.0
    for pick in range(plan.turning.picks):
        sign = -sign if pick in flips else sign
        twist += sign
        left = plan.turning.picks - pick - 1
        warp = 350 + left * 1.12 * plan.figures["take_up"].value  # common practice: 100 + 250 mm
        worst = max(worst, abs(twist) / 4 / (0.04 * warp))
    assert plan.turning.load.share == pytest.approx(worst)
    assert worst <= 1


def test_one_way_in_steps_is_one_way(project, turns):
    """“forward 4” done again and again is no pattern: it is flipped like any plain cord."""
    plain, stepped = (make_plan(project(length=900.0, turning=t)).plan for t in ((), (turns(4),)))
    assert not stepped.turning.patterned
    assert stepped.turning.interventions == plain.turning.interventions


def test_a_stated_limit(project):
    figures = make_plan(project(twist=Twist(limit=0.04))).plan.figures
    assert figures["twist_limit"].origin == "stated"
    assert make_plan(project()).plan.figures["twist_limit"].origin == "rule of thumb"
    many, few = (
        make_plan(project(length=900.0, twist=Twist(limit=x))).plan.figures["interventions"].value
        for x in (0.02, 0.08)
    )
    assert many > few


@given(st.floats(5, 30), st.floats(0, 0.4), st.sampled_from([1, 4]))
def test_flips_hide_under_beads(project, beads, yarn, size, shrinkage, step):
    """Geometry: the middle of the bead that hides a flip lies over the flip, on the cord."""
    yarns = (yarn(), yarn("weld"))
    colours = (HoleColour("A", "weld"),) if step == 4 else ()
    strung = beads((Strung("one", 12),), (BeadKind("one", size, hole=9.0),))
    piece = project(
        form="loop",
        yarns=yarns,
        tablets=Tablets(number=3, colours=colours),
        beads=strung,
        twist=Twist(under_beads=True),
        shrinkage=shrinkage,
    )
    plan = make_plan(piece).plan
    for flip in plan.turning.interventions:
        assert flip.pick % step == 0
        if flip.bead:
            bead = plan.string.string.beads[flip.bead - 1]
            on_cord = flip.pick / plan.turning.picks * plan.string.cord
            begins = plan.string.start + bead.on_cord
            assert begins < on_cord < begins + bead.length
    assert plan.turning.load.share <= 1 + 1e-6


def test_hiding_tells_its_price(project, beads, told, codes):
    order = (Gap(40.0), Strung("one", 1), Gap(60.0), Strung("one", 1), Gap(20.0))
    strung = beads(order, (BeadKind("one", 16.0, hole=9.0),))
    plain = project(form="loop", beads=strung)
    hidden = project(form="loop", beads=strung, twist=Twist(under_beads=True))
    assert codes(plain) == []
    before, after = (make_plan(p).plan.turning for p in (plain, hidden))
    (flip,) = after.interventions
    assert before.picks == after.picks == 146  # geometry: 164 mm / 1.12
    assert 40 / 1.12 < flip.pick < 56 / 1.12  # geometry: the first bead lies from 40 to 56 mm
    # geometry: what is left at the end, of 14 turns that 350 mm bear
    old, new = ((146 - 2 * t.interventions[0].pick) / 4 / 14 for t in (before, after))
    assert (before.load.share, after.load.share) == pytest.approx((old, new))
    words = told(hidden, "twist-price").message
    assert f"from {round(100 * old)} % to {round(100 * new)} %" in words


def test_a_flip_stays_where_no_bead_can_hide_it(project, beads):
    """Geometry: 200 mm of bare cord in the middle, the beads at the ends."""
    order = (Strung("one", 1), Gap(200.0), Strung("one", 1))
    strung = beads(order, (BeadKind("one", 10.0, hole=9.0),))
    plain, hidden = (
        make_plan(project(form="loop", beads=strung, twist=Twist(under_beads=u))).plan.turning
        for u in (False, True)
    )
    assert hidden.interventions == plain.interventions
    assert all(i.bead == 0 for i in hidden.interventions)


def test_places_keep_their_number_and_order():
    traced = traces(unroll((), ("",), 90), 1)
    beads = [(1, 10.0, 40.0), (2, 50.0, 80.0)]
    moved, hidden = under_beads(
        beads, traced, 4, (18, 54), "flip and keep the side", lambda _: 500.0, 0.04, 1
    )
    assert moved == tuple(sorted(moved))
    assert len(moved) == 2
    assert all(first < pick < last for (_, first, last), pick in zip(beads, moved, strict=True))
    assert hidden == {moved[0]: 1, moved[1]: 2}
    nothing = under_beads([], traced, 4, (18,), "let out", lambda _: 500.0, 0.04, 1)
    assert nothing == ((18,), {})


def test_beads_beyond_the_cord_hide_nothing(project, beads):
    """A cord far too short for its beads is an error, but no flip may stand beyond its end."""
    piece = project(
        form="loop",
        beads=beads((Strung("small", 60),)),
        length=200.0,
        twist=Twist(limit=0.002, under_beads=True),
    )
    turning = make_plan(piece).plan.turning
    assert turning.interventions
    assert all(0 < i.pick < turning.picks for i in turning.interventions)


def test_one_turn_is_one_turn(project, told):
    """Arithmetic: four quarter turns are one full turn, six are one and a half."""
    pieces = {"pieces": 2, "one_warp": True, "length": 0.4 * 2.8 * 4}
    alone = told(project(**pieces), "twist-left").message
    assert "a twist of 1 full turn stands" in alone
    more = told(project(**(pieces | {"length": 0.4 * 2.8 * 6})), "twist-left").message
    assert "a twist of 1.5 full turns stands" in more
