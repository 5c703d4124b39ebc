"""Whole plans: every diagnostic provoked, its amount worked here; what holds for every plan."""

import itertools
import math
import re
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sheetgen.amounts import length as written
from sheetgen.model.beads import BeadKind, Finial, Gap, Knot, StandsFor, Strung
from sheetgen.model.ends import Aglets, Tassels
from sheetgen.model.pack import DraftLine, Exceptional, Group, HoleColour, Tablets
from sheetgen.model.project import Allowance, Find, Sample, Session, Warping
from sheetgen.model.turning import PLACINGS, WAYS, Flip, Move, Repeat, Turns, Twist, Weft
from sheetgen.model.values import Amount, Count, PicksOver, PutUp, Reading
from sheetgen.model.yarn import FIBRES, PREPARATIONS, Yarn
from sheetgen.plan.figure import Origin, Unit
from sheetgen.plan.planner import make_plan, surest_next
from sheetgen.units import quantity

CORD = 0.4 * 4.029602  # published (Specht): R(12), three four-hole tablets of 0.4 mm yarn
PRESSED = 0.85 * CORD  # common practice, no source


def amounts(text):
    """The lengths in a message, mm."""
    return [quantity(x, "length") for x in re.findall(r"[\d.]+ (?:mm|cm|m)\b", text)]


def test_a_clean_plan_says_nothing(project, codes):
    assert codes(project()) == []


def test_cord_too_short(project, beads, told):
    found = told(project(form="loop", beads=beads(), length=80.0), "cord-too-short")
    assert amounts(found.message) == [20, 100]  # geometry: ten beads of 10 mm on 80 mm
    assert amounts(found.hint) == [112, 12]  # geometry: and 12 mm for the fingers
    assert found.is_error


def test_cord_too_short_by_what_the_finial_takes(project, beads, told):
    strung = beads(finial=Finial("bell", length=15.0, hole=9.0), join=10.0)
    found = told(project(form="loop", beads=strung, length=100.0), "cord-too-short")
    assert amounts(found.message) == [50, 150]  # geometry: both ends through it, both joined
    found = told(project(form="straight", beads=strung, length=100.0), "cord-too-short")
    assert amounts(found.message) == [35, 135]  # geometry: one end through it, both joined


def test_cord_tight_and_slack(project, beads, told, codes):
    found = told(project(form="loop", beads=beads(), length=104.0), "cord-tight")
    assert amounts(found.message) == [4]  # geometry: 104 - 100, of 12 wanted
    found = told(project(form="loop", beads=beads(), length=150.0), "cord-slack")
    assert amounts(found.message) == [50]  # geometry: 150 - 100
    assert codes(project(form="loop", beads=beads(), length=112.0)) == []


def test_hole_too_small(project, beads, told, codes):
    kinds = (BeadKind("small", 10.0, hole=2.0),)
    folded = beads((Strung("small", 10),), kinds, strung="loop of thread")
    found = told(project(form="loop", beads=folded), "hole-too-small")
    assert amounts(found.message)[1] == pytest.approx(2 * PRESSED - 2.0, abs=0.006)
    assert amounts(found.hint)[0] == pytest.approx(2.0 / (2 * 0.85), abs=0.006)
    assert "hole-too-small" not in codes(project(form="loop", beads=beads(kinds=kinds)))
    spare = (*kinds, BeadKind("spare", 4.0, hole=0.5))
    assert "hole-too-small" not in codes(project(form="loop", beads=beads(kinds=spare)))


def test_finial_takes_both_ends_of_a_loop(project, beads, told, codes):
    strung = beads(finial=Finial("bell", length=15.0, hole=2.0))
    found = told(project(form="loop", beads=strung), "hole-too-small")
    assert "both ends" in found.message
    assert found.path[:2] == ("beads", "finial")
    assert amounts(found.message)[1] == pytest.approx(2 * PRESSED - 2.0, abs=0.006)
    assert codes(project(form="straight", beads=strung)) == []


