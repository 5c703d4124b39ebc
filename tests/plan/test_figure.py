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
