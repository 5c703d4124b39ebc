"""The ledger of figures."""

import pytest

from sheetgen.plan.figure import Ledger


def test_a_key_is_entered_once():
    ledger = Ledger()
    ledger.enter("a", "a", 1.0, "mm", "stated", "as described")
    with pytest.raises(ValueError, match="twice"):
        ledger.enter("a", "again", 2.0, "mm", "stated", "as described")


def test_order_and_ranges():
    ledger = Ledger()
    plain = ledger.enter("b", "b", 4.0, "mm", "stated", "as described")
    wide = ledger.enter("a", "a", -4.0, "mm", "computed", "x", between=(-5.0, -3.0))
    assert list(ledger) == ["b", "a"]
    assert (plain.has_range, plain.spread) == (False, 0.0)
    assert wide.has_range
    assert wide.spread == pytest.approx(0.25)  # geometry: 1 of 4 either way


def test_a_rule_of_thumb_is_handed_on():
    """A rule shows in every figure worked out from it, however far on; not in what is stated."""
    ledger = Ledger()
    ledger.enter("rule", "rule", 1.0, "mm", "rule of thumb", "x")
    ledger.enter("known", "known", 1.0, "mm", "measured", "x")
    first = ledger.enter("first", "first", 1.0, "mm", "computed", "x", rests_on=("known", "rule"))
    second = ledger.enter("second", "second", 1.0, "mm", "computed", "x", rests_on=("first",))
    clean = ledger.enter("clean", "clean", 1.0, "mm", "computed", "x", rests_on=("known",))
    stated = ledger.enter("stated", "stated", 1.0, "mm", "stated", "x", rests_on=("rule",))
    assert [f.rests_on_rule for f in (first, second, clean, stated)] == [True, True, False, False]
    with pytest.raises(KeyError):
        ledger.enter("early", "early", 1.0, "mm", "computed", "x", rests_on=("late",))
