"""Where flips and lettings-out stand, against exhaustive search and a walk pick by pick."""

import itertools

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sheetgen.model.turning import Flip, Move, Turns
from sheetgen.plan.interventions import (
    CHANGE_SIDE,
    KEEP_SIDE,
    LEAST,
    LET_OUT,
    UNTWISTED,
    least_twist_places,
    let_out_places,
    most_load,
    turns_at,
    untwisted_places,
    worst_load,
)
from sheetgen.plan.placing import place_between_passes, place_evenly
from sheetgen.plan.turning import SIGN, traces, unroll


def walk(turns, places, lets_out):
    """Twist after every pick, one by one, with interventions before the pick that follows them."""
    twist, sign, found = 0, 1, []
    for pick, turn in enumerate(turns):
        if pick in places:
            twist, sign = (0, sign) if lets_out else (twist, -sign)
        twist += sign * turn
        found.append(twist)
    return found


def most(turns, places, lets_out):
    return max(map(abs, walk(turns, places, lets_out)), default=0)


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("part", [1, 2])
def test_least_twist_by_trying_every_place(count, part):
    length = (2 * count + 1) * part  # whole picks, so that the formula's places can be tried
    tried = itertools.combinations(range(1, length), count)
    best = min(most([1] * length, places, False) for places in tried)
    own = most([1] * length, least_twist_places(length, count), False)
    assert own == best == part  # the design page: L / (2k + 1)


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("part", [1, 2])
def test_ends_untwisted_by_trying_every_place(count, part):
    length = 2 * count * part
    tried = itertools.combinations(range(1, length), count)
    ends = [p for p in tried if walk([1] * length, p, False)[-1] == 0]
    best = min(most([1] * length, places, False) for places in ends)
    own = untwisted_places(length, count)
    assert walk([1] * length, own, False)[-1] == 0
    assert most([1] * length, own, False) == best == part  # the design page: L / 2k


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("part", [1, 2])
def test_letting_out_by_trying_every_place(count, part):
    length = (count + 1) * part
    tried = itertools.combinations(range(1, length), count)
    best = min(most([1] * length, places, True) for places in tried)
    assert most([1] * length, let_out_places(length, count), True) == best == part


def test_one_flip_belongs_a_third_of_the_way_along():
    assert least_twist_places(300.0, 1) == pytest.approx((100.0,))  # common practice, no source


# A warp: mm still free at the start, mm less with every pick, full turns borne per mm.
WARPS = st.tuples(st.floats(30, 400), st.floats(0, 2), st.floats(0.005, 0.2))


def warp(numbers, picks):
    start, shrinks, limit = numbers
    shrinks = min(shrinks, start / max(picks, 1))
    return (lambda pick: start - shrinks * pick), limit


def share_at(twist, pick, holes, free, limit):
    """Less than one full turn is always borne (common practice, no source)."""
    return abs(twist) / holes / max(limit * free(pick), 1.0)


def test_the_most_twist_is_not_the_worst_share():
    """Arithmetic: one flip after 160 picks of 300, four holes: 160 turns there, 20 at the end.

    At 0.05 full turns per mm, 110 mm and 6.5 mm for every pick to come: 51 are borne at the flip,
    5.5 at the end.
    """
    traced = traces(unroll((), ("",), 300), 1)
    most, worst = (
        f(traced, 4, (160,), False, lambda pick: 110 + 6.5 * (300 - pick), 0.05)
        for f in (most_load, worst_load)
    )
    assert (most.turns, most.pick, most.share) == pytest.approx((40.0, 160, 40 / 51))
    assert (worst.turns, worst.pick, worst.share) == pytest.approx((5.0, 300, 5 / 5.5))
    assert turns_at(traced, 4, (160,), False) == {160: 40.0}
    # flips after 90 and 110 picks: 90 and 90 - 20 turns stand; let out instead, 90 and 20
    assert turns_at(traced, 4, (90, 110), False) == {90: 22.5, 110: 17.5}
    assert turns_at(traced, 4, (90, 110), True) == {90: 22.5, 110: 5.0}