def test_too_few_beads(project, beads, told):
    kinds = (BeadKind("small", 10.0, hole=9.0, at_hand=7), BeadKind("large", 12.0, hole=9.0))
    found = told(project(form="loop", beads=beads(kinds=kinds)), "too-few-beads")
    assert re.findall(r"\d+", found.message) == ["10", "3"]  # geometry: 10 - 7
    assert amounts(found.hint) == [6]  # geometry: three that are 2 mm longer
    found = told(project(form="loop", pieces=2, beads=beads(kinds=kinds)), "too-few-beads")
    assert re.findall(r"\d+", found.message) == ["20", "13"]  # geometry: for two strings


def test_allowance_too_small(project, told):
    found = told(project(allowance=Allowance(whole=150.0)), "allowance-too-small")
    assert amounts(found.message) == [50]  # geometry: two tails of 100 mm (common practice)
    assert found.is_error


def test_post_out_of_room(project, told):
    piece = project(warping=Warping(room=500.0), sample=Sample(take_up=1.1))
    found = told(piece, "post-out-of-room")
    # geometry: 280 x 1.1 + two tails of 100 + 250 of loom waste (common practice) - 500
    assert amounts(found.message) == [pytest.approx(258)]


def test_warp_not_alike(project, yarn, told, codes):
    two = (yarn(), yarn("weld"))
    draft = (DraftLine(None, (HoleColour("*", "weld"),)), DraftLine(None, ()))
    piece = project(yarns=two, tablets=Tablets(number=3, draft=draft))
    between = replace(piece, warping=Warping("between posts"))
    assert told(between, "warp-not-alike").is_error
    assert "warp-not-alike" not in codes(piece)


def test_soft_and_unused_yarns(project, yarn, told, codes):
    piece = project(yarns=(yarn(soft=True), yarn("weld")))
    assert told(piece, "soft-yarn").path[:2] == ("yarns", "madder")
    assert told(piece, "yarn-unused").path[:2] == ("yarns", "weld")
    assert codes(project(yarns=(yarn(), yarn("weld")), weft=Weft("weld"))) == []


def test_not_enough_yarn(project, yarn, told):
    count = Count("100 tex", 100.0, "tex")
    piece = project(yarns=(yarn(count=count, at_hand=Amount(mass=0.5)),))
    used = make_plan(piece).plan.use("madder").used
    found = told(piece, "not-enough-yarn")
    lengths = amounts(found.message)
    # geometry: 0.5 g at 100 g per km are 5 m
    assert lengths[1] == pytest.approx(used - 5000, rel=0.005)
    assert lengths[0] == pytest.approx(used, rel=0.005)
    assert f"{math.floor(100 * 5000 / used)} %" in found.hint


def test_a_shortfall_by_a_guessed_mass_is_no_error(project, yarn, told, codes):
    """Wraps alone: the mass is a rule of thumb, so nobody is kept from weaving by it."""
    few = Amount(mass=1.0)
    piece = project(yarns=(yarn(diameter=None, wraps=14 / 25.4, at_hand=few),))
    found = told(piece, "perhaps-not-enough-yarn")
    assert not found.is_error
    assert "weigh a measured length" in found.hint
    # geometry: a km of 1.814 mm wool is 3386 g if solid, of which 0.60 to 0.06 is fibre
    used, _, low, high = amounts(found.message)
    assert used == pytest.approx(make_plan(piece).plan.use("madder").used, rel=0.005)
    assert (low, high) == pytest.approx((1e6 / 3386 / 0.60, 1e6 / 3386 / 0.06), rel=0.005)
    counted = yarn(diameter=None, count=Count("300 tex", 300.0, "tex"), at_hand=few)
    assert told(project(yarns=(counted,)), "not-enough-yarn").is_error
    known = yarn(diameter=None, wraps=14 / 25.4, at_hand=Amount(length=1000.0))
    assert told(project(yarns=(known,)), "not-enough-yarn").is_error  # a length needs no mass


def test_reserve_short(project, yarn, told, codes):
    used = make_plan(project()).plan.use("madder").used
    piece = project(yarns=(yarn(at_hand=Amount(length=used * 1.04)),))
    assert "4 %" in told(piece, "reserve-short").message  # geometry: 1.04 of what is used
    assert codes(project(yarns=(yarn(at_hand=Amount(length=used * 1.11)),))) == []


