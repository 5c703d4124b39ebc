"""Same description, same bytes: whatever Python, hash seed, locale and time zone.

Other Pythons are those found by name (python3.11 and newer) and those named in SHEETGEN_PYTHONS,
if they have the packages of the program; with SHEETGEN_LONG=1 every example goes through all of
them, by each seed, locale and zone.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from itertools import product
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
EXAMPLES = [
    file
    for file in sorted((ROOT / "example_projects").glob("*.yaml"))
    if "\nform: " in file.read_text(encoding="utf-8")
]
LONG = bool(os.environ.get("SHEETGEN_LONG"))
SEEDS = ("0", "1", "4294967295")
LOCALES = ("C", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8")  # Turkish: small I without a dot
ZONES = ("UTC", "Pacific/Kiritimati", "America/St_Johns")  # 14 h ahead; half an hour behind
NEWEST_TRIED = 20
PRINT = "from sheetgen.cli.main import main; main()"


def others():
    """Pythons beside the one that runs the tests, by their version."""
    named = os.environ.get("SHEETGEN_PYTHONS", "").split(os.pathsep)
    found = [shutil.which(f"python3.{n}") for n in range(11, NEWEST_TRIED)]
    pythons = {}
    for python in filter(None, [*named, *found]):
        script = "import sys, reportlab, yaml, pint, click; print('%d.%d' % sys.version_info[:2])"
        asked = subprocess.run([python, "-c", script], capture_output=True, text=True)
        version = asked.stdout.strip()
        if asked.returncode == 0 and tuple(map(int, version.split("."))) >= (3, 11):
            pythons.setdefault(version, python)
    return pythons


def printed(file, folder, python=sys.executable, **changes):
    """Digests of the sheet and of all figures, as a process of its own prints them."""
    out = folder / "sheet.pdf"
    path = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
    environment = os.environ | {"PYTHONPATH": path} | changes
    figures = b""
    for words in (["print", file, "--out", out], ["plan", file, "--json"]):
        command = [python, "-c", PRINT, *map(str, words)]
        done = subprocess.run(command, env=environment, capture_output=True, cwd=folder)
        assert done.returncode == 0, done.stderr.decode(errors="replace")
        figures = done.stdout
    return hashlib.sha256(out.read_bytes()).hexdigest(), hashlib.sha256(figures).hexdigest()


def surroundings():
    for seed, locale, zone in product(SEEDS, LOCALES, ZONES):
        yield {"PYTHONHASHSEED": seed, "LC_ALL": locale, "TZ": zone}


def test_seed_locale_and_zone_change_nothing(tmp_path):
    some = list(surroundings())
    for file in EXAMPLES if LONG else EXAMPLES[:1]:
        seen = {printed(file, tmp_path, **s) for s in (some if LONG else (some[0], some[-1]))}
        assert len(seen) == 1, file.name


def test_every_python_gives_the_same(tmp_path):
    pythons = others()
    if not pythons:
        pytest.skip("no other Python with the packages of the program")
    for file in EXAMPLES if LONG else EXAMPLES[:1]:
        here = printed(file, tmp_path)
        for version, python in pythons.items():
            assert printed(file, tmp_path, python) == here, f"{file.name}, Python {version}"