@given(st.integers(20, 300), st.data(), st.integers(2, 6), st.booleans())
def test_turns_at_the_stops_walked(picks, data, holes, lets_out):
    """A plain plan walked pick by pick: what stands when a stop is reached, and the most of all."""
    places = sorted(data.draw(st.sets(st.integers(1, picks - 1), max_size=5)))
    traced = traces(unroll((), ("",), picks), 1)
    after = walk([1] * picks, places, lets_out)
    assert turns_at(traced, holes, places, lets_out) == pytest.approx(
        {p: abs(after[p - 1]) / holes for p in places}
    )
    most_there = most_load(traced, holes, places, lets_out, lambda _: 500.0, 0.04)
    assert most_there.turns == pytest.approx(max(map(abs, after)) / holes)
    assert abs(after[most_there.pick - 1]) / holes == pytest.approx(most_there.turns)


def turns_of(stretches, course):
    sign, found = 1, []
    for s in stretches:
        sign = -sign if course in s.flips else sign
        found += [sign * SIGN[s.motions[course]]] * s.picks
    return found


@st.composite
def patterns(draw, most_passes=9):
    """A list of steps over one or two courses, done again and again."""
    courses = draw(st.sampled_from([("",), ("edge", "")]))
    motion = st.sampled_from(["forward", "backward", "idle"])
    step = st.builds(
        lambda n, a, b: Turns(n, (Move("edge", a), Move("rest", b))),
        st.integers(1, 12),
        motion,
        motion,
    )
    steps = draw(st.lists(st.one_of(step, step, st.just(Flip())), min_size=1, max_size=4))
    steps = (*steps, draw(step))
    picks = sum(getattr(s, "picks", 0) for s in steps) * draw(st.integers(1, most_passes))
    return courses, unroll(steps, courses, picks), picks


@given(patterns(), WARPS, st.data(), st.integers(2, 6), st.booleans())
def test_worst_load_pick_by_pick(pattern, numbers, data, holes, lets_out):
    courses, stretches, picks = pattern
    free, limit = warp(numbers, picks)
    places = sorted(data.draw(st.sets(st.integers(1, max(1, picks - 1)), max_size=5)))
    expected = max(
        share_at(twist, pick, holes, free, limit)
        for course in range(len(courses))
        for pick, twist in enumerate(walk(turns_of(stretches, course), places, lets_out), start=1)
    )
    load = worst_load(traces(stretches, len(courses)), holes, places, lets_out, free, limit)
    assert load.share == pytest.approx(expected)
    if load.share:
        assert load.turns / max(limit * free(load.pick), 1.0) == pytest.approx(load.share)


def keeps(picks, places, lets_out, holes, free, limit):
    twists = enumerate(walk([1] * picks, places, lets_out), start=1)
    return all(share_at(t, p, holes, free, limit) <= 1 + 1e-9 for p, t in twists)


@given(
    st.integers(1, 15),
    st.sampled_from([KEEP_SIDE, CHANGE_SIDE, LET_OUT]),
    st.integers(1, 3),
    st.floats(1, 40),
    st.floats(0, 1),
)
def test_the_fewest_by_trying_all(picks, way, step, start, falls):
    """One way throughout: no smaller number of places, wherever they stand, keeps the limit.

    What is borne falls from ``start`` turns of the tablet to a part of it at the end; ``holes`` 1
    makes full turns of them, so that small plans need many places.
    """
    lets_out = way == LET_OUT
    borne = lambda pick: max(start * (1 - falls * pick / picks), 1.0)  # noqa: E731
    traced = traces(unroll((), ("",), picks), 1)
    places = place_evenly(traced, picks, 1, way, LEAST, borne, 1.0, step)
    options = range(step, picks, step)
    fewest = next(
        (
            k
            for k in range(len(options) + 1)
            for tried in itertools.combinations(options, k)
            if keeps(picks, tried, lets_out, 1, borne, 1.0)
        ),
        None,
    )
    assume(fewest is not None)  # steps of two or three picks may be too coarse for one turn
    assert all(p % step == 0 and 0 < p < picks for p in places)
    assert keeps(picks, places, lets_out, 1, borne, 1.0)
    assert len(places) == fewest


