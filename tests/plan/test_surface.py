"""The surface over random packs and plans: what must hold whatever is threaded and turned."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.turning import Flip, Move, Turns
from sheetgen.plan.pack import Pack, Tablet
from sheetgen.plan.surface import (
    effective_turns,
    history,
    surface,
    tablet_column,
    top_holes,
    turned_slant,
)
from sheetgen.plan.turning import unroll


@st.composite
def packs(draw):
    holes = draw(st.integers(2, 8))
    count = draw(st.integers(1, 6))
    yarns = st.sampled_from(["red", "white", "blue", None])
    return Pack(
        tuple(
            Tablet(
                n + 1,
                draw(st.sampled_from("SZ")),
                tuple(draw(yarns) for _ in range(holes)),
                draw(st.sampled_from(["", "edge"])),
            )
            for n in range(count)
        ),
        holes,
    )


MOTION = st.sampled_from(["forward", "backward", "idle"])
STEP = st.one_of(
    st.builds(
        lambda n, a, b: Turns(n, (Move("edge", a), Move("rest", b))),
        st.integers(1, 6),
        MOTION,
        MOTION,
    ),
    st.sampled_from([Flip(), Flip(("edge",))]),
)
PLANS = st.lists(STEP, max_size=6).map(lambda s: (*s, Turns(3, (Move("", "forward"),))))
FLIPS = st.lists(st.integers(1, 59), max_size=4, unique=True).map(sorted)


@given(packs(), PLANS, FLIPS)
def test_the_thread_on_top_really_was_on_top(pack, steps, flips_at):
    """Letters of the near top before and after each pick, walked with a ring of letters."""
    picks = 60
    stretches = unroll(steps, list(pack.groups), picks)
    cells = surface(pack, stretches, flips_at, picks)
    courses = list(pack.groups)
    for i, tablet in enumerate(pack.tablets):
        course = courses.index(tablet.group)
        ring = list(range(pack.holes))  # near top first, then as forward turns bring them there
        own = {s.first for s in stretches if course in s.flips}
        motions = {p: s.motions[course] for s in stretches for p in range(s.first, s.last)}
        for pick in range(picks):
            for flip in (pick in own, pick in flips_at):
                if flip:  # the far top, the last in the ring, becomes the near top; order turns
                    ring = ring[::-1]
            if motions[pick] == "forward":
                assert cells[i][pick].hole == ring[0]
                ring = ring[1:] + ring[:1]
            elif motions[pick] == "backward":
                assert cells[i][pick].hole == ring[-1]
                ring = ring[-1:] + ring[:-1]
            else:
                assert cells[i][pick].slant == "none"
            assert cells[i][pick].yarn == tablet.holes[cells[i][pick].hole]
            if pick + 1 not in own and pick + 1 not in flips_at:
                assert top_holes(pack, stretches, flips_at, pick + 1)[i] == ring[0]


@given(packs(), st.integers(1, 5))
def test_forward_only_repeats_every_turn_of_the_tablet(pack, rounds):
    picks = pack.holes * (rounds + 1)
    cells = surface(pack, unroll((), list(pack.groups), picks), (), picks)
    for column in cells:
        assert column[pack.holes :] == column[: -pack.holes]


@given(packs(), st.integers(1, 30), st.integers(0, 20))
def test_flip_then_forward_equals_backward(pack, picks, before):
    """The whole pack flipped after some picks: the surface is that of turning back."""
    courses = list(pack.groups)
    ahead = (Turns(before, (Move("", "forward"),)),) if before else ()
    total = before + picks
    back = unroll((*ahead, Turns(picks, (Move("", "backward"),))), courses, total)
    flip = unroll((*ahead, Flip(), Turns(picks, (Move("", "forward"),))), courses, total)
    plain = unroll((Turns(total, (Move("", "forward"),)),), courses, total)
    expected = surface(pack, back, (), total)
    assert surface(pack, flip, (), total) == expected
    assert surface(pack, plain, (before,), total) == expected


@given(packs(), PLANS, FLIPS)
def test_threading_mirrored_swaps_every_slant_and_nothing_else(pack, steps, flips_at):
    other = {"S": "Z", "Z": "S", "none": "none"}
    mirrored = Pack(
        tuple(Tablet(t.number, other[t.threaded], t.holes, t.group) for t in pack.tablets),
        pack.holes,
    )
    stretches = unroll(steps, list(pack.groups), 40)
    one, two = (surface(p, stretches, flips_at, 40) for p in (pack, mirrored))
    for a, b in zip(one, two, strict=True):
        assert [(c.hole, c.yarn, other[c.slant]) for c in a] == [
            (c.hole, c.yarn, c.slant) for c in b
        ]


@given(packs(), st.integers(0, 40))
def test_letters_come_to_the_near_top_in_order(pack, pick):
    stretches = unroll((), list(pack.groups), 40)
    # the convention of the terms page: forward turns bring A, B, C... to the near top
    assert top_holes(pack, stretches, (), pick) == [pick % pack.holes] * len(pack.tablets)


@given(packs(), PLANS, FLIPS, st.integers(0, 30), st.integers(0, 30))
def test_part_of_the_turns_is_part_of_all(pack, steps, flips_at, first, more):
    stretches = unroll(steps, list(pack.groups), 60)
    for course in range(len(pack.groups)):
        whole = list(effective_turns(stretches, course, flips_at, 0, 60))
        part = list(effective_turns(stretches, course, flips_at, first, first + more))
        assert part == whole[first : first + more]


@pytest.mark.parametrize(
    ("threaded", "turn", "hand"),
    # the terms page: S-threaded turned forward gives Z, Z-threaded S; backward the opposite
    [("S", 1, "Z"), ("Z", 1, "S"), ("S", -1, "S"), ("Z", -1, "Z"), ("S", 0, "none")],
)
def test_slants(threaded, turn, hand):
    assert turned_slant(threaded, turn) == hand


def test_turning_back_shows_the_same_thread_twice():
    tablet = Tablet(1, "S", ("a", "b", "c", "d"))
    cells = tablet_column(tablet, [1, 1, -1, -1, 0])
    # worked by hand on a card with four letters
    assert [c.yarn for c in cells] == ["a", "b", "b", "a", "a"]


@given(packs(), PLANS, FLIPS, FLIPS)
def test_history_of_every_tablet_walked_by_hand(pack, steps, flips_at, lets_out):
    """Hole on top and twist, with a ring of letters and a turn added or taken at each pick."""
    picks = 60
    stretches = unroll(steps, list(pack.groups), picks)
    courses = list(pack.groups)
    for tablet in pack.tablets:
        course = courses.index(tablet.group)
        ring, hand, twist = list(range(pack.holes)), 1, 0
        own = {s.first for s in stretches if course in s.flips}
        motions = [s.motions[course] for s in stretches for _ in range(s.picks)]

        def flip(pick, own=own):
            return (pick in own) != (pick in flips_at)

        states = list(history(pack, tablet, stretches, flips_at, lets_out))
        assert len(states) == picks
        if flip(0):
            ring, hand = ring[::-1], -hand
        for pick, (motion, state) in enumerate(zip(motions, states, strict=True), start=1):
            if motion == "forward":
                ring, twist = [*ring[1:], ring[0]], twist + hand
            elif motion == "backward":
                ring, twist = [ring[-1], *ring[:-1]], twist - hand
            if pick in lets_out:
                twist = 0
            if flip(pick):  # near and far change places, and with them the way the letters run
                ring, hand = ring[::-1], -hand
            assert (state.top, state.twist) == (ring[0], twist / pack.holes)
