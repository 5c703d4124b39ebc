"""The record from the command line: written, and what is said of photographs at their place."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner
from PIL import Image

from sheetgen.cli.main import main
from sheetgen.resources import data_folder

CORD = """piece: A cord
form: cord
length: 40 cm
tablets: 4
yarns: {red: {diameter: 0.5 mm}}
made:
  length: 41 cm
  photographs:
    - {file: a.png, caption: the cord}
"""


@pytest.fixture
def run():
    return lambda *args: CliRunner().invoke(main, [str(arg) for arg in args])


def test_the_examples_print_a_record(run, tmp_path):
    for name in ("abbey-fillet", "ferry-cross-string", "mill-race-loop", "reeve-purse-cords"):
        file = data_folder("example_projects") / f"{name}.yaml"
        out = tmp_path / f"{file.stem}.pdf"
        told = run("print", file, "--sheet", "record", "--out", out)
        assert told.exit_code == 0, told.output
        assert out.read_bytes().startswith(b"%PDF-1.7")


def test_a_missing_photograph_is_told_at_its_line_and_nothing_is_written(run, tmp_path):
    file = tmp_path / "cord.yaml"
    file.write_text(CORD)
    told = run("print", file, "--sheet", "record")
    assert told.exit_code != 0
    assert "cord.yaml:9:14: error: there is no such file [no-such-photograph]" in told.output
    assert not list(tmp_path.glob("*.pdf"))
    checked = run("check", file, "--json")
    assert [d["code"] for d in json.loads(checked.output)["diagnostics"]] == ["no-such-photograph"]
    loom = run("print", file)
    assert loom.exit_code == 0, "the loom sheet needs no photograph"


def test_a_photograph_at_hand_is_printed(run, tmp_path):
    file = tmp_path / "cord.yaml"
    file.write_text(CORD)
    Image.new("RGBA", (40, 20), (0, 0, 0, 0)).save(tmp_path / "a.png")
    told = run("print", file, "--sheet", "record")
    assert told.exit_code == 0, told.output
    assert "see-through-photograph" in told.output
    data = (tmp_path / "cord-record.pdf").read_bytes()
    assert b"/Subtype /Image" in data
    assert b"/SMask" not in data


def test_pictures_are_not_thought_of_where_there_are_none():
    code = (
        "import sys; from sheetgen.cli.main import main; from pathlib import Path\n"
        "try: main(sys.argv[1:])\nexcept SystemExit: pass\n"
        "assert 'sheetgen.photographs' not in sys.modules\nassert 'PIL.ImageCms' not in sys.modules"
    )
    example = data_folder("example_projects") / "mill-race-loop.yaml"
    done = subprocess.run(
        [sys.executable, "-c", code, "check", str(example)], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
