"""Learning from whole descriptions, whose truth comes from a cord built without the engine.

The invented hand weaves an invented yarn. What she gets is worked out here: from areas, from a
curve measured bit by bit, and from figures that are simply laid down. She measures it with slips,
writes descriptions, and the plan of a further piece, of another size, is held against the truth.
"""

import math

import numpy as np
import pytest

from sheetgen.plan.learning import Learning
from sheetgen.plan.measured import measured_piece
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_quickly

YARN, SPACING, FULL, CRIMP, PACE = 0.5, 1.5, 0.7, 1.02, 4.4
"""Diameter in the cord and length of a pick, mm; share of the cord that is yarn; what a thread
takes beyond its screw; picks a minute."""
PIECE = """piece: Cord {n}
number: T-{n}
form: cord
length: {length} mm
yarns: {{madder: {{fibre: wool, count: 16/2 Nm, preparation: worsted}}}}
tablets: {tablets}
"""
MADE = """made:
  length: {measured:.0f} mm
  picks woven: {picks}
  thickness: {thickness:.2f} mm
  warp end: {warp:.0f} mm
  left-over warp: {left:.0f} mm
  time: {{all of it: {{took: {minutes:.0f} min, picks: {picks}}}}}
"""


def thickness(tablets):
    """A round of the area of its threads, mm: geometry."""
    return YARN * math.sqrt(4 * tablets / FULL)


def take_up():
    """A thread goes once round a square of four in four picks; its path is added up in bits."""
    turn = np.linspace(0, 2 * math.pi, 2001)
    radius = YARN / math.sqrt(2)  # centres of four circles that touch: geometry
    curve = np.stack((radius * np.cos(turn), radius * np.sin(turn), 4 * SPACING * turn / turn[-1]))
    path = np.sqrt((np.diff(curve) ** 2).sum(axis=0)).sum()
    return CRIMP * path / (4 * SPACING)


def described(n, tablets, length, rng=None):
    """A piece to be woven; with ``rng`` it was woven, and measured with slips of the hand."""
    text = PIECE.format(n=n, tablets=tablets, length=length)
    if rng is not None:

        def slip(value, share):
            return value * math.exp(rng.normal(0, share))

        picks = round(length / slip(SPACING, 0.05))
        warp, left = length * 1.2 + 400, length * 1.2 + 400 - length * slip(take_up(), 0.01)
        text += MADE.format(
            measured=length, picks=picks, thickness=slip(thickness(tablets), 0.05),
            warp=warp, left=left, minutes=picks / slip(PACE, 0.1),
        )  # fmt: skip
    return read_quickly(text.encode()).project


NEW = (9, 420)
"""Tablets and length (mm) of the further piece; of the others five to fourteen, 250 to 600."""
TRUTH = {
    "picks": NEW[1] / SPACING,
    "thickness": thickness(NEW[0]),
    "take_up": take_up(),
    "weaving_time": NEW[1] / SPACING / PACE,
}
NUMBERS = (0, 1, 4, 16)


@pytest.fixture(scope="module")
def course():
    """{figure: {number of pieces: errors of 40 weavers' plans, as shares}}"""
    new = described(0, *NEW)
    found = {what: {n: [] for n in NUMBERS} for what in TRUTH}
    for weaver in range(40):
        rng = np.random.default_rng([17, weaver])
        made = [
            described(i, int(rng.integers(5, 15)), int(rng.integers(250, 600)), rng)
            for i in range(1, max(NUMBERS) + 1)
        ]
        pieces = [measured_piece(project, project.number) for project in made]
        for n in NUMBERS:
            figures = make_plan(new, Learning(tuple(pieces[:n]))).plan.figures
            for what, true in TRUTH.items():
                found[what][n].append(abs(math.log(figures[what].value / true)))
    return {what: {n: np.array(e) for n, e in errors.items()} for what, errors in found.items()}


@pytest.mark.parametrize("what", TRUTH)
def test_the_error_of_a_new_plan_falls_as_pieces_are_added(course, what):
    """Each step by more than three standard errors of the paired difference (normal table: one
    chance in a thousand a step if nothing were learned)."""
    for few, more in ((0, 4), (1, 16)):
        gain = course[what][few] - course[what][more]
        assert gain.mean() > 3 * gain.std(ddof=1) / math.sqrt(len(gain)), (few, more, gain.mean())


@pytest.mark.parametrize("what", TRUTH)
def test_what_is_left_is_less_than_half_of_what_the_rules_are_out_by(course, what):
    assert course[what][16].mean() < course[what][0].mean() / 2


def test_one_piece_helps_more_than_it_harms(course):
    """A single piece carries all its own slips; over all figures the plan is still better off."""
    before, after = (np.concatenate([course[what][n] for what in TRUTH]).mean() for n in (0, 1))
    assert after < before
