"""What stands on paper, read back: the written figure must be the value to within its rounding."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen import amounts
from sheetgen.units import quantity


@pytest.mark.parametrize(
    ("mm", "metric", "imperial"),
    [
        (25.4, "25.4 mm", "1 in"),  # geometry: 1 in
        (9.525, "9.53 mm", "0.375 in"),  # geometry: 3/8 in; small sizes in decimals
        (38.1, "38.1 mm", "1 1/2 in"),  # geometry
        (914.4, "91.4 cm", "36 in"),  # geometry: a yard
        (9144.0, "9.14 m", "10 yd"),  # geometry
        (0.0, "0 mm", "0 in"),
        (280.0, "28 cm", "11 in"),  # geometry: 11.02 in, nearest sixteenth
    ],
)
def test_lengths(mm, metric, imperial):
    assert amounts.length(mm) == metric
    assert amounts.length(mm, "inches") == imperial
    both = amounts.length(mm, "both")
    assert both.startswith(metric)
    assert imperial in both.removeprefix(metric)


@given(st.floats(0.05, 49_000))
def test_metric_lengths_read_back(mm):
    """Never further off than half of the last place: 3 figures or so, 0.5 % of the value."""
    assert quantity(amounts.length(mm), "length") == pytest.approx(mm, rel=0.005, abs=0.0051)


@given(st.floats(0.5 * 25.4, 49_000))
def test_inches_read_back_to_a_sixteenth(mm):
    """32nds of an inch at most, or half of a hundredth of a yard above ten feet."""
    back = quantity(amounts.length(mm, "inches"), "length")
    assert abs(back - mm) <= max(25.4 / 32, 0.005 * 914.4 if mm >= 118 * 25.4 else 0) + 1e-6


@given(st.floats(0.5 * 25.4, 3000))
def test_fractions_of_an_inch_are_in_lowest_terms(mm):
    for above, below in re.findall(r"(\d+)/(\d+)", amounts.length(mm, "inches")):
        assert Fraction(int(above), int(below)).denominator == int(below)


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [(2.5, 0, "3"), (0.125, 2, "0.13"), (1.10, 2, "1.1"), (-0.4, 0, "0"), (-1.5, 1, "−1.5")],
)
def test_plain(value, places, text):
    assert amounts.plain(value, places) == text  # halves up, no idle noughts, no minus nought


def test_mass():
    assert amounts.mass(28.349523125, "inches") == "1 oz"  # published: 1 lb / 16
    both = amounts.mass(453.59237, "both")
    assert both.startswith("454 g")  # published: the pound
    assert "16 oz" in both
    assert amounts.mass(0.01) == "under 0.1 g"
    assert amounts.mass(0.0) == "0 g"


@given(st.floats(0, 100_000))
def test_minutes_read_back(value):
    """To the minute below an hour, to five minutes above."""
    text = amounts.minutes(value)
    hours = re.search(r"(\d+) h", text)
    mins = re.search(r"(\d+) min", text)
    back = 60 * int(hours[1] if hours else 0) + int(mins[1] if mins else 0)
    assert abs(back - value) <= (0.51 if back < 60 else 2.51)
    assert not mins or not hours or int(mins[1]) < 60


def test_rates_and_shares():
    assert amounts.per_length(1.6) == "16 per cm"  # geometry
    assert amounts.per_length(40 / 25.4, "inches") == "40 per in"  # geometry
    assert amounts.percent(0.08) == "+8 %"
    assert amounts.percent(-0.08) == "−8 %"
    assert amounts.percent(0.001) == "0 %"


@given(st.floats(1e-4, 1e6))
def test_significant_keeps_three_figures_and_never_powers(value):
    text = amounts.significant(value)
    assert re.fullmatch(r"\d+(\.\d+)?", text)
    assert float(text) == pytest.approx(value, rel=0.005, abs=5.1e-7)
