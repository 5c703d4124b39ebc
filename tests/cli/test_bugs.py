"""A bug in the program: one line and what to attach; with ``--debug`` the traceback."""

from __future__ import annotations

import pytest

from sheetgen.cli import run as stages

EX_SOFTWARE = 70  # BSD sysexits.h


@pytest.fixture
def broken(monkeypatch, piece):
    """A description, and a program that stumbles over it."""

    def stumble(*words, **more):
        raise ZeroDivisionError("a\x1b[2Jb")

    monkeypatch.setattr(stages, "plan_file", stumble)
    return piece("cord")


def test_a_bug_is_one_line_that_says_what_to_attach(broken, run):
    result = run("print", broken)
    assert result.exit_code == EX_SOFTWARE
    assert result.stdout == ""
    assert result.stderr.count("\n") == 1
    for word in ("ZeroDivisionError", "report", "attach", f"sheetgen --debug print {broken}"):
        assert word in result.stderr
    assert "Traceback" not in result.stderr


def test_debug_gives_the_traceback_and_asks_for_a_report(broken, run):
    result = run("--debug", "print", broken)
    assert result.exit_code == EX_SOFTWARE
    assert result.stderr.startswith("Traceback (most recent call last):")
    for word in ("ZeroDivisionError", "stumble", "report", "attach", "Python 3."):
        assert word in result.stderr
    assert "\x1b" not in result.stderr


def test_debug_changes_nothing_where_there_is_no_bug(piece, run):
    assert run("--debug", "check", piece("cord")).exit_code == 0
    assert run("--debug", "check", piece("faulty")).output == run("check", piece("faulty")).output


def test_debug_after_the_command_is_told_of(piece, run):
    assert run("check", piece("cord"), "--debug").exit_code == 2


def test_too_little_memory_is_no_bug(monkeypatch, piece, run):
    def fill(*words, **more):
        raise MemoryError

    monkeypatch.setattr(stages, "plan_file", fill)
    result = run("check", piece("cord"))
    assert (result.exit_code, result.stderr.count("\n")) == (1, 1)
    assert "memory" in result.stderr


def test_ctrl_c_that_comes_out_as_another_error_is_no_bug(monkeypatch, piece, run):
    def wrapped(*words, **more):
        raise RuntimeError("Error calling __set_name__") from KeyboardInterrupt()

    monkeypatch.setattr(stages, "plan_file", wrapped)
    result = run("check", piece("cord"))
    assert (result.exit_code, result.stderr) == (130, "")
