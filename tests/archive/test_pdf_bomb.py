"""A PDF whose attachment swells when it is unpacked: recover tells of it, within memory."""

import os
import subprocess
import sys
import zlib

import pytest
from pypdf import PdfWriter
from pypdf.generic import NameObject, StreamObject

MB = 1024 * 1024
SWOLLEN = 200  # MB of noughts in 200 kB


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="memory cannot be measured")
def test_a_swelling_attachment_is_told_of_within_memory(tmp_path):
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.add_attachment("piece.yaml", b"x")
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(bytes(MB)) for _ in range(SWOLLEN)) + packer.flush()
    for held in writer._objects:
        if isinstance(held, StreamObject) and held.get("/Type") == "/EmbeddedFile":
            held._data = packed
            held[NameObject("/Filter")] = NameObject("/FlateDecode")
    bomb = tmp_path / "bomb.pdf"
    writer.write(bomb)
    assert bomb.stat().st_size < MB
    command = [sys.executable, "-m", "sheetgen.cli.start", "recover", str(bomb)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, cwd=tmp_path
    ) as process:
        said = process.stdout.read().decode()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 1, said
    assert "Traceback" not in said
    assert "error" in said
    assert used.ru_maxrss * 1024 < 150 * MB
    assert [file.name for file in tmp_path.iterdir()] == ["bomb.pdf"]
