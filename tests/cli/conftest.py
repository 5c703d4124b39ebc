"""Descriptions for trying out the commands. All of them are invented."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sheetgen.cli.main import main

PIECES = Path(__file__).parent / "pieces"


@pytest.fixture
def piece(tmp_path: Path) -> Callable[..., Path]:
    """A copy of a description in ``pieces``, in a folder of its own, with lines added."""

    def piece(name: str, more: str = "", to: str | None = None) -> Path:
        file = tmp_path / (to or f"{name}.yaml")
        text = (PIECES / f"{name}.yaml").read_text(encoding="utf-8")
        file.write_text(text + more, encoding="utf-8")
        return file

    return piece


@pytest.fixture
def run() -> Callable[..., Result]:
    def run(*arguments: object) -> Result:
        return CliRunner().invoke(main, [str(a) for a in arguments])

    return run


@pytest.fixture
def start() -> Callable[..., subprocess.CompletedProcess[bytes]]:
    """Run the program as a process of its own, with changed environment variables."""

    def start(
        *arguments: object, cwd: Path | None = None, **changes: str
    ) -> subprocess.CompletedProcess[bytes]:
        environment = {k: v for k, v in os.environ.items() if k != "PYTHONIOENCODING"} | changes
        return subprocess.run(
            [sys.executable, "-m", "sheetgen.cli.main", *map(str, arguments)],
            env=environment,
            cwd=cwd,
            capture_output=True,
            check=False,
            stdin=subprocess.DEVNULL,
        )

    return start