def test_aglets(project, told, codes):
    found = told(project(aglets=Aglets(inside=1.0)), "aglet-too-narrow")
    assert amounts(found.message) == [pytest.approx(PRESSED - 1.0, abs=0.006)]
    found = told(project(aglets=Aglets(inside=2.5)), "aglet-too-wide")
    assert amounts(found.message) == [pytest.approx(2.5 - CORD, abs=0.006)]
    assert codes(project(aglets=Aglets(inside=1.5))) == []
    assert codes(project(aglets=Aglets())) == []


def test_too_much_twist(project, turns, told):
    steps = (turns(400), turns(400, "backward"))
    found = told(project(length=900.0, turning=steps), "too-much-twist")
    assert "100 full turns" in found.message  # geometry: 400 quarter turns
    # geometry: at pick 400 there are left 350 mm and (804 - 400) picks of 1.12 mm, at 40 per m
    times = float(re.search(r"([\d.]+) times", found.message)[1])
    assert times == pytest.approx(100 / (0.04 * (350 + 404 * 1.12 * 1.078)), abs=0.06)


def test_flips_in_a_pattern(project, turns, codes):
    steps = (turns(8), turns(4, "backward"))
    flips = project(length=900.0, turning=steps, twist=Twist(way=WAYS[0]))
    assert "flip-in-pattern" in codes(flips)
    assert "flip-in-pattern" not in codes(replace(flips, twist=Twist()))
    assert "flip-in-pattern" not in codes(replace(flips, turning=(turns(8),)))  # one way


def test_what_twist_does_not_use(project, beads, turns, codes):
    untwisted = Twist(placing="ends untwisted")
    assert "placing-unused" in codes(project(twist=replace(untwisted, way="let out")))
    assert codes(project(twist=untwisted)) == []
    steps = (turns(4), turns(4, "backward"))
    assert "placing-unused" in codes(project(twist=untwisted, turning=steps))
    under = project(form="loop", beads=beads(), twist=Twist(under_beads=True))
    assert "under-beads-unused" in codes(replace(under, turning=steps))
    assert "under-beads-unused" not in codes(under)


def test_twist_left_between_pieces(project, told, codes):
    piece = project(length=900.0, pieces=2, one_warp=True)
    found = told(piece, "twist-left")
    turning = make_plan(piece).plan.turning
    corners = [0, *(i.pick for i in turning.interventions), turning.picks]
    lengths = [b - a for a, b in itertools.pairwise(corners)]
    left = abs(sum((-1) ** n * part for n, part in enumerate(lengths))) / 4  # geometry
    assert float(re.search(r"([\d.]+) full", found.message)[1]) == pytest.approx(left, abs=0.06)
    assert codes(replace(piece, one_warp=False)) == []
    assert codes(replace(piece, twist=Twist(placing="ends untwisted"))) == []


def test_tablets_without_threads(project, told):
    empty = DraftLine(None, (HoleColour("*", "empty"),))
    full = DraftLine(None, (HoleColour("*", "madder"),))
    for form in ("cord", "band"):
        piece = project(form=form, tablets=Tablets(number=3, draft=(full, empty)))
        assert "tablet 2 " in told(piece, "tablet-without-thread").message
        nothing = project(form=form, tablets=Tablets(number=3, draft=(empty,)))
        assert "1, 2, 3" in told(nothing, "tablet-without-thread").message


def test_tablets_beyond_what_the_find_makes(project, told):
    tablets = Tablets(
        except_=(Exceptional((2, 19), threaded=("Z",)),), groups=(Group("edge", (1, 40)),)
    )
    find = Find("an invented find", thickness=Reading(CORD, CORD, CORD))
    found = told(project(tablets=tablets, find=find), "no-such-tablet")
    assert "19, 40" in found.message
    assert found.allowed == "1 to 3"  # geometry: the find is as thick as three tablets


# What holds for every plan.

MOTIONS = st.sampled_from(["forward", "backward", "idle"])


