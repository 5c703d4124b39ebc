"""The commands as they are typed: exit codes, what is written where, and what is left unwritten."""

from __future__ import annotations

import json
import re
from pathlib import Path

import click
import pytest
from pypdf import PdfReader

from sheetgen import __version__
from sheetgen.cli import main as commands
from sheetgen.cli.press import PAPERS as OFFERED
from sheetgen.cli.printing import Printed
from sheetgen.cli.run import MOST_BYTES, Outcome
from sheetgen.layout.paper import PAPERS
from sheetgen.read.decoding import MOST_BYTES as MOST_READ

ALL = ([], *([name] for name in commands.COMMANDS))


@pytest.mark.parametrize("words", ALL)
def test_help_has_a_purpose_and_an_example(run, words):
    result = run(*words, "--help")
    assert result.exit_code == 0
    assert "Example: sheetgen " in result.stdout
    purpose = result.stdout.split("\n\n")[1]
    assert purpose.strip().endswith(".")


@pytest.mark.parametrize("words", ALL[1:])
def test_options_in_the_help_are_explained(words):
    command = commands.main.get_command(click.Context(commands.main), words[0])
    options = [p for p in command.params if isinstance(p, click.Option)]
    assert all(option.help and option.help.endswith(".") for option in options)


@pytest.mark.parametrize("name", commands.COMMANDS)
def test_every_command_listed_is_there_under_its_name(name):
    command = commands.main.get_command(click.Context(commands.main), name)
    assert command.name == name
    assert len(commands.COMMANDS[name]) < 60


def test_version(run):
    result = run("--version")
    assert (result.exit_code, result.stdout) == (0, f"sheetgen {__version__}\n")


@pytest.mark.parametrize(
    "words", [["prnt"], ["print"], ["check"], ["plan", "a", "b"], ["print", "a", "--paper", "A3"]]
)
def test_a_command_line_that_cannot_be_understood_is_2(run, words):
    result = run(*words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "Usage: " in result.stderr


def test_a_sheet_does_not_go_to_the_terminal(run, piece):
    result = run("print", piece("cord"), "--out", "-")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "A sheet goes into a file: write e.g. --out sheet.pdf" in result.stderr


def test_a_file_without_a_command_is_shown_with_one(run):
    result = run("base.yaml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Did you mean: sheetgen check base.yaml" in result.stderr


def test_a_file_named_without_its_ending_is_offered_with_it(run, piece):
    file = piece("cord")
    result = run("check", file.with_suffix(""))
    assert result.exit_code == 1
    assert f"didyoumean{file}?" in "".join(result.stdout.split())  # a long name may be parted


def test_the_papers_offered_are_those_there_are():
    assert tuple(PAPERS) == OFFERED


def test_the_limit_of_a_file_is_the_readers():
    assert MOST_BYTES == MOST_READ


@pytest.mark.parametrize("name", ["cord", "loop", "band"])
def test_print_writes_a_sheet_beside_the_description(run, piece, name):
    file = piece(name)
    result = run("print", file)
    assert (result.exit_code, result.stderr) == (0, "")
    sheet = file.with_name(f"{name}-loom.pdf")
    pages = len(PdfReader(sheet).pages)
    assert re.fullmatch(rf"wrote {re.escape(str(sheet))}: {pages} pages?; .+\n", result.stdout)
    assert sorted(f.name for f in file.parent.iterdir()) == [sheet.name, file.name][::1]


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        ("cord", [r"cord \S+ mm thick \(find 2 mm\)", r"warp end \S+ [cm]?m", r"\d+ picks"]),
        ("loop", [r"cord \S+ mm thick", r"\S+ [cm]?m of cord", r"warp end \S+ [cm]?m"]),
        ("band", [r"band \S+ c?mm? wide", r"warp end \S+ [cm]?m", r"\d+ picks"]),
    ],
)
def test_print_says_the_three_figures_that_matter(run, piece, name, figures):
    said = run("print", piece(name)).stdout
    assert re.search("; " + ", ".join(figures) + "\n$", said), said


