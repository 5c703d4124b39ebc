"""Cords and bands: packing, helix, finds, and the way back from a thickness."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.plan.cord import (
    cord_thickness,
    ends_for_thickness,
    helix_factor,
    mean_diameter,
    radius_ratio,
    tablets_for_thickness,
    take_up,
    weft_per_pick_of_tube,
)

# Published: E. Specht, packings of equal circles in a circle, table of 2014.
# fmt: off
SPECHT = [
    (1, 1.000000), (2, 2.000000), (3, 2.154701), (4, 2.414214), (5, 2.701302), (6, 3.000000),
    (7, 3.000000), (8, 3.304765), (9, 3.613126), (10, 3.813026), (11, 3.923804), (12, 4.029602),
    (13, 4.236068), (14, 4.328429), (15, 4.521357), (16, 4.615426), (17, 4.792034),
    (18, 4.863703), (19, 4.863703), (20, 5.122321), (21, 5.252317), (22, 5.439719),
    (23, 5.545204), (24, 5.651661), (25, 5.752824), (26, 5.828177), (27, 5.906398),
    (28, 6.014938), (29, 6.138598), (30, 6.197741), (31, 6.291503), (32, 6.429463),
    (33, 6.486703), (34, 6.610957), (35, 6.697171), (36, 6.746754), (37, 6.758770),
]
# fmt: on


@pytest.mark.parametrize(("n", "ratio"), SPECHT)
def test_spechts_table(n, ratio):
    assert radius_ratio(n) == pytest.approx(ratio, abs=1e-6)


@pytest.mark.parametrize(
    ("n", "closed_form"),
    [  # geometry: proved closed forms
        (3, 1 + 2 / math.sqrt(3)),
        (4, 1 + math.sqrt(2)),
        (5, 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5)))),
        (8, 1 + 1 / math.sin(math.pi / 7)),
        (9, 1 + 1 / math.sin(math.pi / 8)),
        (13, 2 + math.sqrt(5)),
        (18, 1 + math.sqrt(2) + math.sqrt(6)),
        (19, 1 + math.sqrt(2) + math.sqrt(6)),
    ],
)
def test_closed_forms(n, closed_form):
    assert radius_ratio(n) == pytest.approx(closed_form, abs=1e-6)


def ring(count, radius, turn=0.0):
    at = 2 * math.pi * (np.arange(count) + turn) / count
    return radius * np.stack([np.cos(at), np.sin(at)], axis=1)


HEXAGON = np.vstack([np.zeros((1, 2)), ring(6, 2.0)])
PLACED = {
    2: ring(2, 1.0),
    3: ring(3, 2 / math.sqrt(3)),
    4: ring(4, math.sqrt(2)),
    5: ring(5, 1 / math.sin(math.pi / 5)),
    6: ring(6, 2.0),
    7: HEXAGON,
    8: np.vstack([np.zeros((1, 2)), ring(7, 1 / math.sin(math.pi / 7))]),
    9: np.vstack([np.zeros((1, 2)), ring(8, 1 / math.sin(math.pi / 8))]),
    19: np.vstack([HEXAGON, ring(12, math.sqrt(2) + math.sqrt(6), 0.5)]),
}


@pytest.mark.parametrize("n", sorted(PLACED))
def test_placed_circles_fit_and_touch(n):
    """Geometry: n circles of radius 1 laid by hand: none overlap, the widest reaches the ratio."""
    at = PLACED[n]
    assert len(at) == n
    apart = np.linalg.norm(at[:, None] - at[None], axis=-1)[np.triu_indices(n, 1)]
    assert apart.min() >= 2 - 1e-9
    assert np.linalg.norm(at, axis=1).max() + 1 == pytest.approx(radius_ratio(n), abs=1e-6)


@pytest.mark.parametrize("n", [10, 11, 12, 14, 16, 20, 24, 30, 37, 48, 72])
def test_circles_pushed_apart_find_room(n):
    """Geometry by another route: loose circles pushed apart settle in a circle 4 % wider."""
    chance = np.random.default_rng(n)
    limit = radius_ratio(n) * 1.04 - 1
    for _ in range(12):
        at = chance.normal(size=(n, 2)) * limit / 2
        for _ in range(1500):
            away = at[:, None] - at[None]
            apart = np.linalg.norm(away, axis=-1) + np.eye(n) * 9
            lap = np.maximum(2 - apart, 0)
            at = at + 0.5 * (away / apart[..., None] * lap[..., None]).sum(1)
            out = np.linalg.norm(at, axis=1, keepdims=True)
            at = at * np.minimum(1, limit / np.maximum(out, 1e-9))
            if lap.max() < 0.01:
                return
    pytest.fail(f"{n} circles found no room")


def test_no_packing_is_denser_than_the_densest():
    # published: L. Fejes Toth, no packing of equal circles is denser than pi / sqrt(12)
    for n in range(2, 2401):
        assert n / radius_ratio(n) ** 2 < math.pi / math.sqrt(12)


def test_never_falls_and_has_no_step():
    ratios = [radius_ratio(n) for n in range(1, 2401)]
    steps = np.diff(ratios)
    assert steps.min() >= 0
    # geometry: a filled circle grows by about R / 2N an end; between table and formula no more
    assert steps[36] < 2 * ratios[36] / (2 * 37)
    assert radius_ratio(2400) == pytest.approx(math.sqrt(2400 / 0.80), rel=1e-4)  # common practice


def test_a_cord_of_nothing_is_a_bug():
    with pytest.raises(ValueError, match="at least one end"):
        radius_ratio(0)


@pytest.mark.parametrize(
    ("lead", "factor"),
    # geometry: three strands of diameter 1, r = 1/sqrt(3), path / lead
    [(3, 1.5691), (4, 1.3500), (6, 1.1686), (8, 1.0980), (10, 1.0638)],
)
def test_helix_of_three_strands(lead, factor):
    assert helix_factor(1 / math.sqrt(3), lead) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("holes", "ends"), [(2, 2), (3, 3), (4, 4), (6, 6), (6, 4), (8, 8)])
def test_take_up_walked_along_in_space(holes, ends):
    """Geometry: threads touching each other in a ring (6 and more round a core place) walked.

    For 2, 3 and 4 threads the ring is exact, d / (2 sin(pi / n)); from 5 on the place in the
    middle is nearly or wholly free, and the ring is the outer one of the packing.
    """
    d, spacing = 0.4, 1.1
    radius = d / (2 * math.sin(math.pi / ends)) if ends < 8 else d / (2 * math.sin(math.pi / 7))
    t = np.linspace(0, 1, 20_001)
    turn = 2 * math.pi * t
    path = np.stack([radius * np.cos(turn), radius * np.sin(turn), holes * spacing * t], axis=1)
    length = np.linalg.norm(np.diff(path, axis=0), axis=1).sum()
    assert take_up(d, ends, holes, spacing) == pytest.approx(length / (holes * spacing), rel=1e-6)


def test_idle_picks_take_nothing_up():
    whole, half, none = (take_up(0.4, 4, 4, 1.1, share) for share in (1.0, 0.5, 0.0))
    assert none == 1.0
    assert half - 1 == pytest.approx((whole - 1) / 2)  # geometry: straight for half of the way
    assert take_up(0.4, 1, 4, 1.1) == 1.0  # geometry: a single thread lies on the axis


@pytest.mark.parametrize("ends", [32, 36])
def test_henshalls_cord_5(ends):
    """Published: Henshall 1964, cord 5: 1.5 mm, 8 (or 9) four-hole tablets, 16 picks per cm."""
    yarn = 1.5 / cord_thickness(1.0, ends)
    assert 0.22 <= yarn <= 0.24
    spacing = 10 / 16
    assert 2.6 <= spacing / yarn <= 2.9
    assert 1.07 <= take_up(yarn, 4, 4, spacing) <= 1.09


def test_henshalls_cord_5_backwards():
    """From her thickness and the yarn that 32 ends imply, the tablets come out again."""
    yarn = 1.5 / cord_thickness(1.0, 32)
    assert tablets_for_thickness(1.5, yarn, 4) == 8  # published: eight tablets
    yarn = 1.5 / cord_thickness(1.0, 36)
    assert tablets_for_thickness(1.5, yarn, 4) == 9  # published: 36 threads, which is nine


def test_nine_tablets_of_crochet_cotton():
    # Published as a hobby report, 2024: size 10 crochet cotton, nine tablets, "roughly 1/4 inch",
    # loose and off tension. Size 10 is about 0.55 to 0.65 mm (from memory): pressed it lies below.
    assert 0.5 * 6.35 < cord_thickness(0.6, 36) < 6.35


@given(st.floats(0.3, 30), st.floats(0.1, 2.0))
def test_ends_for_a_thickness_by_trying_them_all(thickness, diameter):
    found = ends_for_thickness(thickness, diameter, most=400)
    off = [abs(diameter * radius_ratio(n) - thickness) for n in range(1, 401)]
    assert abs(cord_thickness(diameter, found) - thickness) == pytest.approx(min(off))


@given(st.floats(0.3, 20), st.floats(0.2, 2.0), st.integers(2, 8))
def test_tablets_for_a_thickness_by_trying_them_all(thickness, diameter, holes):
    found = tablets_for_thickness(thickness, diameter, holes)
    off = [abs(cord_thickness(diameter, n * holes) - thickness) for n in range(1, 301)]
    assert abs(cord_thickness(diameter, found * holes) - thickness) == pytest.approx(min(off))


@given(st.lists(st.floats(0.2, 0.4), min_size=1, max_size=20))
def test_mean_diameter_fills_the_same_area(diameters):
    mean = mean_diameter(diameters)
    area = sum(math.pi / 4 * d * d for d in diameters)  # geometry
    assert len(diameters) * math.pi / 4 * mean**2 == pytest.approx(area)
    assert min(diameters) - 1e-12 <= mean <= max(diameters) + 1e-12


def test_weft_of_a_tube_goes_round_the_middle_of_the_cords():
    """Geometry: the middles of tablet cords of 1 mm in a cord of 4 mm lie on a circle of 3 mm."""
    t = np.linspace(0, 2 * math.pi, 5001)
    walked = np.hypot(np.diff(1.5 * np.cos(t)), np.diff(1.5 * np.sin(t))).sum()
    assert weft_per_pick_of_tube(4.0, 1.0, 0.4) == pytest.approx(walked, rel=1e-5)
    assert weft_per_pick_of_tube(1.0, 1.0, 0.4) == pytest.approx(math.pi * 0.4)  # round a thread
