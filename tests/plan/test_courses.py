"""Tablets that a step singles out, against what each tablet is told one by one."""

from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.pack import Group, Tablets
from sheetgen.model.turning import Flip, Move, Repeat, Turns
from sheetgen.plan.courses import by_course, written_numbers
from sheetgen.plan.turning import unroll

PACK = Tablets(number=8, groups=(Group("edge", (1, 2, 7, 8)),))


def told(steps, picks):
    """Tablet -> its motions pick by pick, with an f where it is flipped first."""
    groups, rewritten = by_course(PACK, steps, 8)
    names = {n: g.name for g in groups for n in g.tablets}
    courses = list(dict.fromkeys(names.get(n, "") for n in range(1, 9)))
    motions = {n: [] for n in range(1, 9)}
    for stretch in unroll(rewritten, courses, picks):
        for n, done in motions.items():
            course = courses.index(names.get(n, ""))
            flip = "f" if course in stretch.flips else ""
            done += [flip + stretch.motions[course][0]] + [stretch.motions[course][0]] * (
                stretch.picks - 1
            )
    return {n: "".join(done) for n, done in motions.items()}


def test_a_tablets_own_move_outranks_its_groups():
    steps = (
        Turns(2, (Move("edge", "forward"), Move("7", "idle", (7,)), Move("rest", "backward"))),
        Turns(1, (Move("", "forward"),)),
    )
    result = told(steps, 3)
    # worked by hand from the rule
    assert {n: result[n] for n in (1, 2, 8)} == dict.fromkeys((1, 2, 8), "fff")
    assert result[7] == "iif"
    assert {n: result[n] for n in (3, 4, 5, 6)} == dict.fromkeys((3, 4, 5, 6), "bbf")


def test_flip_of_single_tablets_inside_a_repeat():
    steps = (Repeat(2, (Turns(1, (Move("", "backward"),)), Flip((), (3, 8)))),)
    result = told(steps, 3)
    assert result[3] == result[8] == "b" + "fb" + "fb"
    assert result[1] == result[4] == "bbb"


def test_without_single_tablets_nothing_is_rewritten():
    steps = (Turns(4, (Move("edge", "forward"), Move("rest", "backward"))),)
    assert by_course(PACK, steps, 8) == (PACK.groups, steps)


SELECTION = st.sets(st.integers(1, 8), min_size=1, max_size=5).map(lambda s: tuple(sorted(s)))
MOTION = st.sampled_from(["forward", "backward", "idle"])


@given(st.lists(st.tuples(SELECTION, MOTION), max_size=4), MOTION, MOTION)
def test_every_tablet_does_what_was_last_said_of_it(singled, edge, rest):
    moves = (
        Move("edge", edge),
        *(Move(written_numbers(tablets), motion, tablets) for tablets, motion in singled),
        Move("rest", rest),
    )
    result = told((Turns(1, moves),), 1)
    for n in range(1, 9):
        wanted = edge if n in (1, 2, 7, 8) else rest
        for tablets, motion in singled:
            wanted = motion if n in tablets else wanted
        assert result[n] == wanted[0]
