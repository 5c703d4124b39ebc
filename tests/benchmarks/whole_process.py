"""How long a command takes as a whole process, beside reportlab saving one blank page."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from timing import LOOP, PROGRAM, process, side_by_side, table

BLANK = """
import sys
from reportlab.platypus import SimpleDocTemplate, Spacer
SimpleDocTemplate(sys.argv[1]).build([Spacer(1, 1)])
"""
GOALS = {"print": 3.0, "check": 2.0, "--help": 0.5, "usage error": 0.5}
"""Most times the floor."""


def main(times: int = 15) -> None:
    """Print medians and their ratios to the floor."""
    with tempfile.TemporaryDirectory() as folder:
        blank, sheet = Path(folder) / "blank.pdf", Path(folder) / "sheet.pdf"
        found = side_by_side(
            {
                "floor": process([sys.executable, "-c", BLANK, blank]),
                "print": process([*PROGRAM, "print", LOOP, "--out", sheet]),
                "check": process([*PROGRAM, "check", LOOP]),
                "--help": process([*PROGRAM, "--help"]),
                "usage error": process([*PROGRAM, "prnt"]),
            },
            times,
        )
    rows = [
        (name, 1000 * each, each / found["floor"], GOALS.get(name, ""))
        for name, each in found.items()
    ]
    table(("whole process", "ms", "times the floor", "goal"), rows)


if __name__ == "__main__":
    main()
