"""Folders that mean harm, by every command that looks into them: bounded, told of, not followed."""

from __future__ import annotations

import io
import os
import struct
import subprocess
import sys
import time
import zlib

import pytest
from PIL import Image

from sheetgen.archive.numbers import number_in
from sheetgen.archive.shelf import held
from sheetgen.cli.main import main

pytest.importorskip("resource", reason="no limits can be set")

MB = 1024 * 1024
HEAD = "piece: A cord\nform: cord\nlength: 1 m\nyarns:\n  red: {wraps: 16 per cm}\ntablets: 4\n"
SECONDS = 60


def said_by(*words, code=1):
    """What the program says as a process of its own, that must end by itself and without a bug."""
    command = [sys.executable, "-m", "sheetgen.cli.start", *map(str, words)]
    done = subprocess.run(command, capture_output=True, timeout=SECONDS)
    said = (done.stdout + done.stderr).decode("utf-8", "replace")
    assert done.returncode == code, said
    assert "Traceback" not in said
    return said


def sparse(file, size, first=b""):
    with file.open("wb") as stream:
        stream.write(first)
        stream.truncate(size)


@pytest.fixture
def trap(tmp_path):
    """A folder of everything that is no record, and one that is."""
    folder = tmp_path / "trap"
    (folder / "below").mkdir(parents=True)
    (folder / "good.yaml").write_text(HEAD + "number: X-1\n")
    for name, target in {
        "round": ".", "up": "..", "a.yaml": "b.yaml", "b.yaml": "a.yaml", "self.pdf": "self.pdf",
        "passwd.yaml": "/etc/passwd", "zero.yaml": "/dev/zero", "zero.pdf": "/dev/zero",
    }.items():  # fmt: skip
        (folder / name).symlink_to(target)
    os.mkfifo(folder / "pipe.yaml")
    os.mkfifo(folder / "pipe.pdf")
    sparse(folder / "large.yaml", 50 * MB)
    sparse(folder / "large.pdf", 300 * MB, b"%PDF-1.7\n")
    (folder / "\x1b[31mred\x07.yaml").write_text(HEAD + "number: X-2\nmaker: '=1+1'\n")
    (folder / b"\xff\xfe.yaml".decode("utf-8", "surrogateescape")).write_text(HEAD + "pieces: 2\n")
    (folder / "deep.yaml").write_text(HEAD + "notes: " + "[" * 100_000)
    return folder


def test_a_register_of_a_folder_full_of_traps(trap, tmp_path):
    table = said_by("register", trap, code=0)
    assert "X-1" in table
    assert "3 pieces" in table
    assert "\x1b" not in table
    assert "root:" not in table
    out, listed = tmp_path / "r.pdf", tmp_path / "r.csv"
    said_by("register", trap, "--out", out, "--csv", listed, code=0)
    assert out.read_bytes().startswith(b"%PDF-")
    assert len(listed.read_text("utf-8-sig").splitlines()) == 4
    said_by("register", trap, "--json", code=0)


def test_a_plan_with_a_register_full_of_traps(trap):
    piece = trap.parent / "cord.yaml"
    piece.write_text(HEAD + "register: trap\n")
    assert "cannot be read" in said_by("plan", piece, code=0)


def test_filing_on_a_shelf_full_of_traps(trap):
    (trap / "spaces.yaml").write_text("number: " + " " * 100_000 + '"\n')
    claims = trap / ".numbers"
    claims.mkdir()
    (claims / "sw-0002").write_text("[" * 100_000)
    (claims / "sw-0003").write_bytes(b"\xff\0")
    (claims / "sw-0004").symlink_to("/dev/zero")
    os.mkfifo(claims / "sw-0005")
    piece = trap.parent / "cord.yaml"
    piece.write_text(HEAD + "notes: new\n")
    said_by("file", piece, "--in", trap, "--prefix", "SW", code=0)
    assert (trap / "SW-0006" / "SW-0006.yaml").is_file()


@pytest.mark.parametrize("number", ["../../x", "..", "a/../../b", "\\\\host\\x", "~", "-rf"])
def test_a_number_leads_nowhere_else(tmp_path, number):
    piece, shelf = tmp_path / "cord.yaml", tmp_path / "deep" / "er" / "shelf"
    piece.write_text(HEAD + f"number: '{number}'\n")
    with pytest.raises(SystemExit) as left:
        main(["file", str(piece), "--in", str(shelf)])
    assert left.value.code == 0
    outside = [f for f in tmp_path.rglob("*.pdf") if not f.is_relative_to(shelf)]
    assert not outside
    with held(shelf) as again:
        assert again.place(number).parent == shelf


