"""The engine's hands, twist and showing threads against threads built in space (geometry).

Nothing here uses the engine's tables. A tablet is a plate in the y-z plane, x to the weaver's
right, y away from her, z up. A thread is a line from the fell (near) through its hole to the post
(far); seen from above that of an S-threaded tablet runs from near right to far left. The plate
turns about the x axis, forward the top edge away from the weaver; a flip turns it about the
upright axis. The cloth keeps the threads as they stood while time passed; beyond the tablets,
where the post holds them, they lie through each other the way back.
"""

import itertools
import math
import random

import numpy as np
import pytest

from sheetgen.model.turning import Flip, Move, Turns
from sheetgen.plan.pack import Pack, Tablet
from sheetgen.plan.surface import effective_turns, tablet_column, top_holes, turned_slant
from sheetgen.plan.turning import traces, unroll

SAMPLES = 6  # a turn of 1/holes is seen in so many moments
LEAN = 0.3  # how far to the side a thread runs for one step away from the weaver
HANDED = {"Z": 1, "S": -1}  # ISO 2: a right-handed screw is Z; its linking number is positive


class Plate:
    """A tablet in space, its holes followed moment by moment."""

    def __init__(self, threaded, holes):
        # Hole A stands at the near top, and forward turns bring the letters there in order.
        self.angle = math.pi / 2 + math.pi / holes + 2 * math.pi / holes * np.arange(holes)
        self.lean = -LEAN if threaded == "S" else LEAN  # x of a thread for one step along y
        self.side, self.holes = 1.0, holes  # side: -1 once the near edge has become the far one
        self.seen, self.crossing = [], []
        self._look(np.zeros(holes), *self._edges(), self.lean)

    def _edges(self):
        return self.side * np.cos(self.angle), np.sin(self.angle)

    def _look(self, x, y, z, lean):
        """Note where the holes stand, seen along the threads."""
        self.seen.append(np.stack([x - lean * y, z], axis=1))

    def turn(self, away):
        """Turn by 1/holes about the x axis, the top edge away (+1) or towards the weaver (-1)."""
        start, step = self.angle, 2 * math.pi / self.holes / SAMPLES
        for moment in range(1, SAMPLES + 1):
            # the top is at pi/2 and must come to where y is positive: angle 0, or pi when flipped
            self.angle = start - away * self.side * step * moment
            y, z = self._edges()
            self._look(np.zeros(self.holes), y, z, self.lean)
            if moment == SAMPLES // 2:
                top = int(np.argmax(z))
                (x1, _), (x0, _) = self.seen[-1][top], self.seen[-2][top]
                self.crossing.append((top, "Z" if x1 > x0 else "S"))

    def flip(self):
        """Turn half round about the upright axis, the way that does not fold the threads over."""
        y, z = self._edges()
        way = -np.sign(self.lean)
        for moment in range(1, SAMPLES + 1):
            a = math.pi * moment / SAMPLES
            self._look(way * y * math.sin(a), y * math.cos(a), z, self.lean * math.cos(a))
        self.side, self.lean = -self.side, -self.lean

    def near_top(self):
        """The hole that is highest on the weaver's side."""
        y, z = self._edges()
        return int(np.argmax(np.where(y < -1e-9, z, -9.0)))


def linking(one, other):
    """Gauss linking number of two closed polygons, exactly: solid angles of pairs of segments."""
    a, b = one, np.roll(one, -1, axis=0)
    c, d = other, np.roll(other, -1, axis=0)
    ac, ad = c[None] - a[:, None], d[None] - a[:, None]
    bc, bd = c[None] - b[:, None], d[None] - b[:, None]
    normals = [np.cross(p, q) for p, q in ((ac, ad), (ad, bd), (bd, bc), (bc, ac))]
    unit = [n / np.maximum(np.linalg.norm(n, axis=-1, keepdims=True), 1e-300) for n in normals]
    angle = sum(
        np.arcsin(np.clip((p * q).sum(-1), -1, 1)) for p, q in itertools.pairwise([*unit, unit[0]])
    )
    sign = np.sign((np.cross((d - c)[None], (b - a)[:, None]) * ac).sum(-1))
    return float((angle * sign).sum() / (4 * math.pi))


def closed(path, side):
    """Close a path from near to far by a wide way round, aslant so that no two ways touch."""
    x, z = 40 * side * math.cos(0.7), 40 * side * math.sin(0.7)
    return np.vstack([path, [[x, path[-1][1] + 2, z], [x, path[0][1] - 2, z]]])