@pytest.mark.parametrize("paper", list(PAPERS))
def test_print_on_the_paper_asked_for(run, piece, tmp_path, paper):
    out = tmp_path / "sheet.pdf"
    assert run("print", piece("cord"), "--out", out, "--paper", paper).exit_code == 0
    box = PdfReader(out).pages[0].mediabox
    assert float(box.width) / 72 * 25.4 == pytest.approx(PAPERS[paper].width, abs=0.01)


def test_warnings_go_to_stderr_and_the_sheet_is_written(run, piece):
    result = run("print", piece("warned"))
    assert result.exit_code == 0
    assert "warning: " in result.stderr
    assert result.stderr.endswith("1 warning\n")
    assert result.stdout.startswith("wrote ")


def test_a_character_that_no_font_has_is_named_with_its_place(run, piece):
    file = piece("cord", "maker: 絹 the weaver\n")
    result = run("print", file)
    assert result.exit_code == 0
    assert "no-such-character" in result.stderr
    line = file.read_text(encoding="utf-8").splitlines().index("maker: 絹 the weaver") + 1
    assert f"{file}:{line}:8: warning: " in result.stderr
    assert "“絹” (U+7D79)" in result.stderr


@pytest.mark.parametrize("command", ["print", "plan"])
def test_errors_go_to_stderr_and_nothing_is_written(run, piece, command):
    file = piece("faulty")
    result = run(command, file)
    assert result.exit_code == 1
    assert result.stdout == ""
    assert "error: " in result.stderr
    assert re.search(r"\n\d errors\n$", result.stderr)
    assert list(file.parent.iterdir()) == [file]


def test_an_error_leaves_the_old_sheet_as_it_is(run, piece):
    file = piece("faulty")
    old = file.with_name("faulty-loom.pdf")
    old.write_bytes(b"old")
    assert run("print", file).exit_code == 1
    assert old.read_bytes() == b"old"


def test_what_the_planner_finds_is_shown_at_its_line(run, piece):
    file = piece("loop", "length: 20 mm\n")
    result = run("check", file)
    assert result.exit_code == 1
    line = len(file.read_text(encoding="utf-8").splitlines())
    assert f"{file}:{line}:9: error: " in result.stdout
    assert "[cord-too-short]" in result.stdout


def test_check_says_when_all_is_well(run, piece):
    first, second = piece("cord"), piece("band")
    result = run("check", first, second)
    assert result.exit_code == 0
    assert result.stdout == f"{first}: no mistakes\n{second}: no mistakes\n"


def test_check_looks_at_every_file(run, piece):
    result = run("check", piece("faulty"), piece("cord"), piece("warned"))
    assert result.exit_code == 1
    assert "error: " in result.stdout
    assert "cord.yaml: no mistakes" in result.stdout
    assert "warning: " in result.stdout


def test_check_with_warnings_only_is_done(run, piece):
    assert run("check", piece("warned")).exit_code == 0


def test_check_json_is_an_object_a_line(run, piece):
    faulty, cord = piece("faulty"), piece("cord")
    result = run("check", "--json", faulty, cord)
    assert (result.exit_code, result.stderr) == (1, "")
    first, second = (json.loads(line) for line in result.stdout.splitlines())
    assert second == {"file": str(cord), "diagnostics": []}
    assert first["file"] == str(faulty)
    by_code = {d["code"]: d for d in first["diagnostics"]}
    form = by_code["not-a-choice"]
    assert (form["line"], form["column"], form["length"]) == (3, 7, 4)
    assert form["path"] == ["form"]
    assert form["given"] == "kord"
    assert {d["severity"] for d in first["diagnostics"]} == {"error"}


