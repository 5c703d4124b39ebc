"""What measured pieces teach, held against a truth that is known because it was made up."""

import math
import statistics
from dataclasses import replace

import numpy as np
import pytest

from sheetgen.model.pack import Tablets
from sheetgen.model.project import Find, Sample
from sheetgen.model.values import Count, PicksOver, Reading
from sheetgen.plan.learning import Learning, MadePiece, settle
from sheetgen.plan.planner import make_plan

TRUTH = {"pick_spacing": 3.15, "cord_thickness": 1.14, "take_up": 1.03, "pace": 4.4}
"""What the invented hand makes of the invented yarn; spacing in yarn diameters."""
NOISE = 0.05
"""Standard deviation of one piece, as a share."""
NOISE_OF_TAKE_UP = 0.01
"""The same of take-up, the quotient of two lengths of half a metre taken with a tape."""


@pytest.fixture(scope="module")
def new(project, yarn):
    """A piece to be planned from a count alone, so that nothing is measured yet."""
    wool = yarn(diameter=None, count=Count("20/2 Nm", 100.0, "Nm", 2), preparation="worsted")
    return project(yarns=(wool,), tablets=Tablets(number=6))


@pytest.fixture(scope="module")
def key(new):
    plan = make_plan(new).plan
    return plan.use("madder").figures.key


def made(key, number, rng):
    """Pieces of one yarn as measured: the truth times a log-normal slip of the hand."""
    return [
        MadePiece(
            f"SW-{i:03}",
            key,
            {
                what: true
                * math.exp(rng.normal(0, NOISE_OF_TAKE_UP if what == "take_up" else NOISE))
                for what, true in TRUTH.items()
            },
        )
        for i in range(1, number + 1)
    ]


def errors(new, key, pieces):
    """How far the figures of the plan are off the truth, as shares."""
    plan = make_plan(new, Learning(tuple(pieces))).plan
    bare = make_plan(new).plan.figures
    d = bare["warp_diameter"].value
    spacing = TRUTH["pick_spacing"] * d
    helix = make_plan(new_with_spacing(new, spacing)).plan.figures["take_up"].value
    truths = {
        "pick_spacing": spacing,
        "picks": 280.0 / spacing,
        "thickness": TRUTH["cord_thickness"] * bare["thickness"].value,
        "take_up": TRUTH["take_up"] * helix,
        "weaving_time": 280.0 / spacing / TRUTH["pace"],
    }
    return {what: abs(math.log(plan.figures[what].value / true)) for what, true in truths.items()}


def new_with_spacing(new, spacing):
    return replace(new, sample=Sample(picks=PicksOver(1000, 1000 * spacing)))


@pytest.fixture(scope="module")
def course(new, key):
    """Errors of 40 weavers' plans after 0, 1, 4, 16 and 64 pieces: {n: {figure: [errors]}}."""
    found = {}
    for n in (0, 1, 4, 16, 64):
        told = [errors(new, key, made(key, n, np.random.default_rng([7, i]))) for i in range(40)]
        found[n] = {what: np.array([t[what] for t in told]) for what in told[0]}
    return found


@pytest.mark.parametrize("what", ["pick_spacing", "picks", "thickness", "take_up", "weaving_time"])
def test_the_error_of_a_new_plan_falls_as_pieces_are_added(course, what):
    """Each step is smaller by more than three standard errors of the paired difference.

    A chance of one in a thousand a step if nothing were learned (normal table)."""
    for few, more in ((0, 4), (1, 16), (4, 64)):
        gain = course[few][what] - course[more][what]
        assert gain.mean() > 3 * gain.std(ddof=1) / math.sqrt(len(gain)), (what, few, more)