def along(seen, i, j):
    """Linking number of the threads through holes i and j, moments laid along y one by one."""
    paths = [[(x, y, z) for y, (x, z) in enumerate(m[k] for m in seen)] for k in (i, j)]
    return linking(closed(paths[0], 1.0), closed(paths[1], -1.0))


def both_sides(plate, i, j):
    """Linking numbers in the cloth and beyond the tablets."""
    return along(plate.seen, i, j), along(plate.seen[::-1], i, j)


def test_a_right_handed_screw_links_positively():
    t = np.linspace(0, 2 * math.pi, 40)
    one = np.stack([np.cos(t), np.sin(t), t], axis=1)  # geometry: x to y while z grows
    paths = [np.stack([p[:, 1], p[:, 2], p[:, 0]], axis=1) for p in (one, one * [-1, -1, 1])]
    assert linking(closed(paths[0], 1.0), closed(paths[1], -1.0)) == pytest.approx(1.0)


@pytest.mark.parametrize("holes", [2, 3, 4, 6])
@pytest.mark.parametrize("threaded", ["S", "Z"])
@pytest.mark.parametrize("away", [1, -1])
@pytest.mark.parametrize("flipped", [False, True])
def test_hand_and_size_of_twist(holes, threaded, away, flipped):
    plate = Plate(threaded, holes)
    if flipped:
        plate.flip()
    for _ in range(2 * holes):
        plate.turn(away)
    motion = "forward" if away > 0 else "backward"
    steps = (*([Flip()] if flipped else []), Turns(2 * holes, (Move("", motion),)))
    (trace,) = traces(unroll(steps, ("",), 2 * holes), 1)
    full_turns = trace.twist[-1] / holes
    hand = turned_slant(threaded, 1 if full_turns > 0 else -1)
    for i, j in itertools.combinations(range(holes), 2):
        cloth, beyond = both_sides(plate, i, j)
        assert cloth == pytest.approx(HANDED[hand] * abs(full_turns), abs=1e-5)
        assert beyond == pytest.approx(-cloth, abs=1e-5)
    assert abs(full_turns) == 2  # geometry: two times round


@pytest.mark.parametrize("holes", [2, 3, 4, 6])
@pytest.mark.parametrize("threaded", ["S", "Z"])
@pytest.mark.parametrize("seed", range(4))
def test_a_plan_at_random(holes, threaded, seed):
    """Turns both ways and flips: twist, thread on top, slant and near top hole at every pick."""
    chance = random.Random(100 * seed + holes)
    moves = [chance.choice(["forward", "backward", "idle", "flip"]) for _ in range(24)]
    plate, near, flips_at, motions = Plate(threaded, holes), [], [], []
    for move in moves:
        if move == "flip":
            flips_at.append(len(motions))
            plate.flip()
            if near:  # once so many picks are woven, the flip that stands there is done
                near[-1] = plate.near_top()
            continue
        motions.append(move)
        if move != "idle":
            plate.turn(1 if move == "forward" else -1)
        near.append(plate.near_top())
    tablet = Tablet(1, threaded, tuple(f"thread {n}" for n in range(holes)))
    stretches = unroll(tuple(Turns(1, (Move("", m),)) for m in motions), ("",), len(motions))
    turned = list(effective_turns(stretches, 0, flips_at, 0, len(motions)))
    cells = [c for c, m in zip(tablet_column(tablet, turned), motions, strict=True) if m != "idle"]
    assert [(c.hole, c.slant) for c in cells] == plate.crossing
    assert [c.yarn for c in cells] == [tablet.holes[top] for top, _ in plate.crossing]
    pack = Pack((tablet,), holes)
    for pick, hole in enumerate(near, start=1):
        assert top_holes(pack, stretches, flips_at, pick) == [hole]
    while sum(turned) % holes:  # go on to whole turns, where the linking number is defined
        plate.turn(1 if len(flips_at) % 2 == 0 else -1)
        turned.append(1)
    cloth, beyond = both_sides(plate, 0, holes - 1)
    hand = HANDED[turned_slant(threaded, 1)]
    assert cloth == pytest.approx(hand * sum(turned) / holes, abs=1e-5)
    assert beyond == pytest.approx(-cloth, abs=1e-5)


def test_forward_shows_the_near_top_and_backward_the_far_top():
    """The rule of the terms page, read off the plate: the same thread shows when turned back."""
    plate = Plate("S", 4)
    before = plate.near_top()
    plate.turn(1)
    plate.turn(-1)
    assert [top for top, _ in plate.crossing] == [before, before]
    cells = tablet_column(Tablet(1, "S", ("a", "b", "c", "d")), [1, -1])
    assert [c.hole for c in cells] == [before, before]
    assert [c.slant for c in cells] == ["Z", "S"]  # geometry: the lean of the crossing, above
