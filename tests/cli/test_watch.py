"""Watching a description: saved in every way editors save, broken, lost, found again, ended."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from queue import Empty, Queue

import pytest

from sheetgen.cli import watching
from sheetgen.cli.figures import changes
from sheetgen.cli.run import plan_file

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals differ there")


class Watched:
    """The program while it watches a file, and the lines that it says."""

    def __init__(self, file: Path, *options: str) -> None:
        words = [sys.executable, "-m", "sheetgen.cli.start", "watch", str(file), *options]
        self.process = subprocess.Popen(
            words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8"
        )
        self.lines: Queue[str] = Queue()
        self.listener = threading.Thread(target=self._listen, daemon=True)
        self.listener.start()

    def _listen(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.put(line.rstrip("\n"))

    def end(self, number: int) -> int:
        """Send a signal and wait for the end; the exit code."""
        self.process.send_signal(number)
        code = self.process.wait(timeout=10)
        self.listener.join()
        assert self.process.stdout is not None
        self.process.stdout.close()
        return code

    def until(self, words: str, seconds: float = 20) -> list[str]:
        """The lines up to the one with these words."""
        found: list[str] = []
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            try:
                found.append(self.lines.get(timeout=0.2))
            except Empty:
                continue
            if words in found[-1]:
                return found
        raise AssertionError(f"“{words}” was not said: {found}")

    def quiet_for(self, seconds: float) -> bool:
        """True when nothing is said for so long."""
        time.sleep(seconds)
        return self.lines.empty()


@pytest.fixture
def watch(piece) -> Iterator[tuple[Path, Watched]]:
    file = piece("cord")
    watched = Watched(file)
    watched.until("watching ")
    yield file, watched
    watched.end(signal.SIGKILL)


def cord(file: Path, old: str, new: str) -> str:
    text = file.read_text(encoding="utf-8")
    assert old in text
    return text.replace(old, new)


def test_every_way_of_saving_and_every_mishap(watch):
    file, watched = watch
    sheet = file.with_name("cord-loom.pdf")
    first = sheet.read_bytes()
    longer = cord(file, "length: 60 cm", "length: 70 cm")

    file.write_text(longer, encoding="utf-8")  # into the file itself
    said = watched.until("finished length")
    assert said[0].startswith("wrote ")
    assert said[-1] == "  finished length: 60 cm → 70 cm"
    assert sheet.read_bytes() != first

    beside = file.with_name("beside")  # a new file with the old one's name
    beside.write_text(longer.replace("70 cm", "80 cm"), encoding="utf-8")
    os.replace(beside, file)
    watched.until("finished length: 70 cm → 80 cm")

    good = sheet.read_bytes()
    file.write_text(longer.replace("70 cm", "80 bananas"), encoding="utf-8")
    said = watched.until("the last good sheet stays")
    assert any("“bananas” is not a unit of length" in line for line in said)
    assert sheet.read_bytes() == good

    file.unlink()
    watched.until("is gone")
    file.write_text(longer.replace("70 cm", "90 cm"), encoding="utf-8")
    watched.until("finished length: 80 cm → 90 cm")
    assert watched.process.poll() is None


def test_a_file_saved_in_two_halves_is_read_once(watch):
    file, watched = watch
    text = cord(file, "length: 60 cm", "length: 75 cm")
    with file.open("w", encoding="utf-8") as stream:
        stream.flush()
        time.sleep(0.4)  # emptied, and not yet written
        stream.write(text[: len(text) // 2])
        stream.flush()
        time.sleep(0.05)
        stream.write(text[len(text) // 2 :])
    said = watched.until("finished length: 60 cm → 75 cm")
    assert not any("error" in line for line in said)


def test_saving_what_is_there_prints_nothing(watch):
    file, watched = watch
    file.touch()
    assert watched.quiet_for(1.0)


@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_it_ends_cleanly(piece, number, code):
    file = piece("cord")
    watched = Watched(file)
    watched.until("watching ")
    assert watched.end(number) == code
    left = [watched.lines.get() for _ in range(watched.lines.qsize())]
    assert not any("Traceback" in line for line in left)
    assert sorted(f.name for f in file.parent.iterdir()) == ["cord-loom.pdf", "cord.yaml"]


def test_a_file_that_is_not_there_is_told_at_once(run, tmp_path):
    result = run("watch", tmp_path / "none.yaml")
    assert result.exit_code == 1
    assert "there is no such file" in result.stderr


def test_only_what_changed_is_told(piece):
    before, now = (
        plan_file(piece("cord", more, "a.yaml")).plan for more in ("", "reserve: 30 %\n")
    )
    told = changes(before, now)
    assert "reserve of yarn: 10 % → 30 %" in told
    assert not any("thickness" in line for line in told)
    assert changes(now, now) == []


def test_an_empty_file_is_waited_for_but_not_for_ever(tmp_path):
    file = tmp_path / "a"
    file.write_bytes(b"")
    looks = []
    watching.settled(file, looks.append)
    assert 2 <= len(looks) <= watching.EMPTY_WAIT + 2
