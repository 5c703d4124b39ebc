"""``recover`` on the command line: what is printed can be had back, and nothing is overwritten."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from sheetgen.cli.press import OF_STASH, SHEETS
from sheetgen.resources import data_folder


@pytest.fixture
def sheet(piece, run):
    """A description and the sheet printed from it."""
    file = piece("cord", "# kept as written: ä\r\n")
    assert run("print", file).exit_code == 0
    return file, file.with_name("cord-loom.pdf")


def beside(kind: str) -> list[object]:
    """What a sheet wants beside the description."""
    stash = data_folder("example_projects") / "sedgewater-stash.yaml"
    return ["--stash", stash] if kind in OF_STASH else []


@pytest.mark.parametrize("options", [[], ["--booklet"], ["--paper", "A5"]])
@pytest.mark.parametrize("kind", SHEETS)
def test_every_sheet_gives_its_description_back(piece, run, tmp_path, kind, options):
    file = piece("cord")
    pdf = tmp_path / "sheet.pdf"
    wanted = [*options, *beside(kind)]
    assert run("print", file, "--sheet", kind, "--out", pdf, *wanted).exit_code == 0
    found = tmp_path / "found"
    found.mkdir()
    result = run("recover", pdf, "--out", found)
    assert result.exit_code == 0, result.output
    assert (found / "cord.yaml").read_bytes() == file.read_bytes()
    assert os.listdir(found) == ["cord.yaml"]


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
@pytest.mark.parametrize("kind", SHEETS)
def test_every_sheet_is_sound_and_says_that_it_is_to_be_kept(piece, run, tmp_path, kind):
    for options in ([], ["--booklet"]):
        pdf = tmp_path / "sheet.pdf"
        run("print", piece("cord"), "--sheet", kind, "--out", pdf, *options, *beside(kind))
        done = subprocess.run(["qpdf", "--check", str(pdf)], capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr
        assert b"<pdfaid:part>3</pdfaid:part>" in pdf.read_bytes()


def test_a_template_of_ones_own_comes_back_too(piece, run, tmp_path):
    file = piece("cord", to="loom.yaml")
    own = tmp_path / "mine"
    own.mkdir()
    (own / "loom.yaml").write_text("words:\n  title: Own sheet\n", encoding="utf-8")
    pdf = tmp_path / "sheet.pdf"
    result = run("print", file, "--templates", own, "--out", pdf)
    assert result.exit_code == 0, result.output
    found = tmp_path / "found"
    found.mkdir()
    assert run("recover", pdf, "--out", found).exit_code == 0
    assert (found / "loom.yaml").read_bytes() == file.read_bytes()
    assert (found / "loom-templates.yaml").read_bytes() == (own / "loom.yaml").read_bytes()


def test_without_out_it_goes_into_the_current_folder(sheet, run, tmp_path, monkeypatch):
    file, pdf = sheet
    there = tmp_path / "there"
    there.mkdir()
    monkeypatch.chdir(there)
    result = run("recover", pdf)
    assert "cord.yaml: recovered" in result.output
    assert (there / "cord.yaml").read_bytes() == file.read_bytes()


def test_what_is_there_is_left_alone_unless_asked(sheet, run):
    file, pdf = sheet
    data = file.read_bytes()
    result = run("recover", pdf, "--out", file.parent)
    assert (result.exit_code, "the same" in result.output) == (0, True)
    file.write_bytes(b"something else")
    result = run("recover", pdf, "--out", file.parent)
    assert result.exit_code == 1
    assert "[file-exists]" in result.output
    assert "--overwrite" in result.output
    assert file.read_bytes() == b"something else"
    assert run("recover", pdf, "--out", file.parent, "--overwrite").exit_code == 0
    assert file.read_bytes() == data


@pytest.mark.skipif(sys.platform == "win32", reason="links need a privilege there")
@pytest.mark.parametrize("options", [[], ["--overwrite"]])
def test_a_link_does_not_lead_out_of_the_folder(sheet, run, tmp_path, options):
    _, pdf = sheet
    outside, found = tmp_path / "outside.yaml", tmp_path / "found"
    outside.write_bytes(b"mine")
    found.mkdir()
    (found / "cord.yaml").symlink_to(outside)
    assert run("recover", pdf, "--out", found, *options).exit_code == 1
    assert outside.read_bytes() == b"mine"


def test_another_name_and_a_folder_that_is_not_there(sheet, run, tmp_path):
    file, pdf = sheet
    assert run("recover", pdf, "--out", tmp_path / "other.yaml").exit_code == 0
    assert (tmp_path / "other.yaml").read_bytes() == file.read_bytes()
    result = run("recover", pdf, "--out", tmp_path / "none")
    assert result.exit_code == 1
    assert "there is no such folder" in result.output
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    ("data", "code"), [(b"no PDF", "damaged-pdf"), (None, "unreadable-file")], ids=str
)
def test_faults_are_told_in_words_and_as_json(run, tmp_path, data, code):
    pdf = tmp_path / "a.pdf"
    if data is not None:
        pdf.write_bytes(data)
    result = run("recover", pdf)
    assert result.exit_code == 1
    assert f"[{code}]" in result.output
    told = json.loads(run("recover", pdf, "--json").output)
    assert told["recovered"] == []
    assert [d["code"] for d in told["diagnostics"]] == [code]


def test_json_names_what_was_written(sheet, run, tmp_path):
    file, pdf = sheet
    out = tmp_path / "again.yaml"
    told = json.loads(run("recover", pdf, "--out", out, "--json").output)
    assert told["diagnostics"] == []
    assert told["recovered"] == [{"file": str(out), "bytes": len(file.read_bytes())}]
    assert Path(told["file"]) == pdf