@st.composite
def yarns(draw, name):
    known = draw(st.sampled_from(["diameter", "reading", "wraps", "count", "put up"]))
    about = draw(st.floats(0.05, 3))
    return Yarn(
        name,
        fibre=draw(st.sampled_from(FIBRES)),
        preparation=draw(st.sampled_from([None, *PREPARATIONS])),
        diameter={
            "diameter": Reading(about, about, about),
            "reading": Reading(about, about * 0.8, about * 1.3, sure=False),
        }.get(known),
        wraps=1 / about if known == "wraps" else None,
        count=Count("x", draw(st.floats(5, 4000)), "tex") if known == "count" else None,
        put_up=draw(st.builds(PutUp, st.floats(5, 500), st.floats(1e4, 1e6)))
        if known == "put up"
        else None,
        at_hand=draw(st.sampled_from([None, Amount(mass=30.0), Amount(length=40_000.0)])),
    )


@st.composite
def packs(draw, names):
    holes = draw(st.integers(2, 8))
    number = draw(st.one_of(st.integers(1, 12), st.integers(1, 300)))
    threads = [*names, "empty"]
    colours = [HoleColour(h, draw(st.sampled_from(threads))) for h in "ABCDEFGH"[:holes]]
    colours[0] = HoleColour("A", names[0])
    edge = Group("edge", (1, number)) if number > 1 and draw(st.booleans()) else None
    return Tablets(
        number=number,
        holes=holes,
        threaded=draw(st.sampled_from([("S",), ("Z",), ("S", "Z")])),
        colours=tuple(colours),
        groups=(edge,) if edge else (),
    )


@st.composite
def steps(draw, groups):
    def moves():
        if not groups:
            return (Move("", draw(MOTIONS)),)
        return (Move("edge", draw(MOTIONS)), Move("rest", draw(MOTIONS)))

    found = [Turns(draw(st.integers(1, 40)), moves()) for _ in range(draw(st.integers(0, 4)))]
    if found and draw(st.booleans()):
        found = [Repeat(draw(st.integers(1, 4)), (*found, Flip())), *found]
    return tuple(found)


@st.composite
def strings(draw):
    kinds = tuple(
        BeadKind(
            name,
            draw(st.floats(2, 30)),
            hole=draw(st.one_of(st.none(), st.floats(0.3, 9))),
            at_hand=draw(st.one_of(st.none(), st.integers(0, 90))),
            stands_for=StandsFor("bone", 9.0) if name == "b" else None,
        )
        for name in "ab"
    )
    item = st.one_of(
        st.builds(Strung, st.sampled_from("ab"), st.integers(1, 20)),
        st.builds(Gap, st.floats(0.5, 30)),
        st.just(Knot()),
    )
    order = draw(st.lists(item, min_size=1, max_size=6))
    finial = draw(st.sampled_from([None, Finial("bell", length=12.0, hole=3.0)]))
    return {"order": order, "kinds": kinds, "finial": finial, "join": draw(st.floats(0, 50))}


@st.composite
def projects(draw, make, string):
    names = ["madder", "weld"][: draw(st.integers(1, 2))]
    form = draw(st.sampled_from(["loop", "straight", "cord", "band"]))
    tablets = draw(packs(names))
    strung = form in ("loop", "straight")
    length = draw(st.floats(5, 3000)) if not strung or draw(st.booleans()) else None
    about = draw(st.floats(0.5, 20))
    return make(
        form=form,
        yarns=tuple(draw(yarns(n)) for n in names),
        tablets=tablets,
        length=length,
        beads=string(**draw(strings())) if strung else None,
        turning=draw(steps(tablets.groups)),
        twist=Twist(
            draw(st.sampled_from([None, *WAYS])),
            draw(st.sampled_from(PLACINGS)),
            draw(st.sampled_from([None, 0.001, 0.05, 1.0])),
            draw(st.booleans()),
        ),
        find=draw(
            st.sampled_from([None, Find("x", thickness=Reading(about, about * 0.9, about * 1.1))])
        ),
        sample=draw(
            st.sampled_from(
                [None, Sample(picks=PicksOver(32, 50.0)), Sample(Reading(2, 1.9, 2.1), take_up=1.1)]
            )
        ),
        allowance=draw(st.sampled_from([Allowance(), Allowance(whole=600.0), Allowance(0, 0, 0)])),
        shrinkage=draw(st.sampled_from([0.0, 0.05, 0.5])),
        pieces=draw(st.integers(1, 4)),
        one_warp=draw(st.booleans()),
        warping=Warping(draw(st.sampled_from(["cut ends", "between posts"])), 900.0),
        tassels=draw(st.sampled_from([None, Tassels(), Tassels(2, thickness=9.0)])),
        aglets=draw(st.sampled_from([None, Aglets(inside=2.0)])),
        sessions=(Session("one", 60.0),) if draw(st.booleans()) else (),
    )


