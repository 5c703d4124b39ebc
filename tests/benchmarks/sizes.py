"""How large the loom sheet of each example is."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from timing import EXAMPLES, PROGRAM, table

GOAL = 150_000
"""Most bytes."""


def main() -> None:
    """Print the bytes of each."""
    rows = []
    for file in sorted(EXAMPLES.glob("*.yaml")):
        with tempfile.TemporaryDirectory() as folder:
            sheet = Path(folder) / "sheet.pdf"
            subprocess.run(
                [*PROGRAM, "print", file, "--out", sheet], capture_output=True, check=False
            )
            if sheet.exists():  # a stash has no loom sheet
                rows.append((file.name, sheet.stat().st_size, GOAL))
    table(("loom sheet", "bytes", "goal"), rows)


if __name__ == "__main__":
    main()
