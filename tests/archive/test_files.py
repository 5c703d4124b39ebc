"""A file is whole, old or new, whatever happens in between."""

from __future__ import annotations

import os
import stat
import sys
import threading

import pytest

from sheetgen.archive.files import write_whole


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
