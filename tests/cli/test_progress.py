"""A word about work that takes long: on a terminal, after a second, and gone at the end."""

from __future__ import annotations

import os
import subprocess
import sys
import time

import pytest

from sheetgen.cli.main import COMMANDS

SCRIPT = (
    "import time\n"
    "from sheetgen.cli.progress import progress\n"
    "with progress('packing bags', of=3) as work:\n"
    "    work.step()\n"
    "    time.sleep({wait})\n"
)


def shown(wait: float, **changes: str) -> str:
    """What a terminal gets while work lasts so many seconds."""
    import pty

    environment = os.environ | {"TERM": "xterm"} | changes
    ours, theirs = pty.openpty()
    words = [sys.executable, "-c", SCRIPT.format(wait=wait)]
    with subprocess.Popen(words, stderr=theirs, stdout=theirs, env=environment):
        os.close(theirs)
        parts = []
        try:
            while part := os.read(ours, 4096):
                parts.append(part)
        except OSError:  # how a pseudo-terminal says that the other end is closed
            pass
    os.close(ours)
    return b"".join(parts).decode()


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_long_work_is_told_and_wiped_away():
    text = shown(1.3)
    assert text.startswith("\rpacking bags: 1 of 3 [######..............]\r")
    assert text.rstrip("\r").rpartition("\r")[2].strip() == ""


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
@pytest.mark.parametrize(("wait", "changes"), [(0.2, {}), (1.3, {"TERM": "dumb"})])
def test_short_work_and_a_dumb_terminal_get_nothing(wait, changes):
    assert shown(wait, **changes) == ""


def test_a_pipe_gets_nothing():
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT.format(wait=1.3)], capture_output=True, check=True
    )
    assert (done.stdout, done.stderr) == (b"", b"")


@pytest.mark.parametrize("words", [["check"], ["print"]])
def test_quiet_says_nothing_when_all_is_well_and_mistakes_all_the_same(run, piece, words):
    good = run(*words, "--quiet", piece("cord"))
    assert (good.exit_code, good.output) == (0, "")
    bad = run(*words, "--quiet", piece("faulty"))
    assert bad.exit_code == 1
    assert "error:" in bad.output


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ there")
@pytest.mark.parametrize("after", [0.03, 0.05, 0.09])
def test_ctrl_c_while_the_program_comes_up_gives_no_traceback(after):
    """The interpreter says that it is up; from then on every moment is ours."""
    script = (
        "import sys; sys.stdout.write('up'); sys.stdout.flush()\n"
        "from sheetgen.cli.start import main; sys.argv = ['sheetgen', 'plan', '/dev/stdin']; main()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", script],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdout is not None
        assert process.stdout.read(2) == b"up"
        time.sleep(after)
        process.send_signal(2)
        _, err = process.communicate(timeout=20)
    assert b"Traceback" not in err
    assert process.returncode == 130


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ there")
@pytest.mark.parametrize(("number", "code"), [(2, 130), (15, 143)])
def test_a_signal_that_comes_where_python_swallows_it_is_not_lost(number, code):
    script = (
        "import os, sys, time\n"
        "class Gone:\n"
        "    def __del__(self): os.kill(os.getpid(), NUMBER); time.sleep(0.1)\n"
        "import sheetgen.cli.main as program\n"
        "def work():\n"
        "    Gone()\n"
        "    for _ in range(200): time.sleep(0.05)\n"
        "program.main = work\n"
        "from sheetgen.cli.start import main; main()"
    ).replace("NUMBER", str(number))
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, timeout=15)
    assert (done.returncode, done.stderr) == (code, b"")


@pytest.mark.parametrize("name", sorted({*COMMANDS} - {"plan", "schema"}))
def test_every_command_that_says_what_it_did_can_be_quiet(run, name):
    """All but those whose whole work is to show something."""
    assert "--quiet" in run(name, "--help").stdout
