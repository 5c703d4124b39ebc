"""What the fuzz shares: how many cases, and one judge of what a description may come to."""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path

import pytest

from sheetgen.cli import printing
from sheetgen.cli.chest import ask
from sheetgen.cli.comparing import Wish, compared
from sheetgen.cli.kits import plan_all
from sheetgen.cli.run import Outcome, plan_file
from sheetgen.diagnostics import Diagnostic, has_errors
from sheetgen.layout.choice import Compared

EXAMPLES = Path(__file__).parents[2] / "example_projects"
STRING = EXAMPLES / "ferry-cross-string.yaml"
STASH = "sedgewater-stash.yaml"


SHEETS = ("loom", "record", "kit", "cutouts", "organiser")
REFUSED = {"does-not-fit", "no-such-photograph", "no-such-templates"}
"""What a sheet may be refused for though the description is accepted."""


class Judge:
    """Reads, plans and, for those that are accepted, prints; counts what came of them."""

    def __init__(self, folder: Path, printing_too: int) -> None:
        self.file = folder / "fuzzed.yaml"
        self.chest = folder / "stash.yaml"
        self.sheets: Counter[str] = Counter()
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
            self.print(outcome, SHEETS[self.printed % len(SHEETS)])
            self.seen.add(data)
            self.left -= 1
            self.printed += 1

    def print(self, outcome: Outcome, sheet: str) -> None:
        """Print one sheet; it may be refused for a documented reason and for no other."""
        subject = None
        if sheet == "organiser":
            kits = plan_all(outcome, 12, None)
            if kits.kits is None:
                assert has_errors(kits.about.diagnostics)
                self.sheets["kits refused"] += 1
                return
            subject = kits.kits
        printed = printing.make_sheet(outcome, sheet, templates="english", subject=subject)
        unfit = {d.code for d in printed.diagnostics if d.severity == "error"}
        assert bool(printed.pdf) != bool(unfit), unfit
        assert unfit <= REFUSED, unfit
        self.sheets[f"{sheet} refused" if unfit else sheet] += 1

    def judge_stash(self, data: bytes) -> None:
        """The same of a stash: read, chosen from and compared."""
        self.tried += 1
        self.chest.write_bytes(data)
        asked = ask(STRING, self.chest)
        assert asked.chest is not None
        assert (asked.pair is None) == has_errors(asked.chest.diagnostics)
        assert all(found.message for found in asked.chest.diagnostics)
        if asked.pair is None:
            return
        self.accepted += 1
        if self.left > 0 and data not in self.seen:
            self.seen.add(data)
            self.left -= 1
            self.printed += 1
            asked, subject = compared(STRING, None, Wish(self.chest, "red"))
            assert isinstance(subject, Compared | Diagnostic)
            if isinstance(subject, Compared):
                printed = printing.make_sheet(asked.about, "choice", subject=subject)
                assert printed.pdf, printed.diagnostics
            self.sheets["choice"] += 1

    def __str__(self) -> str:
        sheets = ", ".join(f"{n} {sheet}" for sheet, n in sorted(self.sheets.items()))
        return f"{self.tried} tried, {self.accepted} accepted, {self.printed} printed: {sheets}"


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
    files = sorted(EXAMPLES.glob("*.yaml"))
    return [file.read_bytes() for file in files if file.name != STASH]


@pytest.fixture(scope="session")
def stash():
    """The bytes of the example of a stash."""
    return (EXAMPLES / STASH).read_bytes()
