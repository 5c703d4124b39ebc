"""Yarn diameters against the published rules of thumb, worked with their own constants."""

import math

import pytest

from sheetgen.model.values import Count, PutUp, Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.constants import FIBRE_DENSITY
from sheetgen.plan.figure import Ledger
from sheetgen.plan.yarn import (
    diameter_from_count,
    diameter_from_wraps,
    measure_yarn,
    packing_of,
    tex_from_diameter,
)

YARDS_PER_POUND = 496_054.65  # published, ASTM D2260: tex x (yd/lb)
NEC = 590.541  # published, ASTM D2260: tex x cotton count


def per_inch(tex, fibre, preparation=None):
    """Diameters per inch that the engine states for a yarn."""
    packing = packing_of(fibre, preparation).value
    return 25.4 / diameter_from_count(tex, FIBRE_DENSITY[fibre].value, packing)


@pytest.mark.parametrize("count", [10, 15, 36, 60, 120])
def test_peirce(count):
    # published: F. T. Peirce 1937, d = 1/(28 sqrt(Ne)) inch; his constant is rounded (0.3 %)
    assert per_inch(NEC / count, "cotton") == pytest.approx(28 * math.sqrt(count), rel=5e-3)


def test_peirce_36s():
    # published, Peirce 1937: 36s is 1/168 inch, 0.151 mm
    assert 25.4 / per_inch(NEC / 36, "cotton") == pytest.approx(0.151, abs=6e-4)


def test_specific_volume_of_a_cotton_yarn():
    # published, Peirce 1937: 1.1 cm3/g; geometry: area of the section (mm2) x 1 km = cm3
    d = diameter_from_count(20, FIBRE_DENSITY["cotton"].value, packing_of("cotton", None).value)
    assert math.pi / 4 * d**2 * 1000 / 20 == pytest.approx(1.1, rel=5e-3)


@pytest.mark.parametrize(
    ("count", "diameters"),
    # published: J. T. Taylor, Cotton Weaving and Designing, 6th ed., diameters per inch
    [(15, 106.5), (26, 140.5), (32, 156), (60, 213), (78, 243), (200, 390)],
)
def test_taylors_table(count, diameters):
    # Taylor's k is 0.95, Peirce's rule 28 is 0.966: they differ by 2 %, the engine lies between
    assert per_inch(NEC / count, "cotton") == pytest.approx(diameters, rel=0.025)


@pytest.mark.parametrize(
    ("fibre", "preparation", "low", "high"),
    # published: Ashenhurst's k in diameters per inch = k sqrt(yd/lb), as given by Taylor
    [("wool", "worsted", 0.89, 0.91), ("wool", "woollen", 0.84, 0.86)],
)
@pytest.mark.parametrize("yards", [560, 2400, 8960])
def test_ashenhurst(fibre, preparation, low, high, yards):
    k = per_inch(YARDS_PER_POUND / yards, fibre, preparation) / math.sqrt(yards)
    assert low <= k <= high


def test_eight_two_cotton_lies_in_the_range(yarn):
    # common practice: 8/2 cotton is 52 per inch by the rule with k = 0.9 (yd/lb = 4 x 840)
    cotton = yarn(diameter=None, fibre="cotton", count=Count("8/2 NeC", NEC / 4, "NeC", 2))
    figure = measure_yarn(cotton, Ledger()).diameter
    assert figure.low <= 25.4 / 52 <= figure.high
    assert (figure.low, figure.high) == pytest.approx((0.85 * figure.value, 1.15 * figure.value))


@pytest.mark.parametrize("fibre", sorted(FIBRE_DENSITY))
@pytest.mark.parametrize("preparation", [None, "worsted", "woollen", "line", "reeled"])
def test_the_mass_of_a_cylinder(fibre, preparation):
    """Geometry: packing x density x area x 1 km of the stated cylinder weighs the stated tex."""
    density, packing = FIBRE_DENSITY[fibre].value, packing_of(fibre, preparation).value
    d_cm = diameter_from_count(50, density, packing) / 10
    assert math.pi * (d_cm / 2) ** 2 * 100_000 * density * packing == pytest.approx(50)
    assert tex_from_diameter(10 * d_cm, density, packing) == pytest.approx(50)


def test_smooth_yarns_pack_closest_and_woollens_least():
    smooth = packing_of("silk", "reeled").value
    assert packing_of("linen", "line").value == smooth
    assert smooth > packing_of("silk", "spun").value > packing_of("wool", "woollen").value


def test_wraps():
    assert diameter_from_wraps(1.6) == pytest.approx(10 / 16)  # geometry: 16 lie in 10 mm


def test_the_best_known_thickness_is_used(yarn):
    count, put_up = Count("100 tex", 100.0, "tex"), PutUp(50.0, 210_000.0)
    everything = yarn(diameter=0.5, wraps=1.6, count=count, put_up=put_up)
    assert measure_yarn(everything, Ledger()).diameter.value == 0.5
    wrapped = measure_yarn(yarn(diameter=None, wraps=1.6, count=count), Ledger()).diameter
    assert (wrapped.value, wrapped.origin) == (0.625, "measured")  # geometry: 10 mm / 16
    assert wrapped.low < 0.625 < wrapped.high
    counted = measure_yarn(yarn(diameter=None, count=count), Ledger())
    assert (counted.diameter.origin, counted.tex.value) == ("computed", 100.0)
    sold = measure_yarn(yarn(put_up=put_up), Ledger())
    assert sold.tex.value == pytest.approx(1000 * 50 / 210)  # geometry: g per km
    found = Yarn("found", fibre="wool", diameter=Reading(0.4, 0.3, 0.5, sure=False))
    uncertain = measure_yarn(found, Ledger())
    assert (uncertain.diameter.low, uncertain.diameter.high) == (0.3, 0.5)
    assert uncertain.tex.low < uncertain.tex.value < uncertain.tex.high


@pytest.mark.parametrize(
    ("wraps", "low", "high"),
    # from memory: knitting wools of 350 to 250, 420 to 360 and 200 to 180 m per 100 g
    [(14, 300, 400), (18, 240, 280), (9, 500, 555)],
)
def test_soft_wool_lies_in_the_range_of_its_wraps(yarn, wraps, low, high):
    figure = measure_yarn(yarn(diameter=None, wraps=wraps / 25.4), Ledger()).tex
    assert figure.low <= low < high <= figure.high
    assert figure.origin == "rule of thumb"
    assert "weigh" in figure.next_measure


@pytest.mark.parametrize(("count", "wraps"), [(4, 33), (5, 40)])
def test_weaving_cotton_lies_in_the_range_of_its_wraps(yarn, count, wraps):
    # from memory: 8/2 and 10/2 cotton wrap to about 33 and 40 an inch
    cotton = yarn(diameter=None, fibre="cotton", wraps=wraps / 25.4)
    figure = measure_yarn(cotton, Ledger()).tex
    assert figure.low <= NEC / count <= figure.high
    assert figure.value == pytest.approx(NEC / count, rel=0.3)


@pytest.mark.parametrize("known", [{"wraps": 1.6}, {"diameter": 0.625}])
def test_no_yarn_is_denser_than_the_firm_one(yarn, known):
    """Geometry: the firmest yarn of 0.625 mm is 0.60 of a cylinder of fibre, 1.31 g/cm3."""
    figure = measure_yarn(yarn(**({"diameter": None} | known)), Ledger()).tex
    firm = math.pi / 4 * 0.0625**2 * 100_000 * 1.31 * 0.60
    assert figure.high == pytest.approx(firm)
    assert figure.low < figure.value < firm / 1.9