def test_the_error_falls_as_that_of_a_median_does(course):
    """The median of n normal values is out by 1.2533 s / sqrt(n) for large n (Kendall and Stuart,
    The Advanced Theory of Statistics; from memory), half a normal's mean distance being
    sqrt(2 / pi). The bounds are wide: 40 weavers know a mean distance to 12 %."""
    for n in (16, 64):
        expected = 1.2533 * NOISE / math.sqrt(n) * math.sqrt(2 / math.pi)
        assert 0.6 * expected < course[n]["pick_spacing"].mean() < 1.5 * expected


def test_gross_slips_do_not_spoil_it(new, key):
    """One piece in eight is written down ten times too large; the mean would be out by more
    than half, the plan stays within three standard errors of the median."""
    off = []
    for seed in range(20):
        pieces = made(key, 24, np.random.default_rng([11, seed]))
        wrong = {p.name for p in pieces[::8]}
        pieces = [
            MadePiece(p.name, p.yarn, {w: v * 10 for w, v in p.tells.items()})
            if p.name in wrong
            else p
            for p in pieces
        ]
        lesson = Learning(tuple(pieces)).about("pick_spacing", key)
        assert wrong <= set(lesson.left_out)
        assert not wrong & set(lesson.pieces)
        mean = statistics.mean(p.tells["pick_spacing"] for p in pieces)
        assert mean > 1.5 * TRUTH["pick_spacing"]
        off.append(errors(new, key, pieces)["pick_spacing"])
    assert statistics.mean(off) < 3 * 1.2533 * NOISE / math.sqrt(21)


def test_few_good_pieces_are_left_out():
    """For normal values 0.05 % lie beyond 3.5 standard deviations (normal table); the MAD of ten
    is rough, so that more do, but not one in twenty."""
    rng = np.random.default_rng(3)
    left = sum(
        len(settle({str(i): v for i, v in enumerate(rng.normal(2.8, 0.1, 10))}, "pick_spacing")[1])
        for _ in range(400)
    )
    assert left < 4000 / 20


def test_a_worked_outlier():
    """By hand: median 2.8, distances 0.1 0 0.1 0 2.2, MAD 0.1; 0.6745 * 2.2 / 0.1 = 14.8 > 3.5."""
    values = {"a": 2.7, "b": 2.8, "c": 2.9, "d": 2.8, "e": 5.0}
    assert settle(values, "pick_spacing") == (("a", "b", "c", "d"), ("e",))


def test_pieces_that_agree_to_the_last_digit_do_not_throw_out_the_next():
    """Without a floor the MAD would be 0, and 2.85 beside four times 2.8 infinitely far."""
    values = {"a": 2.8, "b": 2.8, "c": 2.8, "d": 2.8, "e": 2.85}
    assert settle(values, "pick_spacing") == (tuple("abcde"), ())


def test_one_single_piece_gives_its_value_and_keeps_the_range_of_the_rule(new, key):
    one = MadePiece("SW-001", key, {"pick_spacing": 3.0})
    bare, plan = make_plan(new).plan.figures, make_plan(new, Learning((one,))).plan
    figure, d = plan.figures["pick_spacing"], bare["warp_diameter"].value
    assert figure.value == pytest.approx(3.0 * d)
    assert (figure.low, figure.high) == (bare["pick_spacing"].low, bare["pick_spacing"].high)
    assert figure.origin == "measured"
    assert "1 piece of madder: SW-001" in figure.working
    assert figure.next_measure


def test_one_single_piece_beyond_the_range_widens_it(new, key):
    one = MadePiece("SW-001", key, {"pick_spacing": 4.0})
    figure = make_plan(new, Learning((one,))).plan.figures["pick_spacing"]
    assert figure.high == figure.value


@pytest.mark.parametrize("slip", [30.0, 0.3])
def test_one_single_piece_that_no_hand_can_have_made_teaches_nothing(new, key, slip):
    one = MadePiece("SW-001", key, {"pick_spacing": slip})
    bare, plan = make_plan(new).plan, make_plan(new, Learning((one,))).plan
    assert plan.figures["pick_spacing"] == bare.figures["pick_spacing"]
    assert not plan.lessons


