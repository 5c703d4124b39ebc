"""How the time grows with picks, tablets, beads and records, beside plain additions in one run."""

from __future__ import annotations

import resource
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from pieces import different
from timing import PROGRAM, process, seconds, table

from sheetgen.model.pack import DraftLine, Group, HoleColour, Tablets
from sheetgen.model.project import Project
from sheetgen.model.turning import Move, Turns
from sheetgen.model.values import Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description

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


def string(beads: int) -> bytes:
    """The description of a straight string of so many beads, of two sizes by turns."""
    return f"""piece: a string
form: straight
yarns: {{red: {{fibre: wool, diameter: 0.5 mm}}}}
tablets: {{number: 3, threaded: S}}
beads:
  kinds: {{small: {{diameter: 6 mm, hole: 4 mm}}, large: {{diameter: 9 mm, hole: 4 mm}}}}
  order: [small{f", {{repeat: {beads - 1}, of: [large]}}" if beads > 1 else ""}]
""".encode()


def planned(data: bytes) -> None:
    """Read and plan; a description with mistakes would measure nothing."""
    project = read_description(data).project
    if project is None or make_plan(project).plan is None:
        raise SystemExit("a description of the benchmark cannot be planned")


def records(count: int) -> tuple[float, int]:
    """Seconds to read and list so many records as a process, and its peak memory in MB."""
    with tempfile.TemporaryDirectory() as folder:
        different(Path(folder), count)
        taken = seconds(process([*PROGRAM, "register", folder, "--csv", Path(folder) / "out.csv"]))
        return taken, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1000


def main() -> None:
    """Print the tables."""
    floor = median(additions, 3)
    print(f"{ADDITIONS:,} float additions: {floor:.3f} s\n")
    rows = []
    for tablets in (1, 10, 100, 300):
        for picks in (10, 100, 1_000, 10_000, 100_000):
            project = band(tablets, picks)
            taken = median(lambda project=project: make_plan(project))
            rows.append((tablets, picks, 1000 * taken, taken / floor))
    table(("tablets", "picks", "ms to plan", "of the additions"), rows)
    rows = []
    for beads in (1, 10, 100, 1_000, 2_000):
        data = string(beads)
        taken = median(lambda data=data: planned(data))
        rows.append((beads, 1000 * taken, taken / floor))
    table(("beads", "ms to read and plan", "of the additions"), rows)
    rows = [(count, *records(count)) for count in (1, 10, 100, 1_000, 10_000)]
    table(("records", "s to register, as a process", "peak memory, MB"), rows)


if __name__ == "__main__":
    main()
