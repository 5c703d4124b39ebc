"""What the benchmarks share: medians side by side, and tables of them."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "example_projects"
LOOP = EXAMPLES / "mill-race-loop.yaml"
PROGRAM = [str(Path(sys.executable).with_name("sheetgen"))]


def seconds(work: Callable[[], object]) -> float:
    """How long ``work`` takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def side_by_side(works: Mapping[str, Callable[[], object]], times: int) -> dict[str, float]:
    """Medians in seconds, the works done in turn so that a busy moment hits all alike."""
    found: dict[str, list[float]] = {name: [] for name in works}
    for work in works.values():
        work()  # once unmeasured: files are in memory, bytecode is written
    for _ in range(times):
        for name, work in works.items():
            found[name].append(seconds(work))
    return {name: statistics.median(each) for name, each in found.items()}


def process(words: Sequence[object], cwd: Path | None = None) -> Callable[[], object]:
    """A whole process; a failure is told, as its time would mean nothing."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}

    def run() -> None:
        done = subprocess.run(
            [str(word) for word in words],
            cwd=cwd,
            env=environment,
            capture_output=True,
            check=False,
        )
        if done.returncode not in (0, 2):
            raise SystemExit(done.stderr.decode() or f"{words} failed")

    return run


def table(heads: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
    """Print a table in the manner of Markdown."""
    print("| " + " | ".join(heads) + " |")
    print("|" + " --- |" * len(heads))
    for row in rows:
        cells = (f"{cell:.3g}" if isinstance(cell, float) else str(cell) for cell in row)
        print("| " + " | ".join(cells) + " |")
    print(flush=True)
