"""Reading of quantities and yarn counts against the published relations and pint's own units."""

import contextlib
from importlib.resources import files

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen import units
from sheetgen.units import QuantityError, linear_density, quantity, rate

# ASTM D2260 table 1 (published): constant = tex x count.
INDIRECT = {"Nm": 1000.0, "NeC": 590.541, "NeW": 885.812, "NeL": 1653.52}


@pytest.mark.parametrize("system", INDIRECT)
@pytest.mark.parametrize("count", [0.5, 4, 10, 20, 36, 80])
def test_indirect_counts(system, count):
    assert linear_density(count, system) * count == pytest.approx(
        INDIRECT[system], rel=4e-6
    )  # its last digit


def test_direct_counts():
    assert linear_density(900, "den") == pytest.approx(100)  # published, D2260: denier = 9 tex
    assert linear_density(900, "dtex") == pytest.approx(90)  # published, SI prefix deci


def test_yards_per_pound():
    # published, D2260: tex x (yd/lb) = 496 054.65; lea of 300 yd, hank of 560 and of 840 yd
    for system, hank in (("NeL", 300), ("NeW", 560), ("NeC", 840)):
        assert linear_density(7, system) * 7 * hank == pytest.approx(496_054.65, rel=1e-7)


def test_metres_per_hundred_grams():
    # published, D2260: m per 100 g = 100 Nm, so a yarn of Nm 4.2 has 420 m in 100 g
    assert linear_density(4.2, "Nm") == pytest.approx(100 / 0.420)  # g per km


@pytest.mark.parametrize(
    ("ends", "system", "resultant"),
    [
        ((80, 80), "NeC", 40),  # published, Brooks: 2/80s wraps 40s
        ((40, 20), "NeC", 13 + 1 / 3),  # published, Brooks
        ((40, 80, 120), "NeC", 21.81),  # published, Brooks
        ((8, 8), "NeC", 4),  # geometry: 8/2 cotton
        ((20, 20), "Nm", 10),  # geometry: 20/2 Nm
        ((16,) * 6, "NeC", 2.67),  # geometry: three ends of 16/2
    ],
)
def test_folded_yarns_add_up_in_tex(ends, system, resultant):
    tex = sum(linear_density(count, system) for count in ends)
    assert linear_density(resultant, system) == pytest.approx(tex, rel=2e-3)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ((10, "NeC"), (15, "NeW")),  # published, D2260: cotton 10 = worsted 15
        ((20, "NeC"), (30, "NeW")),  # published, C. P. Brooks, Cotton Manufacturing
        ((20, "NeC"), (56, "NeL")),  # published, Brooks
        ((19.7, "NeC"), (30, "tex")),  # published, D2260: 30 tex = cotton 19.7
    ],
)
def test_counts_that_are_the_same_yarn(one, other):
    assert linear_density(*one) == pytest.approx(linear_density(*other), rel=2e-3)


@pytest.mark.parametrize(
    ("system", "theirs"),
    [("NeC", "number_english"), ("Nm", "number_meter"), ("den", "denier"), ("dtex", "dtex")],
)
def test_second_opinion_of_pints_own_textile_units(system, theirs):
    default = pint.UnitRegistry()
    if system in ("den", "dtex"):
        tex = default.Quantity(24.0, theirs).to("tex").magnitude
    else:
        tex = (1 / default.Quantity(24.0, theirs)).to("tex").magnitude
    assert linear_density(24.0, system) == pytest.approx(tex, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        ("1 in", "length", 25.4),  # published: exact by the 1959 agreement
        ("1 yd", "length", 914.4),  # published: 0.9144 m exactly
        ("1 lb", "mass", 453.59237),  # published: exact
        ("16 oz", "mass", 453.59237),  # published: 16 oz to the pound
        ("1 ft 2 in", "length", 14 * 25.4),  # geometry: 14 inches
        ("1 ft 2 1/2 in", "length", 14.5 * 25.4),  # geometry
        ("3/8 in", "length", 9.525),  # geometry: 3 x 25.4 / 8
        ("1 3/8 in", "length", 34.925),  # geometry
        (" 2.5cm ", "length", 25.0),  # geometry
        ("1.5 h", "time", 90.0),  # geometry
        ("0.2 kg", "mass", 200.0),  # geometry
        ("1 m 20 cm", "length", 1200.0),  # geometry
        ("1½ m", "length", 1500.0),  # geometry
        ("1 1/2 m", "length", 1500.0),  # geometry
        ("⅛ in", "length", 3.175),  # geometry: 25.4 / 8
        ('32"', "length", 812.8),  # geometry: 32 x 25.4
        ("5' 6 1/2\"", "length", 66.5 * 25.4),  # geometry: 12 inches to the foot
        ("80 centimetres", "length", 800.0),  # geometry
        ("3 inches", "length", 76.2),  # geometry
        ("1 lb 8 oz", "mass", 1.5 * 453.59237),  # published: 16 oz to the pound
        ("2 h 30 min", "time", 150.0),  # geometry
        ("1.5 hours", "time", 90.0),  # geometry
        ("90 minutes", "time", 90.0),  # geometry
        ("2h", "time", 120.0),  # geometry
    ],
)
def test_quantities(text, dimension, expected):
    assert quantity(text, dimension) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "code"),
    [
        ("12", "length", "no-unit"),
        ("1/2", "length", "no-unit"),
        ("1,5 mm", "length", "comma"),
        ("-3 mm", "length", "negative"),
        ("5 g", "length", "wrong-dimension"),
        ("5 cm", "mass", "wrong-dimension"),
        ("5 furlong", "length", "unknown-unit"),
        ("5 Nm", "length", "unknown-unit"),
        ("5 MM", "length", "unknown-unit"),
        ("8/0 mm", "length", "not-a-number"),
        ("1e3 mm", "length", "not-a-quantity"),
        ("thick", "length", "not-a-quantity"),
        ("", "length", "not-a-quantity"),
        ("1 ft 2 in 3", "length", "not-a-quantity"),
        ("20 cm 1 m", "length", "not-a-quantity"),
        ("1 m 2 m", "length", "not-a-quantity"),
        ("1 m 5 g", "length", "wrong-dimension"),
    ],
)
def test_what_is_no_quantity(text, dimension, code):
    with pytest.raises(QuantityError) as caught:
        quantity(text, dimension)
    assert caught.value.code == code
    assert caught.value.hint


