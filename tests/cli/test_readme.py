"""README.md: its contents, answers, table of figures and pictures are those of the program."""

from __future__ import annotations

import hashlib
import re
import runpy
from pathlib import Path

import pytest
from PIL import Image

from sheetgen.cli.figure_guide import figure_guide
from sheetgen.cli.figures import GROUPS
from sheetgen.cli.main import COMMANDS
from sheetgen.cli.press import SHEETS
from sheetgen.plan.equations import EQUATIONS
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "README.md").read_text(encoding="utf-8")
PICTURES = re.findall(r"!\[[^]]+]\((.pictures/[^)]+)\)", TEXT)
BASE = {
    "piece": "piece: Answer",
    "form": "form: cord",
    "length": "length: 40 cm",
    "yarns": "yarns: {red: {fibre: wool, count: 20/2 Nm}, gold: {fibre: wool, count: 20/2 Nm}}",
    "tablets": "tablets: 6",
}


def between(mark: str) -> str:
    return TEXT.split(f"<!-- {mark} -->")[1].split(f"<!-- end of {mark} -->")[0].strip()


def answers() -> list[str]:
    """The lines of descriptions in the second column of the answers."""
    found = []
    for row in between("answers").splitlines()[2:]:
        spans = re.findall(r"`(.+?)`", row.split("|", 2)[2])
        found += [s for s in spans if re.match(r"[a-z ]+: ", s) and not s.startswith("form: ")]
    return found


@pytest.mark.parametrize("line", answers())
def test_what_the_answers_say_can_be_written(line: str):
    key = line.split(":")[0]
    rest = [base for name, base in BASE.items() if name != key]
    if key == "beads":
        rest = [base.replace("form: cord", "form: straight") for base in rest]
    read = read_description("\n".join((line, *rest)).encode())
    assert not [d for d in read.diagnostics if d.is_error], read.diagnostics
    assert read.project is not None
    assert not [d for d in make_plan(read.project).diagnostics if d.is_error]


def test_there_are_answers():
    assert len(answers()) >= 12


def test_the_contents_lead_to_headings_and_name_all():
    headings = re.findall(r"^## (.+)$", TEXT, re.MULTILINE)
    anchors = [heading.lower().replace(",", "").replace(" ", "-") for heading in headings]
    job, set_up = TEXT.split("\n## ")[:2]
    assert set_up.startswith("Set up\n"), "the job in one paragraph, then the two commands"
    assert len(job.strip().split("\n\n")) == 2, "a title and a paragraph"
    contents = set_up.rpartition("\n\n- ")[2]
    assert re.findall(r"]\(#([^)]+)\)", contents) == anchors[1:]
    assert set(re.findall(r"]\(#([^)]+)\)", TEXT)) <= set(anchors)


def test_every_command_and_sheet_is_told():
    told = set(re.findall(r"`sheetgen ([a-z]+)", TEXT))
    assert told >= set(COMMANDS)
    assert {s for s in SHEETS if s != "loom"} <= set(re.findall(r"--sheet ([a-z]+)", TEXT))


def test_the_table_of_figures_is_that_of_the_code():
    hint = "put the output of “python -m sheetgen.cli.figure_guide” between the marks in README.md"
    assert between("figures") == figure_guide().strip(), hint


def test_every_equation_is_of_a_figure_and_has_a_source():
    assert set(EQUATIONS) <= {key for _, keys in GROUPS for key in keys}
    assert all(way.source for ways in EQUATIONS.values() for way in ways)


def test_the_pictures_are_there_and_those_that_are_made():
    made = runpy.run_path(str(ROOT / ".pictures" / "make.py"))["PICTURES"]
    assert {Path(name).stem for name in PICTURES} == set(made)
    assert sum((ROOT / name).stat().st_size for name in PICTURES) < 400_000


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_shows_the_example_as_it_is(name: str):
    """The plan on its pages begins the SHA-256 digest (FIPS 180-4) of the description."""
    example = runpy.run_path(str(ROOT / ".pictures" / "make.py"))["PICTURES"][Path(name).stem][0]
    data = (ROOT / "example_projects" / f"{example}.yaml").read_bytes() if example else b""
    with Image.open(ROOT / name) as picture:
        noted = picture.info["plan"]
    hint = "the example was changed: .venv/bin/python .pictures/make.py"
    assert noted == (hashlib.sha256(data).hexdigest()[:8] if example else ""), hint
