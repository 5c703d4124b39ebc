"""Every command that writes, ended at random moments, on a full disc, twice at once.

Short here; with SHEETGEN_LONG=1 each signal hits more than 200 times, shared by the commands.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from sheetgen.archive.shelf import CLAIMS
from sheetgen.cli.main import main
from sheetgen.read import read_description
from sheetgen.read.stash import read_stash

resource = pytest.importorskip("resource", reason="no limits can be set")

EXAMPLES = Path(__file__).parents[2] / "example_projects"
HITS = 34 if os.environ.get("SHEETGEN_LONG") else 2
STRING, STASH, KIT = "ferry-cross-string.yaml", "sedgewater-stash.yaml", "town-day-workshop.yaml"
OLD = b"%PDF-1.4 the old file"
WORDS = {
    "kits": ["kits", KIT, "--out", "out"],
    "file": ["file", STRING, "--in", "out", "--prefix", "SW"],
    "register": ["register", ".", "--out", "out/r.pdf", "--csv", "out/r.csv"],
    "take": ["choose", STRING, "--stash", STASH, "--for", "red", "--take", "{yarn}", "--write"],
    "recover": ["recover", "sheet.pdf", "--out", "out"],
    "new": ["new", "out/new.yaml", "--form", "cord"],
}


@pytest.fixture
def desk(tmp_path):
    """A folder to work in, with the examples and a sheet."""
    for name in (STRING, STASH, KIT):
        shutil.copy(EXAMPLES / name, tmp_path / name)
    shutil.copytree(EXAMPLES / "photographs", tmp_path / "photographs")
    (tmp_path / "out").mkdir()
    with pytest.raises(SystemExit):
        main(["print", "--quiet", str(tmp_path / STRING), "--out", str(tmp_path / "sheet.pdf")])
    return tmp_path


def started(desk, command, before=None):
    yarn = next(iter(read_stash((desk / STASH).read_bytes()).stash.yarns)).name
    words = [word.replace("{yarn}", yarn) for word in WORDS[command]]
    run = [sys.executable, "-m", "sheetgen.cli.start", *words]

    def first():
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        if before:
            before()

    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.STDOUT}
    return subprocess.Popen(run, cwd=desk, preexec_fn=first, **pipes)


def all_whole(desk):
    """Every file is a whole one: a description reads, a PDF and a table end as they should."""
    for file in desk.rglob("*"):
        if not file.is_file() or CLAIMS in file.parts or file.name.startswith(".sheetgen-"):
            continue
        data = file.read_bytes()
        if file.suffix == ".pdf":
            assert data == OLD or data.rstrip().endswith(b"%%EOF"), file
        elif file.suffix == ".csv":
            assert data.endswith(b"\r\n"), file
        elif file.name == STASH:
            assert read_stash(data).stash, file
        elif file.suffix == ".yaml":
            assert read_description(data).project, file


def fresh(desk, first):
    """The desk as it was."""
    shutil.rmtree(desk / "out")
    (desk / "out").mkdir()
    for name, data in first.items():
        (desk / name).write_bytes(data)


@pytest.mark.parametrize("blow", [signal.SIGTERM, signal.SIGKILL, signal.SIGINT])
@pytest.mark.parametrize("command", WORDS)
def test_ended_while_it_runs(desk, command, blow):
    if HITS < 10 and (blow == signal.SIGINT or command in ("take", "new")):
        pytest.skip("in the long run")
    first = {name: (desk / name).read_bytes() for name in (STRING, STASH, KIT)}
    began = time.monotonic()
    with started(desk, command) as process:
        said = process.communicate(timeout=120)[0]
        assert process.returncode == 0, said
    usual, chance = time.monotonic() - began, random.Random(5)
    hits = tries = 0
    while hits < HITS and tries < 6 * HITS:
        tries += 1
        fresh(desk, first)
        with started(desk, command) as process:
            time.sleep(chance.uniform(0.25, 1.0) * usual)
            process.send_signal(blow)
            said = process.communicate(timeout=60)[0]
        hit = process.returncode != 0
        hits += hit
        usual *= 1 if hit else 0.95
        all_whole(desk)
        left = [file for file in desk.rglob(".sheetgen-*") if CLAIMS not in file.parts]
        ours = b"in main" in said or b"Traceback" not in said  # else Python was not up yet
        if blow != signal.SIGKILL:
            assert process.returncode in (0, 128 + blow, -blow), said
            assert not left
            assert b"bug" not in said, said
            assert b"Traceback" not in said or not ours, said
        for file in left:
            file.unlink()
    print(f"\n{command}, {blow.name}: {hits} hits of {tries}")
    fresh(desk, first)
    with started(desk, command) as process:  # who was killed leaves nothing to stumble over
        assert process.communicate(timeout=120)[0] is not None
        assert process.returncode == 0


@pytest.mark.parametrize("command", WORDS)
def test_a_full_disc_is_told_in_a_line_and_changes_nothing(desk, command):
    def small():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))

    first = {file: file.read_bytes() for file in desk.rglob("*") if file.is_file()}
    with started(desk, command, small) as process:
        said = process.communicate(timeout=60)[0].decode()
    assert process.returncode == 1, said
    assert "[unwritable-f" in said
    assert "too large" in said
    now = {file: file.read_bytes() for file in desk.rglob("*") if file.is_file()}
    assert {f: d for f, d in now.items() if CLAIMS not in f.parts} == first


@pytest.mark.parametrize("command", ["kits", "file", "new", "recover"])
def test_two_at_once_leave_whole_files(desk, command):
    codes = []

    def run():
        with started(desk, command) as process:
            said = process.communicate(timeout=120)[0]
            assert b"Traceback" not in said
            assert b"bug" not in said, said
            codes.append(process.returncode)

    threads = [threading.Thread(target=run) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(codes) in ([0, 0], [0, 1])
    all_whole(desk)
    assert not list(desk.rglob(".sheetgen-*"))
    if command == "file":
        assert sorted(codes) == [0, 1], "the same bytes are filed once"
