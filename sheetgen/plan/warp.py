"""Warp: takes the woven length and take-up, gives an end from knot to knot and how it is wound."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sheetgen.amounts import length
from sheetgen.model.pack import HOLE_LETTERS
from sheetgen.model.project import Project
from sheetgen.plan.constants import LOOM_WASTE, PLAIN_TAIL, TASSEL_KNOT, TRIM
from sheetgen.plan.figure import Origin
from sheetgen.plan.pack import Pack

CUT_ENDS = "cut ends"
BETWEEN_POSTS = "between posts"


@dataclass(frozen=True, slots=True)
class WarpEnd:
    """One warp end from knot to knot, mm; ``pieces`` are woven on it one after the other."""

    near_tail: float
    woven: float
    take_up: float
    far_tail: float
    loom_waste: float
    pieces: int
    tails_origin: Origin
    waste_origin: Origin

    @property
    def in_weave(self) -> float:
        """Warp that goes into one piece: woven length times take-up."""
        return self.woven * self.take_up

    @property
    def length(self) -> float:
        """The whole end."""
        return self.pieces * (self.near_tail + self.in_weave + self.far_tail) + self.loom_waste


def tails_wanted(project: Project) -> tuple[float, float]:
    """Near and far tail (mm) that the finish needs; never less than what ties the warp on.

    A tassel's tail is skirt, neck and trimming. Both tails of a loop hang in its one tassel.
    """
    plain, tassels = PLAIN_TAIL.value, project.tassels
    if tassels is None or not tassels.number:
        return plain, plain
    tasselled = max(plain, tassels.skirt + TASSEL_KNOT.value + TRIM.value)
    return (tasselled if _tasselled_at_both(project) else plain), tasselled


def tails_made_of(project: Project) -> tuple[str, str]:
    """What near and far tail are made of, in words: see :func:`tails_wanted`."""
    bare, tassels = "to tie on by and to finish with", project.tassels
    if tassels is None or not tassels.number:
        return bare, bare
    parts = (("skirt", tassels.skirt), ("neck", TASSEL_KNOT.value), ("trim", TRIM.value))
    tasselled = " + ".join(f"{part} {length(mm)}" for part, mm in parts)
    if math.fsum(mm for _, mm in parts) < PLAIN_TAIL.value:
        tasselled = f"to tie on by, more than {tasselled}"
    return (tasselled if _tasselled_at_both(project) else bare), tasselled


def _tasselled_at_both(project: Project) -> bool:
    """True when both ends of the cord hang in a tassel: in one of a loop, or each in its own."""
    return project.tassels is not None and (project.form == "loop" or project.tassels.number == 2)


def length_to_cut(end: float) -> float:
    """Length (mm) at which to cut an end of ``end`` mm: up to the next 5 mm, as a rule reads.

    >>> length_to_cut(701.2), length_to_cut(700.0)
    (705.0, 700.0)
    """
    return 5.0 * math.ceil(end / 5 - 1e-9)


def lay_out_end(project: Project, woven: float, take_up: float) -> WarpEnd:
    """Add up one end: stated parts outrank what the finish needs; one stated whole is shared out.

    With ``whole`` stated, the tails are taken from it first and the rest is loom waste (which can
    then be negative: the planner reports it).
    """
    stated = project.allowance
    near, far = tails_wanted(project)
    pieces = project.pieces if project.one_warp else 1
    near = near if stated.near_tail is None else stated.near_tail
    far = far if stated.far_tail is None else stated.far_tail
    given = stated.near_tail is not None and stated.far_tail is not None
    tails: Origin = "stated" if given else "rule of thumb"
    if stated.whole is not None:
        waste: float = stated.whole - pieces * (near + far)
        return WarpEnd(near, woven, take_up, far, waste, pieces, tails, "stated")
    waste = LOOM_WASTE.value if stated.loom_waste is None else stated.loom_waste
    origin: Origin = "rule of thumb" if stated.loom_waste is None else "stated"
    return WarpEnd(near, woven, take_up, far, waste, pieces, tails, origin)


@dataclass(frozen=True, slots=True)
class Winding:
    """How the warp is made: ends of ``distance`` mm, one after the other, ``passes`` times.

    Cut ends: each is measured off by itself. Between posts: the distance of the posts; at each
    pass the threads of the whole pack are wound at once and one tablet is dropped.
    ``turned`` are the tablets that come out the other way round and must be flipped before
    weaving. ``turned_top`` is the hole letter that must then stand at their near top, for their
    letters run the other way: see :func:`top_when_turned`.
    """

    way: str
    distance: float
    passes: int
    turned: tuple[int, ...]
    turned_top: str = HOLE_LETTERS[0]


def wind(way: str, distance: float, pack: Pack) -> Winding:
    """Wind the warp: ends cut one by one, or one warp between two posts through the whole pack.

    ``distance`` is the length of an end, mm.

    Between posts, all tablets are threaded at once and one is dropped at each pass. On the way
    back it lies the other way round, so every second tablet comes out with the other thread
    slant; those that then differ from the threading wanted are listed.
    """
    if way == CUT_ENDS:
        return Winding(way, distance, pack.ends, ())
    first = pack.tablets[0].threaded
    other = {"S": "Z", "Z": "S"}[first]
    turned = tuple(
        t.number
        for place, t in enumerate(pack.tablets)
        if t.threaded != (other if place % 2 else first)
    )
    top = top_when_turned(pack.tablets[0].holes)
    return Winding(way, distance, len(pack.tablets), turned, top or HOLE_LETTERS[0])


def top_when_turned(holes: Sequence[str | None]) -> str | None:
    """Hole letter that stands at the near top of a turned tablet, so that its yarns come in order.

    ``holes`` are the yarns from A as forward turns shall bring them. Turned about its upright
    axis, the tablet's near and far holes change places (terms page of the design: forward then
    shows what backward showed), so forward brings the letters in falling order. The first letter
    from which that gives the yarns of ``holes``; None if there is none. Geometry.

    >>> top_when_turned(["red", "red", "white", "white"]), top_when_turned(["red"] * 4)
    ('B', 'A')
    >>> top_when_turned(["red", "white", "blue", "blue"]) is None
    True
    """
    count = len(holes)
    for top in range(count):
        if all(holes[(top - turn) % count] == yarn for turn, yarn in enumerate(holes)):
            return HOLE_LETTERS[top]
    return None


def same_threads(pack: Pack) -> bool:
    """True when every tablet carries the same yarns in the same holes (one warp can do it)."""
    return len({t.holes for t in pack.tablets}) == 1
