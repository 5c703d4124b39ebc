"""The guide and the README: examples that are read, tables that are those of the model."""

from __future__ import annotations

import re
import textwrap
from pathlib import Path

import pytest

from sheetgen.cli import guide
from sheetgen.model.schema import Entry, Kind, entries
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.parts import read_value
from sheetgen.read.walk import UNREAD, Walk

README = Path(__file__).parents[2] / "README.md"
EXAMPLES = [(kind, example) for kind, _, examples in guide.NOTATIONS for example in examples]


@pytest.mark.parametrize(("kind", "example"), EXAMPLES)
def test_the_examples_of_the_guide_can_be_read(kind: Kind, example: str):
    findings = Findings()
    root = parse(f"key: {example}".encode(), findings)
    walk = Walk(findings, {("tablets", "holes"): 4, ("tablets", "number"): 20})
    value = read_value(walk, root.pairs[0][1], ("key",), Entry(kind, ""))
    assert value is not UNREAD, findings.diagnostics


@pytest.mark.parametrize("part", guide.parts())
def test_the_examples_of_the_model_can_be_read(part: type):
    for key, (_, entry) in entries(part).items():
        if entry.example and entry.part is None:
            findings = Findings()
            root = parse(f"{key}: {entry.example}".encode(), findings)
            walk = Walk(findings, {("tablets", "holes"): 4, ("tablets", "number"): 20})
            assert read_value(walk, root.pairs[0][1], (key,), entry) is not UNREAD, key
            assert not findings.diagnostics


def test_every_key_of_every_part_is_in_the_guide():
    text = guide.guide()
    for part in guide.parts():
        for key in entries(part):
            assert f"`{key}`" in text


def between(start: str, end: str) -> str:
    text = README.read_text(encoding="utf-8")
    return text.split(f"<!-- {start} -->")[1].split(f"<!-- {end} -->")[0].strip()


def test_the_keys_in_the_readme_are_those_of_the_model():
    hint = "put the output of “python -m sheetgen.cli.guide” between the marks in README.md"
    assert between("keys", "end of keys") == guide.guide().strip(), hint


DESCRIPTIONS = re.findall(r"```yaml\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)


@pytest.mark.parametrize("written", DESCRIPTIONS, ids=lambda text: text.split("\n")[0])
def test_the_descriptions_in_the_readme_have_no_mistakes(written: str):
    assert len(written.splitlines()) <= 25
    read = read_description(textwrap.dedent(written).encode())
    assert read.diagnostics == ()
    assert read.project is not None
    assert not [d for d in make_plan(read.project).diagnostics if d.is_error]


def test_the_mistakes_in_the_readme_look_as_they_do(run, tmp_path, monkeypatch):
    block = re.search(r"```\n(lace\.yaml:.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    assert block is not None
    written = re.findall(r"^ +\d+ \| (.*)$", block[1], re.MULTILINE)
    lines = ["piece: Lace", written[0], "yarns:", written[1], "tablets: 4", written[2]]
    (tmp_path / "lace.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    assert run("check", "lace.yaml").stdout == block[1]


def test_the_parts_of_the_sheet_in_the_readme_are_those_of_the_template():
    from sheetgen.read.templates import read_template
    from sheetgen.resources import data_folder

    template = read_template((data_folder("templates") / "loom.yaml").read_bytes()).template
    told = re.findall(r"^\d\. \*(.+?)\*", README.read_text(encoding="utf-8"), re.MULTILINE)
    assert template is not None
    assert told == [part.heading for part in template.parts]
