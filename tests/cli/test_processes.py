"""The program as a process: streams, environment, what is imported, how it ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time

import pytest

HEAVY = ("pint", "reportlab", "yaml", "pypdf", "numpy")


def loaded(*words: object) -> set[str]:
    """The heavy packages that a command imports."""
    script = (
        "import sys\n"
        "from sheetgen.cli.main import main\n"
        f"try: main({[str(w) for w in words]!r})\n"
        "except SystemExit as end: assert end.code == 0, end.code\n"
        f"print(*(m for m in {HEAVY!r} if m in sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["print", "--help"]])
def test_help_waits_for_no_stage(words):
    assert loaded(*words) == set()


def test_check_does_not_wait_for_the_drawing(piece):
    assert not loaded("check", piece("cord")) & {"reportlab", "pypdf"}


def test_print_does_not_wait_for_the_archive(piece):
    assert "pypdf" not in loaded("print", piece("cord"))


def test_an_ascii_terminal_gets_plain_substitutes(start, piece):
    for command in ("plan", "check", "print"):
        done = start(command, piece("warned"), PYTHONIOENCODING="ascii", LANG="C")
        assert done.returncode == 0, done.stderr
        both = (done.stdout + done.stderr).decode("ascii")
        assert "Traceback" not in both
    plan = start("plan", piece("cord"), PYTHONIOENCODING="ascii").stdout.decode("ascii")
    assert "sqrt" in plan


@pytest.mark.skipif(sys.platform == "win32", reason="names are text there")
def test_a_file_name_that_is_no_text_can_be_named(start, tmp_path):
    done = start("check", os.fsdecode(bytes(tmp_path) + b"/\xff.yaml"))
    assert done.returncode == 1
    assert b"there is no such file" in done.stdout


def test_no_colour_where_there_is_no_terminal(start, piece):
    assert b"\x1b" not in start("check", piece("faulty")).stdout


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
@pytest.mark.parametrize(
    ("changes", "coloured"),
    [
        ({"TERM": "xterm"}, True),
        ({"TERM": "xterm", "NO_COLOR": "1"}, False),
        ({"TERM": "xterm", "NO_COLOR": ""}, True),  # set but empty counts as not set
        ({"TERM": "dumb"}, False),
    ],
)
def test_colour_on_a_terminal(piece, changes, coloured):
    import pty

    environment = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | changes
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "sheetgen.cli.main", "check", str(piece("faulty"))]
    with subprocess.Popen(command, stdout=theirs, stderr=theirs, env=environment):
        os.close(theirs)
        shown = b""
        try:
            while part := os.read(ours, 4096):
                shown += part
        except OSError:  # how a pseudo-terminal says that the other end is closed
            pass
    os.close(ours)
    assert b"error:" in shown
    assert (b"\x1b[" in shown) == coloured


@pytest.mark.parametrize("command", ["plan", "check", "print"])
@pytest.mark.skipif(sys.platform == "win32", reason="pipes end differently there")
def test_a_closed_pipe_is_quiet(piece, command):
    reading, writing = os.pipe()
    os.close(reading)
    words = [sys.executable, "-m", "sheetgen.cli.main", command, str(piece("cord"))]
    done = subprocess.run(words, stdout=writing, stderr=subprocess.PIPE)
    os.close(writing)
    assert done.stderr == b""
    assert done.returncode == 0


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no device that is always full")
@pytest.mark.parametrize("command", ["plan", "check", "--help"])
def test_a_full_disc_under_the_output_is_one_line(piece, command):
    words = [sys.executable, "-m", "sheetgen.cli.main", command, str(piece("cord"))]
    with open("/dev/full", "wb") as full:
        done = subprocess.run(words, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.stderr == b"sheetgen: error: No space left on device\n"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes")
def test_ctrl_c_while_waiting_ends_quietly(tmp_path):
    waiting = tmp_path / "never.yaml"
    os.mkfifo(waiting)
    words = [sys.executable, "-m", "sheetgen.cli.main", "check", str(waiting)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        time.sleep(1.0)  # it waits in open() until somebody writes
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
    assert process.returncode == 130
    assert b"Traceback" not in err
    assert out.strip() == b""