@pytest.mark.parametrize(
    ("text", "dimension", "hint"),
    [
        ("about 80 cm", "length", "write 80 cm"),
        ("~80 cm", "length", "write 80 cm"),
        ("“80 cm”", "length", "write 80 cm"),
        ("80 CM", "length", "in small letters: cm"),
        ("2", "time", "write 2 h or 2 min"),
    ],
)
def test_the_hint_is_what_to_write(text, dimension, hint):
    with pytest.raises(QuantityError) as caught:
        quantity(text, dimension)
    assert caught.value.hint == hint


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("14 wpi", "write 14 per in"),
        ("14 cm", "write 14 per cm"),
        ("14", "say in what length: 14 per cm or 14 per in"),
    ],
)
def test_the_hint_for_a_rate_is_what_to_write(text, hint):
    with pytest.raises(QuantityError) as caught:
        rate(text)
    assert caught.value.hint == hint


def test_rates():
    for text in ("14 per inch", "14 / in", "14/in", "14 per in"):
        assert rate(text) == pytest.approx(14 / 25.4)  # geometry
    assert rate("16 per cm") == pytest.approx(1.6)  # geometry
    assert rate("40 per in") == pytest.approx(40 / 25.4)  # geometry
    assert rate("40 per m") == pytest.approx(0.04)  # geometry
    for text in ("16", "16 cm", "16 per stone", "a per cm", "16 per"):
        with pytest.raises(QuantityError):
            rate(text)


def test_an_error_passes_through_a_context_manager():
    """A frozen exception cannot: the traceback is set on its way out."""

    @contextlib.contextmanager
    def room():
        yield

    with pytest.raises(QuantityError), room():
        quantity("5", "length")


@given(st.floats(0.01, 5000), st.sampled_from(["mm", "cm", "m", "in", "ft", "yd"]))
def test_lengths_agree_with_pints_default_registry(value, unit):
    expected = pint.Quantity(round(value, 3), unit).to("mm").magnitude
    assert quantity(f"{value:.3f} {unit}", "length") == pytest.approx(expected, rel=1e-9)


def test_the_factors_that_are_kept_are_what_pint_says_now():
    # a check of freshness: the figures themselves are held against ASTM D2260 above
    kept = files("sheetgen").joinpath("factors.txt").read_text(encoding="utf-8")
    assert kept == units.kept_factors(), "run python -m sheetgen.units"


def test_with_other_definitions_pint_is_asked(tmp_path, monkeypatch):
    for name in ("units.txt", "factors.txt"):
        text = files("sheetgen").joinpath(name).read_text(encoding="utf-8")
        (tmp_path / name).write_text(text.replace("inch = 25.4", "inch = 26"), encoding="utf-8")
    monkeypatch.setattr(units, "_file", lambda name: tmp_path / name)
    for cached in (units._kept, units.factor, units.registry):
        cached.cache_clear()
    try:
        assert units.factor("in", "mm") == pytest.approx(26)
    finally:
        for cached in (units._kept, units.factor, units.registry):
            cached.cache_clear()