def test_plan_json_on_errors_has_diagnostics_only(run, piece):
    result = run("plan", "--json", piece("faulty"))
    assert (result.exit_code, result.stderr) == (1, "")
    assert set(json.loads(result.stdout)) == {"file", "diagnostics"}


@pytest.mark.parametrize("command", ["print", "plan", "check"])
@pytest.mark.parametrize(
    ("what", "reason"),
    [
        ("missing.yaml", "there is no such file"),
        ("cord.yaml/inside.yaml", "there is no such file"),
        ("n" * 300, "the name is too long"),
        ("nul\0", "this cannot be the name of a file"),
    ],
)
def test_a_file_that_cannot_be_read_is_one_line(run, piece, tmp_path, command, what, reason):
    piece("cord")
    result = run(command, tmp_path / what)
    assert result.exit_code == 1
    assert f": error: {reason} [unreadable-file]\n" in result.output
    assert "Traceback" not in result.output


def test_a_file_that_never_ends_is_not_read_to_its_end(run):
    result = run("check", "/dev/zero")
    assert result.exit_code == 1
    assert "[too-large]" in result.output


@pytest.mark.parametrize(
    ("out", "reason"),
    [
        ("nowhere/sheet.pdf", "there is no such folder"),
        ("cord.yaml", "this is the description itself"),
        ("cord.yaml/sheet.pdf", "there is no such folder"),
        ("sheet.txt", "a sheet is a PDF, and its name ends in .pdf"),
        ("n" * 300, "the name is too long"),
    ],
)
def test_a_place_that_cannot_be_written_is_one_line(run, piece, tmp_path, out, reason):
    file = piece("cord")
    before = file.read_bytes()
    result = run("print", file, "--out", tmp_path / out)
    assert (result.exit_code, result.stdout) == (1, "")
    assert f": error: {reason} [unwritable-file]\n" in result.stderr
    assert list(tmp_path.iterdir()) == [file]
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    ("problem", "reason"),
    [
        (OSError(28, "No space left on device"), "the disc is full"),
        (PermissionError(13, "Permission denied"), "it is not allowed to be opened"),
        (OSError(30, "Read-only file system"), "the disc can only be read"),
        (OSError(5, "Input/output error"), "input/output error"),
    ],
)
def test_a_disc_that_fails_is_one_line(run, piece, monkeypatch, problem, reason):
    def fail(path: Path, data: bytes) -> None:
        raise problem

    monkeypatch.setattr("sheetgen.archive.files.write_whole", fail)
    result = run("print", piece("cord"))
    assert (result.exit_code, result.stdout) == (1, "")
    assert f"{reason} [unwritable-file]" in result.stderr


def test_what_does_not_fit_the_paper_is_told(run, piece, monkeypatch):
    from sheetgen.draw.boxes import LayoutError

    def fail(*_: object) -> bytes:
        raise LayoutError("the drawing is wider than the paper")

    monkeypatch.setattr("sheetgen.draw.pdf.render", fail)
    file = piece("cord")
    result = run("print", file)
    assert result.exit_code == 1
    assert "error: the drawing is wider than the paper [does-not-fit]" in result.stderr
    assert list(file.parent.iterdir()) == [file]


def test_ctrl_c_is_quiet(run, piece, monkeypatch):
    def stopped(file: Path) -> Outcome:
        raise KeyboardInterrupt

    monkeypatch.setattr("sheetgen.cli.run.plan_file", stopped)
    result = run("check", piece("cord"))
    assert result.exit_code == 130
    assert result.output.strip() == ""


def test_pages_are_counted_in_the_file():
    pdf = b"<< /Type /Pages >> << /Type /Page >> <</Type/Page/X 1>> << /Type /PageLabel >>"
    assert Printed(pdf, Outcome(Path("x")), ()).pages == 2


def test_a_misspelt_command_is_told_with_the_nearest(run):
    result = run("printt", "garter.yaml")
    assert result.exit_code == 2
    assert result.stderr.endswith("There is no command “printt”. Did you mean: print\n")
