"""The JSON Schema, held against a general loader of YAML and a general validator."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import get_args

import pytest
import yaml

from sheetgen.cli.json_schema import NOTATION, schema_of
from sheetgen.model.schema import Kind
from sheetgen.model.stash import Stash
from sheetgen.read import read_description
from sheetgen.resources import data_folder

jsonschema = pytest.importorskip("jsonschema")

TESTS = Path(__file__).parents[1]
README = (TESTS.parent / "README.md").read_text(encoding="utf-8")
BAD = sorted((TESTS / "read" / "bad").glob("*.yaml"))
STRUCTURAL = {"unknown-key", "missing-key", "wrong-kind", "not-a-choice", "not-yes-no"}
FILES = [
    *data_folder("example_projects").glob("*.yaml"),
    *data_folder("templates").glob("new/[!q]*.yaml"),
    *data_folder("templates").glob("german/new/[!q]*.yaml"),
    *(f for f in (TESTS / "cli" / "pieces").glob("*.yaml") if f.stem != "faulty"),
]
DESCRIPTIONS = [
    *(file.read_text(encoding="utf-8") for file in FILES),
    *re.findall(r"```yaml\n(.*?)```", README, re.DOTALL),
]


def loaded(text: str) -> object:
    """What a general loader makes of it; keys and days as JSON has them."""
    return json.loads(json.dumps(yaml.safe_load(text), default=str))


def validator(root: type | None = None):
    schema = schema_of() if root is None else schema_of(root)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def first_line(text: str) -> str:
    return next(line for line in text.splitlines() if line and line[0] != "#")[:40]


@pytest.mark.parametrize("text", DESCRIPTIONS, ids=first_line)
def test_good_descriptions_are_valid(text):
    is_stash = text.lstrip().startswith("stash:") or "\nstash:" in text
    faults = validator(Stash if is_stash else None).iter_errors(loaded(text))
    assert [f"{list(f.path)}: {f.message}"[:300] for f in faults] == []


def structural() -> list[Path]:
    """Bad descriptions that a general loader can load, with a mistake of structure at a key."""
    found = []
    for file in BAD:
        codes = {d.code for d in read_description(file.read_bytes()).diagnostics if d.is_error}
        try:
            text = file.read_text(encoding="utf-8")
            yaml.safe_load(text)
        except (yaml.YAMLError, UnicodeDecodeError, ValueError, RecursionError):
            continue
        if codes & STRUCTURAL:
            found.append(file)
    return found


@pytest.mark.parametrize("file", structural(), ids=lambda file: file.stem)
def test_bad_structure_is_invalid(file):
    assert not validator().is_valid(loaded(file.read_text(encoding="utf-8")))


def test_there_is_enough_that_is_bad():
    assert len(structural()) >= 10


@pytest.mark.parametrize(
    "line",
    ["length: 120", "paper: A3", "tablets: {holes: 9}", "shrinkage: 5", "kolour: red", "pieces: 0"],
)
def test_a_wrong_value_is_invalid(line):
    good = "piece: a\nform: cord\nyarns: {a: {count: 20/2 Nm}}\n"
    assert validator().is_valid(loaded(good))
    assert not validator().is_valid(loaded(f"{good}{line}\n"))


def test_every_kind_has_its_shape():
    own = {"choice", "whole", "number", "part", "parts", "named parts"}
    assert set(NOTATION) | own == set(get_args(Kind))


def test_the_command_writes_it_with_descriptions(run):
    result = run("schema")
    assert (result.exit_code, result.stderr) == (0, "")
    schema = json.loads(result.stdout)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert all(each["description"] for each in schema["properties"].values())
    assert json.loads(run("schema", "--stash").stdout)["properties"].keys() != schema["properties"]


@pytest.mark.parametrize(
    ("words", "at", "wanted"),
    [
        ("sheetgen pl", "1", b"plain\nplan\n"),
        ("sheetgen check ga", "2", b"file\nga\n"),
        ("sheetgen print --paper A", "3", b"plain\nA5\n"),
        ("sheetgen print --out sh", "3", b"file\nsh\n"),
    ],
)
def test_shells_complete_commands_options_and_files(words, at, wanted):
    """As the script of the shell fish asks, in the manner that click documents."""
    import os
    import subprocess
    import sys

    ask = "from sheetgen.cli.main import main; main(prog_name='sheetgen')"
    changes = {"_SHEETGEN_COMPLETE": "zsh_complete", "COMP_WORDS": words, "COMP_CWORD": at}
    done = subprocess.run(
        [sys.executable, "-c", ask], env=os.environ | changes, capture_output=True, check=False
    )
    assert done.stderr == b""
    assert wanted in done.stdout + b"\n"