@given(st.data())
@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_what_holds_for_every_plan(project, beads, data):
    piece = data.draw(projects(project, beads))
    plan = make_plan(piece).plan
    for key, figure in plan.figures.items():
        assert key == figure.key
        numbers = (figure.low, figure.value, figure.high)
        assert all(map(math.isfinite, numbers)), figure
        assert figure.low <= figure.value <= figure.high, figure
        assert figure.unit in get_args(Unit), figure
        assert figure.origin in get_args(Origin), figure
        assert figure.working, figure
        assert figure.name, figure
    _parts_make_wholes(plan)
    _twist_is_told(plan)
    _next_measure(plan)
    _rules_are_told(plan)
    assert make_plan(piece).plan == plan  # pure


def _parts_make_wholes(plan):
    value = {key: figure.value for key, figure in plan.figures.items()}
    pieces = plan.warp.pieces
    # geometry: the parts of the warp end, the ends of the pack, the weight of the yarn
    one = value["near_tail"] + value["in_weave"] + value["far_tail"]
    assert value["warp_end"] == pytest.approx(pieces * one + value["loom_waste"])
    assert value["ends"] == sum(len([h for h in t.holes if h]) for t in plan.pack.tablets)
    warp = sum(dict(use.by_use).get("warp", 0) for use in plan.yarns)
    warps = plan.project.pieces / pieces
    assert warp == pytest.approx(value["ends"] * value["warp_end"] * warps)
    for use in plan.yarns:
        assert value[f"length:{use.name}"] == pytest.approx(1.1 * use.used)  # common practice
        km = value[f"length:{use.name}"] / 1e6
        assert value[f"mass:{use.name}"] == pytest.approx(km * value[f"tex:{use.name}"])
    assert plan.turning.picks == value["picks"] >= 1
    if plan.string:
        parts = plan.string.string.string_length + plan.string.string.knots_take
        parts += plan.string.ends_take + value["finger_room"]
        assert value["cord_length"] == pytest.approx(parts)


def _twist_is_told(plan):
    turning, done = plan.turning, plan.turning.interventions
    assert [i.number for i in done] == list(range(1, len(done) + 1))
    picks = [i.pick for i in done]
    assert picks == sorted(set(picks))
    assert all(0 < p < turning.picks for p in picks)
    assert plan.figures["interventions"].value == len(picks)
    most = turning.most.turns
    assert plan.figures["worst_twist"].value == most
    assert all(most >= turns for turns in (turning.load.turns, *(i.turns for i in done)))
    assert turning.load.share >= turning.most.share - 1e-9
    if plan.project.is_tube:
        assert [x.first for x in turning.lengths] == [0, *picks]
        assert turning.lengths[-1].last == turning.picks
    if not turning.patterned and not plan.pack.one_colour_a_tablet:
        assert all(p % plan.pack.holes == 0 for p in picks)  # whole turns keep the pattern


def _rules_are_told(plan):
    """Only what is computed rests on a rule; what goes into a warp end shows in it."""
    figures = plan.figures
    assert all(f.origin == "computed" for f in figures.values() if f.rests_on_rule)
    for key, roots in {
        "picks": ("pick_spacing",),
        "warp_end": ("near_tail", "far_tail", "loom_waste", "in_weave"),
        "cut_length": ("warp_end",),
        "interventions": ("twist_limit", "picks", "warp_end"),
        "weaving_time": ("picks", "pace"),
        "weft": ("picks",),
    }.items():
        if any(figures[r].origin == "rule of thumb" or figures[r].rests_on_rule for r in roots):
            assert figures[key].rests_on_rule, key


