"""A PDF whose attachment swells when it is unpacked: recover tells of it, within memory."""

import io
import os
import subprocess
import sys
import zlib

import pytest
from pypdf import PdfWriter

MB = 1024 * 1024
SWOLLEN = 200  # MB of noughts in 200 kB
MEASURED = """
import os, subprocess, sys
process = subprocess.Popen(sys.argv[1:], stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
said = process.stdout.read().decode()
_, status, used = os.wait4(process.pid, 0)
print(os.waitstatus_to_exitcode(status), used.ru_maxrss, said)
"""
"""Runs a program and tells its most memory; from here it would begin with that of the tests."""


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="memory cannot be measured")
def test_a_swelling_attachment_is_told_of_within_memory(sheets, tmp_path):
    writer = PdfWriter(clone_from=io.BytesIO(sheets["sheet"]))
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(bytes(MB)) for _ in range(SWOLLEN)) + packer.flush()
    for each in writer.root_object["/AF"]:
        each.get_object()["/EF"]["/F"].get_object()._data = packed
    bomb = tmp_path / "bomb.pdf"
    writer.write(bomb)
    assert bomb.stat().st_size < MB
    command = [sys.executable, "-m", "sheetgen.cli.start", "recover", str(bomb)]
    told = subprocess.run(
        [sys.executable, "-c", MEASURED, *command], capture_output=True, text=True, cwd=tmp_path
    )
    code, most, said = told.stdout.split(maxsplit=2)
    assert code == "1", said
    assert "Traceback" not in said
    assert "once unpacked" in said
    assert int(most) * 1024 < 150 * MB
    assert [file.name for file in tmp_path.iterdir()] == ["bomb.pdf"]
