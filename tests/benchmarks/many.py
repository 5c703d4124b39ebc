"""How long many sheets take, beside a bare canvas that is given the same calls on as many cores."""

from __future__ import annotations

import multiprocessing
import os
import resource
import sys
import tempfile
from pathlib import Path

from bare import Call, drawn_again, recorded
from pieces import NAMES, different
from timing import EXAMPLES, PROGRAM, process, seconds, table

SHEETS = 1000
GOAL = 1.5
"""Most times the bare canvas."""
A4 = (595.2755905511812, 841.8897637795277)

logs: list[list[Call]] = []
"""What the examples draw; the processes of the pool have it from their parent."""


def _draw(job: tuple[int, Path]) -> None:
    number, folder = job
    (folder / f"bare-{number}.pdf").write_bytes(drawn_again(logs[number % len(logs)], A4))


def bare(folder: Path, count: int) -> None:
    """``count`` files of the recorded calls, on every core."""
    with multiprocessing.get_context("fork").Pool(os.cpu_count()) as pool:
        for _ in pool.imap_unordered(_draw, ((n, folder) for n in range(count)), 8):
            pass


def different_sheets(count: int) -> tuple[float, float]:
    """Seconds for ``count`` different descriptions: the program, and the bare canvas."""
    from sheetgen.cli.printing import make_sheet
    from sheetgen.cli.run import plan_file

    logs.clear()
    for name in NAMES:
        outcome = plan_file(EXAMPLES / f"{name}.yaml")
        make_sheet(outcome, "loom")  # fonts and sentences are read once, not recorded
        with recorded() as calls:
            make_sheet(outcome, "loom")
        logs.append(calls)
    with tempfile.TemporaryDirectory() as folder:
        files = different(Path(folder), count)
        taken = seconds(process([*PROGRAM, "print", *files, "--out", folder]))
        floor = seconds(lambda: bare(Path(folder), count))
        made = len(list(Path(folder).glob("piece-*-loom.pdf")))
    if made != count:
        raise SystemExit(f"{made} of {count} sheets were printed")
    return taken, floor


def kit_sheets(count: int) -> tuple[float, float, int]:
    """Seconds for ``count`` kit sheets with names: the program, the bare canvas; peak memory, kB.

    The bare canvas draws every sheet anew, as a program without a store of drawings would.
    """
    from sheetgen.cli.printing import make_sheet
    from sheetgen.cli.run import plan_file

    example = EXAMPLES / "town-day-workshop.yaml"
    outcome = plan_file(example)
    make_sheet(outcome, "kit")
    with recorded() as calls:
        make_sheet(outcome, "kit")
    logs[:] = [calls]
    with tempfile.TemporaryDirectory() as folder:
        words = [*PROGRAM, "kits", example, "--people", count, "--numbered", "--out", folder]
        taken = seconds(process(words))
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
        floor = seconds(lambda: bare(Path(folder), count))
    return taken, floor, peak


def main() -> None:
    """Print both, and how memory grows."""
    rows = []
    for name, count in (("kit sheets with names", SHEETS), ("different descriptions", SHEETS)):
        if name.startswith("kit"):
            taken, floor, _ = kit_sheets(count)
        else:
            taken, floor = different_sheets(count)
        rows.append((name, count, taken, floor, taken / floor, GOAL))
    table(("what", "sheets", "s", "bare canvas, s", "times", "goal"), rows)
    memory = []
    for count in (10, 100, SHEETS):
        code = f"import many; print(many.kit_sheets({count})[2] // 1000)"
        peak = os.popen(f"{sys.executable} -c '{code}'").read().strip()
        memory.append((count, peak))
    table(("kit sheets", "peak memory, MB"), memory)


if __name__ == "__main__":
    main()