def _next_measure(plan):
    words = surest_next(plan)
    assert "spiral" not in words
    assert words or not any(f.next_measure for f in plan.figures.values() if f.key != "pace")
    if not plan.project.sessions:
        assert not words.startswith("pace")


def test_what_rests_on_a_rule_and_what_does_not(project, beads):
    """Everything known of a cord: nothing rests on a rule; each thing left out makes it so."""
    known = project(
        sample=Sample(Reading(1.6, 1.5, 1.7), None, PicksOver(40, 50.0), 1.08),
        allowance=Allowance(near_tail=100.0, far_tail=100.0, loom_waste=250.0),
        twist=Twist(limit=0.04),
        pace=5.0,
        reserve=0.1,
    )
    resting = {f.key for f in make_plan(known).plan.figures.values() if f.rests_on_rule}
    assert resting == set()
    for change, more in (
        ({"pace": None}, {"weaving_time"}),
        ({"twist": Twist()}, {"interventions", "worst_twist"}),
        ({"reserve": None}, {"length:madder", "mass:madder"}),
        (
            {"allowance": Allowance(near_tail=100.0, far_tail=100.0)},
            {"warp_end", "cut_length", "interventions", "worst_twist"}
            | {"length:madder", "mass:madder"},
        ),
    ):
        plan = make_plan(replace(known, **change)).plan
        assert {f.key for f in plan.figures.values() if f.rests_on_rule} == more
    loose = make_plan(project()).plan.figures
    assert all(loose[k].rests_on_rule for k in ("picks", "take_up", "in_weave", "weft"))
    string = project(form="loop", beads=beads())
    figures = make_plan(string).plan.figures
    assert figures["cord_length"].rests_on_rule  # by the finger room
    assert figures["finger_room"].rests_on_rule
    stated = make_plan(replace(string, beads=beads(finger_room=12.0))).plan.figures
    assert not stated["cord_length"].rests_on_rule
    assert not make_plan(replace(string, length=112.0)).plan.figures["finger_room"].rests_on_rule


def test_the_mass_of_soft_yarn_comes_before_the_picks(project, yarn):
    """What is bought may be out tenfold, the picks by a quarter; the pace comes last of all."""
    soft = project(yarns=(yarn(diameter=None, wraps=0.55),), sessions=(Session("one", 900.0),))
    assert "weigh a measured length" in surest_next(make_plan(soft).plan)
    sample = Sample(Reading(1.6, 1.6, 1.6), None, PicksOver(400, 500.0), 1.08)
    known = project(sample=sample, sessions=(Session("one", 900.0),))
    assert surest_next(make_plan(known).plan).endswith("time twenty picks")  # nothing else is open
    counted = yarn(diameter=None, wraps=2.5, count=Count("100 tex", 100.0, "tex"))
    # the pace is out by 58 %, a wrapped diameter by 10 %: but the diameter decides what is cut
    wrapped = replace(known, yarns=(counted,))
    assert "finger test" in surest_next(make_plan(wrapped).plan)
    # by count the thickness is out by 15 %, its tablets by 30 %, the picks by (3.5 - 2.2) / 2.8 / 2
    plain = yarn(diameter=None, count=Count("100 tex", 100.0, "tex"))
    assert surest_next(make_plan(project(yarns=(plain,))).plan).startswith("thickness")


def test_the_worst_figure_is_the_one_to_measure(project, yarn):
    known = project(
        sample=Sample(Reading(1.6, 1.5, 1.7), None, PicksOver(40, 50.0), 1.08),
        yarns=(yarn(diameter=None, wraps=2.5, count=Count("100 tex", 100.0, "tex")),),
    )
    assert "finger test" in surest_next(make_plan(known).plan)  # wraps: 10 % either way
    rough = replace(known, sample=None)
    assert "count the picks" in surest_next(make_plan(rough).plan)  # 2.2 to 3.5 d: 23 %


def test_amounts_in_words_are_read_back_here():
    assert amounts(f"about {written(283.4)}, not {written(6200)}") == [283, 6200]
