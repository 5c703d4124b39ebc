"""A file is whole, old or new, whatever happens in between."""

from __future__ import annotations

import os
import random
import stat
import subprocess
import sys
import threading
import time

import pytest

from sheetgen.archive.files import write_new, write_whole


def test_a_new_file_is_there_with_what_was_written(tmp_path):
    path = tmp_path / "sheet.pdf"
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert os.listdir(tmp_path) == ["sheet.pdf"]


def test_an_old_file_is_replaced(tmp_path):
    path = tmp_path / "sheet.pdf"
    path.write_bytes(b"a longer old file")
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"


@pytest.mark.parametrize("error", [OSError("no room"), KeyboardInterrupt()])
@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failure_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch, step, error):
    path = tmp_path / "sheet.pdf"
    path.write_bytes(b"old")

    def fail(*_):
        raise error

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(type(error)):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["sheet.pdf"]


def test_a_folder_that_may_not_be_written_to_is_an_oserror(tmp_path, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(PermissionError):
        write_whole(tmp_path / "sheet.pdf", b"new")


def test_a_folder_that_is_not_there_is_an_oserror(tmp_path):
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "missing" / "sheet.pdf", b"new")


def test_a_folder_in_the_place_of_the_file_is_an_oserror(tmp_path):
    (tmp_path / "sheet.pdf").mkdir()
    with pytest.raises(OSError, match=r"sheet\.pdf"):
        write_whole(tmp_path / "sheet.pdf", b"new")
    assert os.listdir(tmp_path) == ["sheet.pdf"]


def test_a_taken_name_is_left_alone(tmp_path, monkeypatch):
    tokens = iter(["taken", "taken", "free"])
    monkeypatch.setattr("secrets.token_hex", lambda _: next(tokens))
    other = tmp_path / ".sheetgen-taken.tmp"
    other.write_bytes(b"of another writer")
    write_whole(tmp_path / "sheet.pdf", b"new")
    assert other.read_bytes() == b"of another writer"
    assert (tmp_path / "sheet.pdf").read_bytes() == b"new"


def test_two_writers_leave_one_whole_file(tmp_path):
    path = tmp_path / "sheet.pdf"
    contents = [bytes([65 + i]) * 200_000 for i in range(8)]
    threads = [threading.Thread(target=write_whole, args=(path, data)) for data in contents]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert path.read_bytes() in contents
    assert os.listdir(tmp_path) == ["sheet.pdf"]


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are another matter there")
def test_permissions_are_those_of_any_file(tmp_path):
    before = os.umask(0o027)
    try:
        write_whole(tmp_path / "new.pdf", b"x")
    finally:
        os.umask(before)
    # geometry: 0666 less the mask 0027
    assert stat.S_IMODE((tmp_path / "new.pdf").stat().st_mode) == 0o640
    kept = tmp_path / "kept.pdf"
    kept.write_bytes(b"old")
    kept.chmod(0o604)
    write_whole(kept, b"new")
    assert stat.S_IMODE(kept.stat().st_mode) == 0o604


@pytest.mark.skipif(sys.platform == "win32", reason="links need a privilege there")
def test_a_link_is_followed(tmp_path):
    real, link = tmp_path / "real.pdf", tmp_path / "link.pdf"
    real.write_bytes(b"old")
    link.symlink_to(real)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"


def test_the_longest_name_works(tmp_path):
    path = tmp_path / ("x" * 251 + ".pdf")  # published: POSIX NAME_MAX is 255 on common systems
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"


def test_a_filed_record_is_never_replaced(tmp_path):
    path = tmp_path / "0001.pdf"
    write_new(path, b"first")
    with pytest.raises(FileExistsError):
        write_new(path, b"second")
    assert path.read_bytes() == b"first"
    assert os.listdir(tmp_path) == ["0001.pdf"]


def test_of_many_writers_one_gets_the_name(tmp_path):
    path, told = tmp_path / "0001.pdf", []

    def write(data: bytes) -> None:
        try:
            write_new(path, data)
            told.append(data)
        except FileExistsError:
            pass

    threads = [threading.Thread(target=write, args=(bytes([65 + i]) * 9999,)) for i in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert told == [path.read_bytes()]
    assert os.listdir(tmp_path) == ["0001.pdf"]


@pytest.mark.parametrize("taken", [False, True])
def test_a_disc_without_second_names_keeps_the_promise(tmp_path, monkeypatch, taken):
    def refuse(*_, **__):
        raise PermissionError(1, "Operation not permitted")  # what FAT answers

    monkeypatch.setattr(os, "link", refuse)
    path = tmp_path / "0001.pdf"
    if taken:
        path.write_bytes(b"old")
        with pytest.raises(FileExistsError):
            write_new(path, b"new")
    else:
        write_new(path, b"new")
    assert path.read_bytes() == (b"old" if taken else b"new")
    assert os.listdir(tmp_path) == ["0001.pdf"]


@pytest.mark.skipif(sys.platform == "win32", reason="links need a privilege there")
def test_a_link_is_not_followed_to_a_new_file(tmp_path):
    (tmp_path / "link.pdf").symlink_to(tmp_path / "elsewhere.pdf")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "link.pdf", b"new")
    assert os.listdir(tmp_path) == ["link.pdf"]


@pytest.mark.parametrize("write", [write_whole, write_new])
def test_bytes_and_name_are_both_put_on_the_disc(tmp_path, monkeypatch, write):
    settled = []

    def watch(descriptor: int) -> None:
        settled.append(stat.S_ISDIR(os.fstat(descriptor).st_mode))

    monkeypatch.setattr(os, "fsync", watch)
    write(tmp_path / "a.pdf", b"new")
    assert settled == [False, True]  # the file first, then the folder


def test_what_a_killed_writer_left_is_cleared_away_when_it_is_old(tmp_path):
    old, young, other = (tmp_path / f".sheetgen-{c * 16}.tmp" for c in "abx")
    for path in (old, young, other):
        path.write_bytes(b"half")
    for path in (old, other):
        os.utime(path, (0, 0))
    write_new(tmp_path / "a.pdf", b"new")
    assert sorted(os.listdir(tmp_path)) == sorted([young.name, other.name, "a.pdf"])


WRITER = """
import sys
from pathlib import Path
from sheetgen.archive.files import write_new, write_whole
folder, turn = Path(sys.argv[1]), 0
print("ready", flush=True)
while True:
    turn += 1
    write_whole(folder / "plan.pdf", bytes([65 + turn % 26]) * 300_000)
    write_new(folder / f"{turn:04}.pdf", bytes([65 + turn % 26]) * 300_000)
"""


def test_a_kill_at_any_moment_leaves_whole_files(tmp_path):
    for number in range(12):
        folder = tmp_path / str(number)
        folder.mkdir()
        command = [sys.executable, "-c", WRITER, str(folder)]
        with subprocess.Popen(command, stdout=subprocess.PIPE) as writer:
            assert writer.stdout is not None
            writer.stdout.readline()
            time.sleep(random.uniform(0.0, 0.08))
            writer.kill()
        finished = list(folder.glob("*.pdf"))
        for path in finished:
            data = path.read_bytes()
            assert data == data[:1] * 300_000
        records = sorted(path.stem for path in finished if path.stem != "plan")
        assert records == [f"{n:04}" for n in range(1, len(records) + 1)]
        assert len(list(folder.glob(".sheetgen-*.tmp"))) <= 1
