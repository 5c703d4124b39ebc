"""How long the engine takes, beside plain additions timed in the same run.

Run it by hand: ``python tests/benchmarks/plan_growth.py``. It prints medians and their ratios and
fails nothing: a slow machine is not a mistake.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

from sheetgen.model.pack import DraftLine, Group, HoleColour, Tablets
from sheetgen.model.project import Project
from sheetgen.model.turning import Move, Turns
from sheetgen.model.values import Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.planner import make_plan

ADDITIONS = 30_000_000
SPACING = 2.8
"""Yarn diameters a pick, the engine's rule of thumb: sets the length that gives so many picks."""


def band(tablets: int, picks: int, groups: int = 10) -> Project:
    """A band of two colours, groups turning against each other, ``picks`` picks long."""
    diameter = 0.5
    lines = tuple(
        DraftLine(letter, tuple(HoleColour(h, y) for h, y in zip("ABCD", yarns, strict=True)))
        for letter, yarns in (("S", "rrww"), ("Z", "wrrw"))
    )
    size = max(1, tablets // groups)
    named = tuple(
        Group(f"g{i}", tuple(range(i * size + 1, min((i + 1) * size, tablets) + 1)))
        for i in range(min(groups, tablets))
    )
    motions = ("forward", "backward", "idle")
    steps = tuple(
        Turns(4, (*(Move(g.name, motions[(i + k) % 3]) for i, g in enumerate(named)),
                  Move("rest", "forward")))
        for k in range(3)
    )  # fmt: skip
    return Project(
        piece="a band",
        form="band",
        yarns=tuple(Yarn(n, "wool", diameter=Reading(diameter, diameter, diameter)) for n in "rw"),
        length=picks * SPACING * diameter,
        tablets=Tablets(number=tablets, draft=lines, groups=named),
        turning=steps,
    )


def median(work: Callable[[], object], times: int = 5) -> float:
    """Median time of ``work`` in seconds."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return statistics.median(found)


def additions(count: int = ADDITIONS) -> float:
    """The measure: so many plain float additions in a loop."""
    total = 0.0
    for _ in range(count):
        total += 1.5
    return total


def main() -> None:
    """Print the table."""
    floor = median(additions, 3)
    print(f"{ADDITIONS:,} float additions: {floor:.3f} s")
    print(f"{'tablets':>8} {'picks':>8} {'s':>9} {'of the additions':>17}")
    for tablets in (1, 10, 100, 300):
        for picks in (10, 100, 1_000, 10_000, 100_000):
            project = band(tablets, picks)
            taken = median(lambda project=project: make_plan(project))
            print(f"{tablets:>8} {picks:>8} {taken:>9.4f} {taken / floor:>17.4f}")


if __name__ == "__main__":
    main()
