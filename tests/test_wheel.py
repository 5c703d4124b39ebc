"""The wheel: built, unpacked somewhere else, and used from another folder."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TEMPLATES = ("templates/loom.yaml", "templates/german/loom.yaml", "templates/choice.yaml")
NEEDED = ("sheetgen", "templates", "example_projects", "pyproject.toml", "README.md")
# What pip says when it needs a package and there is no network to fetch it.
OFFLINE = re.compile(r"No matching distribution|Could not find a version|connection", re.IGNORECASE)


def has_builder() -> bool:
    """True when the build tool that pyproject.toml asks for is here already."""
    try:
        return int(version("setuptools").partition(".")[0]) >= 77
    except PackageNotFoundError:
        return False


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel's files in it, and nothing of the checkout."""
    source = tmp_path_factory.mktemp("source")
    unwanted = shutil.ignore_patterns("__pycache__", "*.pdf", "*.egg-info")
    for name in NEEDED:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, source / name, ignore=unwanted)
        else:
            shutil.copy(ROOT / name, source)
    target = tmp_path_factory.mktemp("elsewhere")
    words = [sys.executable, "-m", "pip", "install", "--no-deps", "--quiet", "--target", target]
    if has_builder():
        words.append("--no-build-isolation")
    done = subprocess.run([*map(str, words), str(source)], capture_output=True, text=True)
    if done.returncode and not has_builder() and OFFLINE.search(done.stdout + done.stderr):
        pytest.skip("no build tool here and no network to fetch it")
    assert done.returncode == 0, done.stderr
    return target


def test_a_sheet_of_an_example_is_printed_from_the_wheel(elsewhere: Path, tmp_path: Path):
    script = (
        "import sheetgen, sys; from sheetgen.resources import data_folder as f\n"
        "assert sheetgen.__file__.startswith(sys.argv[1]), sheetgen.__file__\n"
        "print(*sorted(f('example_projects').glob('*.yaml')), sep='\\n')"
    )
    environment = os.environ | {"PYTHONPATH": str(elsewhere)}

    def run(*words: object) -> str:
        command = [sys.executable, *map(str, words)]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    examples = run("-c", script, elsewhere).splitlines()
    assert examples
    assert all(example.startswith(str(elsewhere)) for example in examples)
    said = run("-m", "sheetgen.cli.main", "print", examples[0], "--out", "sheet.pdf")
    assert said.startswith("wrote sheet.pdf: ")
    german = ("--templates", "german", "--out", "german.pdf")
    assert run("-m", "sheetgen.cli.main", "print", examples[0], *german)
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF-")


def test_the_wheel_holds_what_it_needs_and_nothing_else(elsewhere: Path):
    package = elsewhere / "sheetgen"
    for name in ("units.txt", "py.typed", "draw/fonts/LICENSE-DejaVu.txt", *TEMPLATES):
        assert (package / name).is_file()
    ours = {path.name for path in elsewhere.iterdir()} - {"bin", "Scripts"}
    assert {name.partition("-")[0] for name in ours} == {"sheetgen"}


def test_the_wheel_names_its_licences_and_its_command(elsewhere: Path):
    (info,) = elsewhere.glob("sheetgen-*.dist-info")
    metadata = (info / "METADATA").read_text(encoding="utf-8")
    assert "License-Expression: MIT AND LicenseRef-DejaVu-Fonts" in metadata
    assert list((info / "licenses").rglob("LICENSE-DejaVu.txt"))
    entry_points = (info / "entry_points.txt").read_text(encoding="utf-8")
    assert "sheetgen = sheetgen.cli.start:main" in entry_points
