"""Amounts of yarn, letters and sessions, by arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.model.values import Amount, Count, PutUp
from sheetgen.plan.figure import Ledger
from sheetgen.plan.materials import YarnUse, fit_sessions, give_letters
from sheetgen.plan.yarn import measure_yarn


def use_of(yarn, by_use, reserve=0.10):
    return YarnUse(measure_yarn(yarn, Ledger()), "M", 0, tuple(by_use.items()), reserve)


def test_mass_is_tex_times_length(yarn):
    use = use_of(yarn(count=Count("100 tex", 100.0, "tex")), {"warp": 700_000.0, "weft": 300_000.0})
    assert use.used == 1_000_000  # geometry: a kilometre
    assert use.mass_of(use.used) == pytest.approx(100)  # geometry: tex is g per km
    assert use.mass_wanted == pytest.approx(110)


@pytest.mark.parametrize(("metres", "balls"), [(190, 1), (191, 2), (381, 2), (0.001, 1)])
def test_balls_are_whole(yarn, metres, balls):
    sold = yarn(put_up=PutUp(50.0, 210_000.0))
    # geometry: with a tenth more, 190.9 m is the most that one ball of 210 m gives
    assert use_of(sold, {"warp": metres * 1000.0}).put_ups == balls
    assert use_of(yarn(), {"warp": 1.0}).put_ups is None


def test_what_is_at_hand(yarn):
    count = Count("100 tex", 100.0, "tex")
    by_mass = use_of(yarn(count=count, at_hand=Amount(mass=35.0)), {"warp": 1.0})
    assert by_mass.at_hand == pytest.approx(350_000)  # geometry: 35 g of 100 g per km
    assert use_of(yarn(at_hand=Amount(length=5000.0)), {"warp": 1.0}).at_hand == 5000.0
    assert use_of(yarn(), {"warp": 1.0}).at_hand is None


@given(
    st.lists(st.text("abcdefgh rsx", min_size=1, max_size=6), max_size=40, unique=True),
    st.integers(2, 8),
)
def test_letters_are_never_given_twice(names, holes):
    taken = "ABCDEFGH"[:holes]
    letters = give_letters(names, {}, taken)
    assert len(set(letters.values())) == len(names) == len(letters)
    assert not set(letters.values()) & set(taken)


def test_letters_of_the_name_first():
    assert give_letters(["madder", "weld", "moss"], {"weld": "Y"}, "ABCD") == {
        "weld": "Y",
        "madder": "M",
        "moss": "Mo",
    }
    assert give_letters(["brown", "blue"], {}, "ABCD") == {"brown": "Br", "blue": "Bl"}


def test_sessions_by_hand():
    # geometry: 2 h at 5 a minute are 600 picks, half an hour 150
    pauses = fit_sessions([("morning", 120), ("noon", 30), ("evening", 60)], 700, 5.0)
    assert [(p.picks, p.done) for p in pauses] == [(600, False), (700, True), (700, True)]
    # and the 100 picks left at noon take 20 min
    assert [p.used for p in pauses] == pytest.approx([120, 20, 0])


@given(st.lists(st.floats(1, 500), max_size=6), st.integers(1, 5000), st.floats(0.1, 60))
def test_sessions_only_go_on(lengths, picks, pace):
    pauses = fit_sessions([("s", mins) for mins in lengths], picks, pace)
    reached = [p.picks for p in pauses]
    assert reached == sorted(reached)
    assert all(0 <= p <= picks for p in reached)
    for n, pause in enumerate(pauses, start=1):
        assert pause.picks <= sum(lengths[:n]) * pace + 1e-6
    # geometry: the minutes used are those of the work, or all there are
    assert sum(p.used for p in pauses) == pytest.approx(min(sum(lengths), picks / pace))
