"""What can go wrong while a sheet is written: the old file or the new one, whole, nothing else.

Short here; with SHEETGEN_LONG=1 it is killed and interrupted 200 times each.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time

import pytest

resource = pytest.importorskip("resource", reason="no limits can be set")

TIMES = 200 if os.environ.get("SHEETGEN_LONG") else 4
OLD = b"%PDF-1.4 the old file"


def started(*words, before=None, **more):
    command = [sys.executable, "-m", "sheetgen.cli.start", *map(str, words)]

    def first():
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # what runs in the background ignores it
        if before:
            before()

    return subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=first, **more
    )


def ended(*words, before=None, **more):
    with started(*words, before=before, **more) as process:
        said = b"".join(process.communicate(timeout=120)).decode("utf-8", "replace")
    assert "Traceback" not in said
    return process.returncode, said


def whole(data):
    return data == OLD or (data.startswith(b"%PDF-") and data.rstrip().endswith(b"%%EOF"))


@pytest.fixture
def target(tmp_path):
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / "sheet.pdf").write_bytes(OLD)
    return folder / "sheet.pdf"


@pytest.fixture
def usual(piece, target):
    """Seconds that a run takes here and now."""
    began = time.monotonic()
    assert ended("print", piece("cord"), "--out", target)[0] == 0
    target.write_bytes(OLD)
    return time.monotonic() - began


@pytest.mark.parametrize("blow", [signal.SIGKILL, signal.SIGINT, signal.SIGTERM])
def test_ended_at_any_moment(piece, target, usual, blow):
    chance = random.Random(7)
    counts = {}
    for n in range(TIMES):
        usual *= 0.97 if counts.get(0, 0) > n / 5 else 1  # the machine has become faster
        target.write_bytes(OLD)
        # a quarter of them in the first 50 ms, another in the end, where the file is written
        span = [(0, 0.05), (0, usual), (0.3 * usual, usual), (0.7 * usual, 1.1 * usual)][n % 4]
        with started("print", piece("cord"), "--out", target) as process:
            time.sleep(chance.uniform(*span))
            process.send_signal(blow)
            said = b"".join(process.communicate(timeout=60))
        counts[process.returncode] = counts.get(process.returncode, 0) + 1
        assert whole(target.read_bytes())
        left = [file.name for file in target.parent.iterdir() if file != target]
        if blow == signal.SIGINT:
            # Until the first line of the program runs, Python itself ends with words of its own.
            ours = b"start.py" in said and b"in main" in said
            assert process.returncode in (0, 130, -signal.SIGINT) or not ours, said
            assert b"Traceback" not in said or not ours, said
            assert not left
        for name in left:  # nobody can tidy up who was killed; the next run must not stumble
            assert name.startswith(".sheetgen-")
            (target.parent / name).unlink()
    print(f"\n{blow.name}: {counts}")


def test_a_full_disc_leaves_the_old_file(piece, target):
    def small():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000))

    code, said = ended("print", piece("cord"), "--out", target, before=small)
    assert code == 1
    assert "unwritable-file" in said
    assert target.read_bytes() == OLD
    assert [file.name for file in target.parent.iterdir()] == [target.name]


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="no users")
def test_a_folder_that_is_not_to_be_written_in(piece, target, tmp_path):
    file = piece("cord")
    for folder in [tmp_path, *tmp_path.parents[:2]]:
        folder.chmod(0o755)
    target.parent.chmod(0o555)
    # root may write anywhere: then the program makes itself nobody once all of it is loaded
    script = (
        "import os, sys\n"
        "from sheetgen.cli import main, printing, run, characters\n"
        "import sheetgen.draw.pdf, sheetgen.layout.loom, sheetgen.plan.planner, sheetgen.read\n"
        "import sheetgen.archive.files, sheetgen.cli.commands.print, sheetgen.cli.figures\n"
        "import sheetgen.cli.report\n"
        "plan = run.plan_file\n"
        "write = printing.write\n"
        "def as_nobody(pdf, out):\n"
        "    if os.geteuid() == 0: os.setgid(65534); os.setuid(65534)\n"
        "    return write(pdf, out)\n"
        "printing.write = as_nobody\n"
        "main.main(sys.argv[1:])\n"
    )
    words = [sys.executable, "-c", script, "print", str(file), "--out", str(target)]
    try:
        done = subprocess.run(words, capture_output=True, text=True)
    finally:
        target.parent.chmod(0o755)
    assert done.returncode == 1, done.stderr
    assert "not allowed" in done.stderr
    assert "Traceback" not in done.stderr
    assert target.read_bytes() == OLD
    assert [one.name for one in target.parent.iterdir()] == [target.name]


def test_two_at_once_leave_one_whole_file(piece, target):
    ended_so = []

    def run():
        ended_so.append(ended("print", piece("cord"), "--out", target)[0])

    threads = [threading.Thread(target=run) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert ended_so == [0, 0, 0]
    assert whole(target.read_bytes())
    assert target.read_bytes() != OLD
    assert [file.name for file in target.parent.iterdir()] == [target.name]


def test_an_old_sheet_that_is_open_stays_as_it_was_to_who_reads_it(piece, target):
    with target.open("rb") as reading:
        assert ended("print", piece("cord"), "--out", target)[0] == 0
        assert reading.read() == OLD
    assert target.read_bytes() != OLD


def test_a_working_folder_that_is_gone(piece, target, tmp_path):
    gone = tmp_path / "gone"
    gone.mkdir()

    def leave():
        os.chdir(gone)
        gone.rmdir()

    code, said = ended("print", piece("cord"), "--out", target, before=leave)
    assert (code, whole(target.read_bytes())) in ((0, True), (1, True))
    assert code == 0 or "the folder you are in is no longer there" in said
    gone.mkdir()
    code, said = ended("check", "cord.yaml", before=leave)
    assert code == 1
    assert "there is no such file" in said


def test_no_home_no_locale_no_environment(piece, target):
    bare = {"PATH": "/usr/bin:/bin", "PYTHONPATH": os.environ["PYTHONPATH"]}
    code, said = ended("print", piece("cord"), "--out", target, env=bare)
    assert code == 0, said
    code, said = ended("print", piece("cord"), "--out", target, env=bare | {"LC_ALL": "no_SUCH"})
    assert code == 0, said