@given(st.integers(2, 13), st.floats(1, 12), st.floats(0, 1))
def test_the_fewest_that_leave_no_twist(picks, start, falls):
    borne = lambda pick: start * (1 - falls * pick / picks)  # noqa: E731
    traced = traces(unroll((), ("",), picks), 1)
    places = place_evenly(traced, picks, 1, KEEP_SIDE, UNTWISTED, borne, 1.0, 1)
    left = abs(walk([1] * picks, places, False)[-1])
    assert left <= 1  # geometry: an odd number of picks leaves one turn of a tablet
    assert keeps(picks, places, False, 1, borne, 1.0)
    options = range(1, picks)
    fewest = next(
        k
        for k in range(1, picks)
        for tried in itertools.combinations(options, k)
        if keeps(picks, tried, False, 1, borne, 1.0)
        and abs(walk([1] * picks, tried, False)[-1]) <= 1
    )
    assert len(places) <= fewest + 1


def test_even_places_where_the_warp_stays_long():
    """300 picks, 25 full turns of a four-hole tablet borne throughout: one flip, at a third."""
    traced = traces(unroll((), ("",), 300), 1)
    places = place_evenly(traced, 300, 4, KEEP_SIDE, LEAST, lambda _: 625.0, 0.04, 1)
    assert places == (100,)  # geometry: 100 picks are 25 turns; without a flip there are 75


def test_a_long_cord_needs_few_flips_early_on():
    """A warp that shrinks from 1.5 m to 30 cm: even places would be many more than needed."""
    picks, holes, limit = 1000, 4, 0.04
    free = lambda pick: 1500 - 1.2 * pick  # noqa: E731
    traced = traces(unroll((), ("",), picks), 1)
    places = place_evenly(traced, picks, holes, KEEP_SIDE, LEAST, free, limit, 4)
    even = next(
        k
        for k in range(1, 99)
        if worst_load(traced, holes, least_twist_places(picks, k), False, free, limit).share <= 1
    )
    assert len(places) < even / 2
    lengths = [b - a for a, b in itertools.pairwise((0, *places, picks))]
    assert lengths[1] > lengths[-2]  # closer together towards the end
    turned = walk([1] * picks, places, False)
    assert max(share_at(t, p, holes, free, limit) for p, t in enumerate(turned, 1)) <= 1


def test_nothing_to_do_where_nothing_turns(turns):
    idle = traces(unroll((turns(50, "idle"),), ("",), 50), 1)
    assert place_evenly(idle, 50, 4, KEEP_SIDE, UNTWISTED, lambda _: 1.0, 0.04, 1) == ()


@given(patterns(6), st.floats(30, 400), st.floats(0.005, 0.05), st.integers(2, 4))
def test_letting_out_between_passes_by_trying_all(pattern, length, limit, holes):
    """As few as any choice of beginnings that keeps the limit, for a warp that stays long."""
    courses, stretches, _picks = pattern
    free = lambda _: length  # noqa: E731
    traced = traces(stretches, len(courses))
    places = place_between_passes(traced, stretches, holes, LET_OUT, free, limit)
    starts = [s.first for s in stretches if s.pass_start and s.first]
    assert set(places) <= set(starts)

    def within(tried):
        return worst_load(traced, holes, tried, True, free, limit).share <= 1 + 1e-9

    tried = (t for k in range(len(starts) + 1) for t in itertools.combinations(starts, k))
    fewest = next((t for t in tried if within(t)), None)
    if fewest is not None:
        assert within(places)
        assert len(places) == len(fewest)


def test_no_letting_out_where_there_is_nothing_to_let_out(turns):
    """Forward and back again by more than is borne: too much twist, but none left between."""
    stretches = unroll((turns(100), turns(100, "backward")), ("",), 1000)
    traced = traces(stretches, 1)
    assert place_between_passes(traced, stretches, 4, LET_OUT, lambda _: 300.0, 0.04) == ()
    assert worst_load(traced, 4, (), True, lambda _: 300.0, 0.04).turns == 25  # geometry: 100 / 4


def test_letting_out_as_late_as_the_limit_allows(turns):
    """Eight forward, four back: a net turn a pass; 300 mm at 40 per m bear 12 turns, 48 picks."""
    stretches = unroll((turns(8), turns(4, "backward")), ("",), 360)
    traced = traces(stretches, 1)
    places = place_between_passes(traced, stretches, 4, LET_OUT, lambda _: 300.0, 0.04)
    # geometry: after n passes 4n are gathered, the next goes 8 above: 4n + 8 <= 48, n = 10, so
    # eleven passes of twelve picks go before the twist is let out
    assert places == (132, 264)
