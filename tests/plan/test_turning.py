"""Unrolling of turning steps and the twist they gather, against a walk pick by pick."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.turning import Flip, Move, Repeat, Turns
from sheetgen.plan.turning import Stretch, traces, turning_shares, turns_both_ways, unroll

COURSES = ("edge", "")
MOTIONS = st.sampled_from(["forward", "backward", "idle"])
MOVES = st.one_of(
    MOTIONS.map(lambda m: (Move("", m),)),
    st.tuples(MOTIONS, MOTIONS).map(lambda m: (Move("edge", m[0]), Move("rest", m[1]))),
    MOTIONS.map(lambda m: (Move("edge", m),)),
)
STEPS = st.recursive(
    st.one_of(
        st.builds(Turns, st.integers(1, 9), MOVES), st.sampled_from([Flip(), Flip(("edge",))])
    ),
    lambda inner: st.builds(
        Repeat, st.integers(1, 3), st.lists(inner, min_size=1, max_size=3).map(tuple)
    ),
    max_leaves=6,
)
PLANS = st.lists(STEPS, min_size=1, max_size=5).map(
    lambda steps: (*steps, Turns(2, (Move("", "forward"),)))
)


def walk(steps, picks):
    """Pick by pick, with lists laid out in full: the twist of each course after every pick."""
    signs, twist, found = dict.fromkeys(COURSES, 1), dict.fromkeys(COURSES, 0), []

    def do(steps):
        for step in steps:
            if isinstance(step, Repeat):
                for _ in range(step.times):
                    do(step.steps)
            elif isinstance(step, Flip):
                for course in step.groups or COURSES:
                    signs[course] = -signs[course]
            else:
                moves = {m.group: m.motion for m in step.moves}
                for _ in range(step.picks):
                    for course in COURSES:
                        motion = moves.get(course) if course else None
                        motion = motion or moves.get("rest") or moves.get("") or "idle"
                        way = {"forward": 1, "backward": -1, "idle": 0}[motion]
                        twist[course] += signs[course] * way
                    found.append(dict(twist))

    while len(found) < picks:
        do(steps)
    return found[:picks]


def at(trace, pick):
    """Twist on the line of the trace at a pick."""
    for i in range(1, len(trace.picks)):
        if pick <= trace.picks[i]:
            span = trace.picks[i] - trace.picks[i - 1]
            share = (pick - trace.picks[i - 1]) / span
            return trace.twist[i - 1] + share * (trace.twist[i] - trace.twist[i - 1])
    raise AssertionError(pick)


@given(PLANS, st.integers(1, 80))
def test_twist_of_every_course_at_every_pick(steps, picks):
    stretches = unroll(steps, COURSES, picks)
    found = traces(stretches, 2)
    for pick, expected in enumerate(walk(steps, picks), start=1):
        assert [at(t, pick) for t in found] == pytest.approx([expected[c] for c in COURSES])


@given(PLANS, st.integers(1, 80))
def test_stretches_follow_each_other(steps, picks):
    stretches = unroll(steps, COURSES, picks)
    assert stretches[0].first == 0
    assert stretches[-1].last == picks
    assert all(a.last == b.first for a, b in itertools.pairwise(stretches))
    assert all(s.picks > 0 for s in stretches)


@given(PLANS)
def test_a_plan_and_its_reverse_leave_no_twist(steps):
    other = {"forward": "backward", "backward": "forward", "idle": "idle"}

    def turned_over(step):
        if isinstance(step, Repeat):
            return Repeat(step.times, tuple(map(turned_over, step.steps[::-1])))
        if isinstance(step, Flip):
            return step
        return Turns(step.picks, tuple(Move(m.group, other[m.motion]) for m in step.moves))

    both = (*steps, *map(turned_over, steps[::-1]))
    picks = 2 * _picks(steps)
    # geometry: each turn undone in the opposite order, flips in between undone as well
    assert [t.twist[-1] for t in traces(unroll(both, COURSES, picks), 2)] == [0, 0]


def _picks(steps):
    return sum(
        s.times * _picks(s.steps) if isinstance(s, Repeat) else getattr(s, "picks", 0)
        for s in steps
    )


@given(st.integers(1, 40))
def test_flip_then_forward_is_backward(picks):
    flipped = unroll((Flip(), Turns(picks, (Move("", "forward"),))), COURSES, picks)
    backward = unroll((Turns(picks, (Move("", "backward"),)),), COURSES, picks)
    assert [t.twist for t in traces(flipped, 2)] == [t.twist for t in traces(backward, 2)]


def test_no_steps_are_forward_throughout():
    assert unroll((), ("",), 7) == (Stretch(0, 7, ("forward",), (), True),)


def test_steps_that_weave_nothing_are_a_bug():
    with pytest.raises(ValueError, match="weave nothing"):
        unroll((Flip(),), ("",), 5)


def test_flip_at_the_end_of_a_pass_comes_before_the_next():
    stretches = unroll((Turns(4, (Move("", "forward"),)), Flip()), ("",), 12)
    assert [s.flips for s in stretches] == [(), (0,), (0,)]
    assert [s.pass_start for s in stretches] == [True, True, True]
    assert traces(stretches, 1)[0].twist == (0, 4, 0, 4)  # geometry: there and back and there


def test_turning_share_and_pattern():
    steps = (
        Turns(3, (Move("edge", "forward"), Move("rest", "idle"))),
        Turns(1, (Move("", "idle"),)),
    )
    stretches = unroll(steps, COURSES, 8)
    assert turning_shares(stretches) == (0.75, 0.0)  # geometry: 6 of 8
    assert turns_both_ways(stretches)
    one_way = unroll((Turns(4, (Move("edge", "backward"), Move("rest", "forward"))),), COURSES, 40)
    assert not turns_both_ways(one_way)
