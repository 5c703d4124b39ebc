"""A folder held by one process is waited for by another."""

import subprocess
import sys

import pytest

from sheetgen.archive.locks import fcntl, folder_held

SCRIPT = """
import sys
from pathlib import Path
from sheetgen.archive.locks import folder_held
with folder_held(Path(sys.argv[1])):
    print("mine", flush=True)
"""


@pytest.mark.skipif(fcntl is None, reason="no locks on this system")
def test_another_process_waits_until_the_folder_is_let_go(tmp_path):
    with folder_held(tmp_path):
        other = subprocess.Popen([sys.executable, "-c", SCRIPT, tmp_path], stdout=subprocess.PIPE)
        with pytest.raises(subprocess.TimeoutExpired):
            other.wait(0.7)
    assert other.communicate(timeout=20)[0] == b"mine\n"
    assert other.returncode == 0


def test_a_folder_that_is_not_there_holds_nobody_up(tmp_path):
    with folder_held(tmp_path / "nowhere"):
        pass