def test_a_take_up_read_off_half_the_left_over_warp_teaches_nothing(new, key):
    """50 cm woven of 90 cm with 35 cm left is × 1.1; with one of two tails forgotten, × 1.45."""
    one = MadePiece("SW-001", key, {"take_up": 1.45 / 1.05})
    assert not make_plan(new, Learning((one,))).plan.lessons


def test_from_five_pieces_on_their_own_range_stands(new, key):
    pieces = [MadePiece(str(i), key, {"pick_spacing": 3.0 + i / 100}) for i in range(5)]
    bare = make_plan(new).plan.figures["pick_spacing"]
    four, five = (
        make_plan(new, Learning(tuple(pieces[:n]))).plan.figures["pick_spacing"] for n in (4, 5)
    )
    assert (four.low, four.high) == (bare.low, bare.high)
    d = make_plan(new).plan.figures["warp_diameter"].value
    assert (five.low, five.high) == pytest.approx((3.0 * d, 3.04 * d))
    assert not five.next_measure


def test_the_nearest_pieces_are_asked(key):
    other = key._replace(name="weld")
    stranger = key._replace(name="flax", fibre="linen")
    tells = [(stranger, 2.4), (other, 2.9), (key, 3.1)]
    pieces = [MadePiece(str(i), k, {"pick_spacing": v}) for i, (k, v) in enumerate(tells)]
    told = [Learning(tuple(pieces[:n])).about("pick_spacing", key) for n in (1, 2, 3)]
    assert [(t.among, t.value) for t in told] == [("all", 2.4), ("fibre", 2.9), ("yarn", 3.1)]


@pytest.mark.parametrize("change", [{"tex": 60.0}, {"fibre": "silk"}, {"diameter": 0.9}])
def test_a_yarn_of_the_same_name_only_is_not_the_same(key, change):
    piece = MadePiece("1", key._replace(**change), {"pick_spacing": 3.0})
    assert Learning((piece,)).about("pick_spacing", key).among != "yarn"


def test_a_sample_and_what_is_stated_outrank_past_pieces(new, key):
    sample = Sample(Reading(3.0, 3.0, 3.0), picks=PicksOver(40, 40.0), take_up=1.2)
    described = replace(new, sample=sample, pace=9.0)
    learning = Learning(tuple(made(key, 8, np.random.default_rng(1))))
    assert make_plan(described, learning) == make_plan(described)


def test_tablets_are_chosen_by_the_cords_of_the_past(new, key):
    """Cords that come out 20 % thicker than pressed need about 1.2² fewer ends (geometry)."""
    find = Find("an invented cord", thickness=Reading(6.0, 6.0, 6.0))
    wanted = replace(new, tablets=Tablets(), find=find)
    pieces = [MadePiece(str(i), key, {"cord_thickness": 1.2}) for i in range(6)]
    bare, plan = make_plan(wanted).plan, make_plan(wanted, Learning(tuple(pieces))).plan
    fewer = len(bare.pack.tablets) / len(plan.pack.tablets)
    assert fewer == pytest.approx(1.44, rel=0.1)
    assert plan.figures["thickness"].value == pytest.approx(6.0, rel=0.05)
    assert plan.verdict.best_tablets == len(plan.pack.tablets)


def test_the_version_tells_what_was_learned(new, key):
    new = replace(new, digest="1a2b3c4d")
    pieces = made(key, 6, np.random.default_rng(1))
    bare, some, again, more = (
        make_plan(new, learning).plan.project.digest
        for learning in (
            None,
            Learning(tuple(pieces[:5])),
            Learning(tuple(pieces[:5])),
            Learning(tuple(pieces)),
        )
    )
    assert bare == "1a2b3c4d"
    assert some == again
    assert some.startswith("1a2b3c4d+")
    assert more not in (bare, some)


def test_pieces_that_teach_nothing_leave_the_plan_as_it_is(new, key):
    assert make_plan(new, Learning(())) == make_plan(new)
