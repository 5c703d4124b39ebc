"""What the fuzz shares: how many cases, and one judge of what a description may come to."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from sheetgen.cli import printing
from sheetgen.cli.run import plan_file
from sheetgen.diagnostics import has_errors

EXAMPLES = Path(__file__).parents[2] / "example_projects"


class Judge:
    """Reads, plans and, for those that are accepted, prints; counts what came of them."""

    def __init__(self, folder: Path, printing_too: int) -> None:
        self.file = folder / "fuzzed.yaml"
        self.left = printing_too
        self.tried = self.accepted = self.printed = 0
        self.seen: set[bytes] = set()

    def judge(self, data: bytes) -> None:
        """Fail on a traceback, on a refusal without a reason, on a plan that cannot be printed."""
        self.tried += 1
        self.file.write_bytes(data)
        outcome = plan_file(self.file)
        assert (outcome.plan is None) == has_errors(outcome.diagnostics)
        for found in outcome.diagnostics:
            assert found.message
            assert found.span is None or found.span.line >= 1
        if outcome.plan is None:
            return
        self.accepted += 1
        if self.left > 0 and data not in self.seen:
            sheet = printing.make_sheet(outcome, "loom", templates="english")
            unfit = [d.code for d in sheet.diagnostics if d.severity == "error"]
            assert sheet.pdf or unfit == ["does-not-fit"], unfit
            self.seen.add(data)
            self.left -= 1
            self.printed += 1

    def __str__(self) -> str:
        return f"{self.tried} tried, {self.accepted} accepted, {self.printed} printed"


@pytest.fixture(scope="module")
def judge(tmp_path_factory):
    """The judge; SHEETGEN_FUZZ=n tries n cases in each test and prints all that
    are accepted, or SHEETGEN_FUZZ_PRINTS of them.
    """
    many = int(os.environ.get("SHEETGEN_FUZZ", "0"))
    judge = Judge(
        tmp_path_factory.mktemp("fuzz"), int(os.environ.get("SHEETGEN_FUZZ_PRINTS", many or 6))
    )
    yield judge
    print(f"\n{judge}")


@pytest.fixture(scope="session")
def examples():
    """Every example that is a description of one piece."""
    return [file.read_bytes() for file in sorted(EXAMPLES.glob("*.yaml"))]
