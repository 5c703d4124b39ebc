"""Sought: takes a Project, gives what is looked for in a yarn, and what follows from the find."""

from __future__ import annotations

import re
from dataclasses import replace

from sheetgen.amounts import length, plain, significant
from sheetgen.model.project import Project
from sheetgen.model.values import Reading
from sheetgen.model.yarn import FIBRES
from sheetgen.plan.candidate import Wanted
from sheetgen.plan.cord import radius_ratio
from sheetgen.plan.pack import build_pack
from sheetgen.plan.words import counted

_ALSO_CALLED = {"flax": "linen", "woollen": "wool", "woolen": "wool", "line": "linen"}
_SPUN = re.compile(r"\b([SZ])\b")


def alike(has: str | None, wanted: str | None) -> bool | None:
    """Whether one is the other; None where either is not known."""
    return None if has is None or wanted is None else has == wanted


def same_colour(has: str | None, wanted: str | None) -> bool | None:
    """Whether two colours in words share a word; None where either is not told.

    >>> same_colour("madder red #9c3b2e", "red"), same_colour("white", "red")
    (True, False)
    """
    if has is None or wanted is None:
        return None
    first, second = (set(re.findall(r"[^\W\d]+", c.partition("#")[0].casefold()))
                     for c in (has, wanted))  # fmt: skip
    return bool(first & second)


def wanted_of(project: Project, target: str) -> Wanted:
    """Fibre, spin, colour and diameter looked for: the find's where it tells, else as described."""
    described = next((y for y in project.yarns if y.name == target), project.yarns[0])
    said = (project.find.fibre or "") if project.find else ""
    words = [_ALSO_CALLED.get(w, w) for w in re.findall(r"\w+", said.casefold())]
    read = next((w for w in words if w in FIBRES), None)
    spun = _SPUN.search(said)
    colour = described.colour.partition("#")[0].strip() if described.colour else None
    return Wanted(
        target,
        read or described.fibre,
        "the find" if read else "the description",
        spun[1] if spun else described.spin,
        "the find" if spun else "the description",
        colour or None,
        _diameter_wanted(project),
    )


def _diameter_wanted(project: Project) -> tuple[float, float, float] | None:
    """Low, value, high (mm) of the yarn that thickness and tablets of a tube ask for: T / R(N)."""
    read = project.find.thickness if project.find else None
    number = project.tablets.number
    if not isinstance(read, Reading) or number is None or not project.is_tube:
        return None
    pack = build_pack(replace(project.tablets, groups=()), number, project.yarns[0].name)
    ratio = radius_ratio(max(1, pack.ends))
    return read.low / ratio, read.value / ratio, read.high / ratio


def what_follows(project: Project, wanted: Wanted) -> tuple[str, ...]:
    """What follows from what is known of the find, and how sure it is, a sentence each."""
    find, number = project.find, project.tablets.number
    read = find.thickness if find else None
    across = find.width if find and not project.is_tube else None
    found = []
    if isinstance(read, Reading):
        how = f", from {read.how}" if read.how else ""
        found.append(f"the find is {_read(read)} thick{how}")
    if isinstance(across, Reading):
        found.append(f"the find is {_read(across)} wide")
    if wanted.diameter is not None and number is not None:
        low, value, high = wanted.diameter
        between = f" ({_mm(low)} to {_mm(high)})" if high > low else ""
        found.append(
            f"with {counted(number, 'tablet')} that asks for a yarn of {_mm(value)}{between}: "
            f"about {plain(10 / value, 0)} firm wraps in 1 cm"
        )
    elif isinstance(read, Reading) and number is None:
        found.append(
            "the number of tablets is not stated: each yarn gets the number that comes nearest, "
            "so that what is left of the difference is less than half a tablet"
        )
    if not isinstance(read, Reading) and not isinstance(across, Reading):
        what = "no find is described" if find is None else "the size of the find is not known"
        sure = f": what {counted(number, 'tablet')} of each yarn come to is told" if number else ""
        found.append(f"{what}{sure}, and no yarn is nearer to it than another")
    if project.sample is not None:
        found.append("the sample is left aside: it was woven with the yarn described")
    return tuple(found)


def _read(read: Reading) -> str:
    if read.high <= read.low:
        return f"{length(read.value)} (sure)"
    return f"{length(read.value)} ({length(read.low)} to {length(read.high)})"


def _mm(value: float) -> str:
    return f"{significant(value, 2)} mm"