def test_a_glance_at_a_number_takes_no_longer_than_the_text_is_long():
    for text in (b"number: " + b" " * 200_000 + b'"', b"{" + b" ," * 100_000 + b"number" * 9):
        assert number_in(text) is None  # by an unlucky pattern this takes years


def png(width, height, data):
    """As the PNG specification has it (11.2.2): so large by its own word, with these pixels."""

    def chunk(kind, data):
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def pictures(folder):
    """Pictures that are none, or ask for more than there is; name -> what is told of each."""
    (folder / "bomb.png").write_bytes(png(50_000, 50_000, zlib.compress(bytes(MB), 9)))
    swollen = zlib.compress(bytes(40 * MB), 9)
    (folder / "swollen.png").write_bytes(png(20, 20, swollen))
    Image.new("RGB", (40, 30), "red").save(folder / "whole.tif")
    (folder / "cut.tif").write_bytes((folder / "whole.tif").read_bytes()[:600])
    gif = io.BytesIO()
    Image.new("P", (4, 4)).save(gif, "GIF")
    (folder / "endless.jpg").write_bytes(gif.getvalue()[:-1] * 1000)
    os.mkfifo(folder / "pipe.jpg")
    (folder / "out.jpg").symlink_to("/etc/passwd")
    (folder / "zero.jpg").symlink_to("/dev/zero")
    (folder / "round.jpg").symlink_to("round.jpg")
    jpeg = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(jpeg, "JPEG")
    (folder / "both.jpg").write_bytes(jpeg.getvalue() + b"%PDF-1.7 <script>PK\x03\x04")
    return {
        "bomb.png": "photograph-too-large", "cut.tif": "broken-photograph",
        "endless.jpg": "foreign-photograph", "pipe.jpg": "no-such-photograph",
        "out.jpg": "photograph-outside", "zero.jpg": "photograph-outside",
        "round.jpg": "no-such-photograph", "swollen.png": None, "both.jpg": None,
    }  # fmt: skip


def test_pictures_that_mean_harm(run, tmp_path):
    told = pictures(tmp_path)
    for name, code in told.items():
        piece = tmp_path / "cord.yaml"
        piece.write_text(HEAD + f"made:\n  photographs: [{{file: {name}}}]\n")
        for words in (["print", piece, "--sheet", "record"], ["file", piece, "--in", "shelf"]):
            where = ["--out", tmp_path / "r.pdf"] if words[0] == "print" else []
            words = [tmp_path / "shelf" if word == "shelf" else word for word in words]
            result = run(*words, *where)
            assert result.exit_code == (1 if code else 0), (name, result.output)
            assert code is None or f"[{code}]" in result.output, name
    assert b"<script>" not in (tmp_path / "r.pdf").read_bytes()


def test_what_a_description_names_is_a_file_below_it(run, tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "round").symlink_to("round")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "loom.yaml").symlink_to("/dev/zero")
    piece = tmp_path / "cord.yaml"
    for key, name, words in (
        ("stash", "pipe.yaml", ["choose", piece]),
        ("stash", "round", ["choose", piece]),
        ("templates", "round", ["print", piece]),
        ("templates", "mine", ["print", piece]),
        ("register", "round", ["choose", piece]),
    ):
        piece.write_text(HEAD + f"{key}: {name}\n")
        result = run(*words)
        assert result.exit_code == 1, (key, name)
        assert "bug" not in result.output, result.output


def test_drawers_of_thousands_of_kinds(run, tmp_path):
    piece, stash = tmp_path / "string.yaml", tmp_path / "stash.yaml"
    string = HEAD.replace("form: cord\nlength: 1 m", "form: straight")
    piece.write_text(string + "beads:\n  kinds: {small: 6 mm}\n  order: [60 small]\n")
    kinds = (f"  b{i}: {{diameter: {5 + i % 20 / 10} mm, at hand: {i % 7}}}\n" for i in range(3000))
    stash.write_text("stash: A chest\nbeads:\n" + "".join(kinds))
    began = time.process_time()
    assert run("choose", piece, "--stash", stash).exit_code == 0
    assert time.process_time() - began < 20


def test_kits_of_any_size_are_refused_or_printed(run, tmp_path):
    piece = tmp_path / "kit.yaml"
    for wrong in (
        "people: 1000000000", "people: 5\n  spares: 1000000000",
        "people: 5\n  differs: &a {find: *a}",
        "people: 5\n  differs: {tablets: {number: 1000000000}}",
        "people: 5\n  differs: {turning: [{repeat: 1000000000, steps: [forward]}]}",
    ):  # fmt: skip
        piece.write_text(HEAD + f"kit:\n  {wrong}\n")
        result = run("kits", piece, "--out", tmp_path)
        assert result.exit_code == 1, wrong
        assert "error" in result.output


def test_watch_of_what_is_no_file_ends(tmp_path):
    assert "folder" in said_by("watch", tmp_path)
