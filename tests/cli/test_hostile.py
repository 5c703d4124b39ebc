"""Descriptions that mean harm: bounded in time and memory, texts printed as they are."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from pypdf import PdfReader

from sheetgen.cli import printing
from sheetgen.cli.run import plan_file
from sheetgen.model.project import Project
from sheetgen.model.schema import entries

resource = pytest.importorskip("resource", reason="no limits can be set")

MB = 1024 * 1024
MOST_MEMORY = 400 * MB
MOST_SECONDS = 20  # of the processor; what is measured is told by the README
HEAD = "piece: A cord\nform: cord\nlength: 1 m\nyarns:\n  red: {wraps: 16 per cm}\ntablets: 4\n"
STRING = HEAD.replace("form: cord\nlength: 1 m", "form: straight")


def laughs(levels: int = 12) -> str:
    lines = ["a0: &a0 [ha, ha, ha, ha, ha, ha, ha, ha, ha]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, levels)]
    return "\n".join(lines)


def beads(order: str) -> str:
    return f"{STRING}beads:\n  kinds: {{small: 6 mm}}\n  order: {order}\n"


BOMBS = {
    "references that multiply": (HEAD + laughs(), "reference"),
    "lists in lists": (HEAD + "notes: " + "[" * 100_000, "too-deep"),
    "parts in parts": (HEAD + "find: " + "{a: " * 100_000, "too-deep"),
    "set in ever deeper": (HEAD + "\n".join(" " * n + "a:" for n in range(900)), "too-deep"),
    "a list without end": (HEAD + "notes:\n" + "- a\n" * 110_000, "too-large"),
    "keys without end": (HEAD + "".join(f"k{n}: 1\n" for n in range(45_000)), "too-large"),
    "one long line": (HEAD + "notes: " + "a " * 220_000, "too-long"),
    "one long word": (HEAD + "notes: " + "a" * 450_000, "too-long"),
    "one long number": (HEAD + "pace: " + "9" * 450_000, "not-a-number"),
    "one long length": (HEAD + "allowance: " + "9" * 450_000 + " mm", "not-a-quantity"),
    "signs without end": (HEAD + "reserve: " + "1 " * 220_000, "no-percent"),
    "marks over a letter": (HEAD + "maker: e" + "\u0301" * 220_000, "too-long"),
    "control characters": (HEAD + "maker: " + "\x01" * 450_000, "control-character"),
    "quotes without end": (HEAD + "maker: " + '"' * 450_001, "after-quote"),
    "remarks alone": ("#" * 490_000, "empty-file"),
    "too many beads": (beads("[1000000000 small]"), "out-of-range"),
    "too many repeats": (beads("[{repeat: 1000000000, of: [small]}]"), "out-of-range"),
    "repeats in repeats": (
        beads("[" + "{repeat: 100000, of: [" * 9 + "small" + "]}" * 9 + "]"), "beads"
    ),
    "turns without end": (
        HEAD + "turning: [{repeat: 1000000000, steps: [forward]}]", "out-of-range"
    ),
    "turns in turns": (
        HEAD + "turning: [" + "{repeat: 100000, steps: [" * 9 + "forward 9" + "]}" * 9 + "]",
        "picks",
    ),
    "tablets without end": (HEAD.replace("tablets: 4", "tablets: 1000000000"), "out-of-range"),
    "letters without end": (
        HEAD.replace("tablets: 4", "tablets: {number: 4, threaded: 1000000000S}"), "out-of-range"
    ),
    "a length of 1e300": (HEAD.replace("1 m", "1" + "0" * 300 + " mm"), "not-a-quantity"),
    "a bead of 1e50": (beads("[small]").replace("6 mm", "1" + "0" * 50 + " mm"), "out-of-range"),
}  # fmt: skip


MEASURED = """
import resource, subprocess, sys
limits = ((resource.RLIMIT_AS, {memory}), (resource.RLIMIT_CPU, {seconds}))
def limit():
    for what, most in limits:
        resource.setrlimit(what, (most, most))
streams = dict(stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
done = subprocess.run(sys.argv[1:], preexec_fn=limit, **streams)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
sys.stdout.buffer.write(done.stdout)
print(done.returncode, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024, file=sys.stderr)
"""


def bounded(*words: object) -> tuple[str, int, float, int]:
    """What the program says and its exit code; seconds of the processor, bytes of memory.

    A small process starts the program and measures it: what a process had before it became
    another one is counted in, and pytest has grown large by the time it comes here.
    """
    text = MEASURED.format(memory=2048 * MB, seconds=MOST_SECONDS)
    command = [sys.executable, "-c", text, sys.executable, "-m", "sheetgen.cli.start"]
    done = subprocess.run([*command, *map(str, words)], capture_output=True, check=True)
    code, seconds, memory = done.stderr.decode().split()
    return done.stdout.decode("utf-8", "replace"), int(code), float(seconds), int(memory)


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_is_told_of_in_bounded_time(tmp_path, name):
    text, code = BOMBS[name]
    file = tmp_path / "bomb.yaml"
    file.write_text(text, encoding="utf-8")
    began = time.process_time()
    outcome = plan_file(file)
    assert outcome.plan is None
    assert code in {d.code for d in outcome.diagnostics}
    assert len(outcome.diagnostics) <= 200
    assert time.process_time() - began < MOST_SECONDS


@pytest.mark.parametrize("name", ["a list without end"])
def test_a_bomb_stays_within_memory_and_time(tmp_path, name):
    text, code = BOMBS[name]
    file = tmp_path / "bomb.yaml"
    file.write_text(text, encoding="utf-8")
    said, left, seconds, memory = bounded("check", file)
    assert left == 1
    assert f"[{code}]" in said
    assert "Traceback" not in said
    assert len(said) < 200_000
    assert memory < MOST_MEMORY
    assert seconds < MOST_SECONDS


def test_a_file_of_50_mb_is_not_read_to_its_end(tmp_path):
    file = tmp_path / "large.yaml"
    with file.open("wb") as stream:
        stream.truncate(50 * MB)
    said, left, seconds, memory = bounded("check", file)
    assert (left, "[too-large]" in said) == (1, True)
    assert memory < MOST_MEMORY
    assert seconds < 5


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no such device")
@pytest.mark.parametrize("device", ["/dev/zero", "/dev/urandom", "/dev/null"])
def test_a_device_as_description(device):
    said, left, _, memory = bounded("print", device, "--out", "/nowhere/x.pdf")
    assert left == 1
    assert "error" in said
    assert "Traceback" not in said
    assert memory < MOST_MEMORY


def test_a_pipe_or_a_device_is_never_written_over(run, piece, tmp_path):
    pipe = tmp_path / "sheet.pdf"
    os.mkfifo(pipe)
    result = run("print", piece("cord"), "--out", pipe)
    assert result.exit_code == 1
    assert "unwritable-file" in result.output
    assert pipe.is_fifo()
    pipe.unlink()
    pipe.symlink_to("/dev/null")
    result = run("print", piece("cord"), "--out", pipe)
    assert result.exit_code == 1
    assert Path("/dev/null").is_char_device()


LARGEST = """piece: The longest of the widest
form: band
length: 50 m
yarns: {red: {diameter: 0.2 mm}}
tablets: {number: 300, holes: 8}
"""


@pytest.mark.skipif(not os.environ.get("SHEETGEN_LONG"), reason="takes long: SHEETGEN_LONG=1")
def test_the_largest_piece_is_planned_or_refused_within_bounds(tmp_path):
    file = tmp_path / "largest.yaml"
    file.write_text(LARGEST, encoding="utf-8")
    said, left, seconds, memory = bounded("plan", file)
    assert left in (0, 1)
    assert "Traceback" not in said
    assert memory < MOST_MEMORY
    assert seconds < MOST_SECONDS


# --- texts


PAYLOAD = "<img src='{bait}'/><a href=\"http://192.0.2.1/\">&lt;&#65;</a><b>{ends}%(x)s$HOME<!--]]>"


def keys_with_texts(part=Project, path=()):
    for key, (_, entry) in entries(part).items():
        if entry.kind in ("text", "texts") and key != "letter":
            yield (*path, key)
        elif entry.part is not None:
            step = {"part": (key,), "named parts": (key, "small"), "parts": (key, 0)}[entry.kind]
            yield from keys_with_texts(entry.part, path + step)


def with_text(path, text):
    """A string of beads, or a cord, with the text at one place and what must stand beside it."""
    quoted = "'" + text.replace("'", "''") + "'"
    lines = (HEAD if path[0] == "aglets" else STRING).rstrip().split("\n")
    lines = [line for line in lines if not line.startswith(f"{path[0]}:")]
    usual = "  kinds:\n    small: {diameter: 6 mm}\n  order: [9 small]"
    if path[0] == "yarns":
        lines.remove("  red: {wraps: 16 per cm}")
    elif path[0] != "beads" and path[0] != "aglets":
        lines += ["beads:", *usual.split("\n")]
    indent = 0
    for at, step in enumerate(path[:-1]):
        first = isinstance(path[at - 1], int) if at else False
        if step == 0:
            lines.append(" " * indent + "-")
        else:
            lines.append(" " * indent + f"{step}:")
        assert not first or step != 0
        indent += 2
    lines.append(" " * indent + f"{path[-1]}: {quoted}")
    needs = {
        ("yarns", "small"): ["wraps: 16 per cm"],
        ("beads", "kinds", "small"): ["diameter: 6 mm"],
        ("sessions", "small"): ["lasts: 2 h"],
    }
    for where, more in needs.items():
        if path[: len(where)] == where:
            lines += [" " * (2 * len(where)) + line for line in more]
    if path[0] == "beads":
        lines += ["  order: [9 small]"]
        lines += [] if path[1] == "kinds" else ["  kinds: {small: 6 mm}"]
    for part in ("find", "event"):
        if path[0] == part and path[-1] != "name":
            lines.append("  name: A name")
    if path[:2] == ("beads", "finial") and path[-1] != "name":
        lines.append("    name: A drop")
    if "stands for" in path and path[-1] != "name":
        lines.append("        name: A bead")
    return "\n".join(lines) + "\n"


OPENED: list[tuple[str, str]] = []
WATCHED = (
    "open",
    "os.listdir",
    "subprocess.Popen",
    "os.system",
    "socket.connect",
    "urllib.Request",
)
WATCHING = [False]


def watch(event, arguments):
    if WATCHING[0] and event in WATCHED:
        OPENED.append((event, str(arguments[0])))


sys.addaudithook(watch)


def text_of(pdf: bytes) -> str:
    pages = PdfReader(io.BytesIO(pdf)).pages
    return "".join("".join(page.extract_text().split()) for page in pages)


def test_markup_in_a_text_is_printed_as_it_is(tmp_path):
    bait = tmp_path / "bait.png"
    bait.write_bytes(b"not a picture")
    payload = PAYLOAD.replace("{bait}", str(bait))
    paths = list(keys_with_texts())
    paths = paths if os.environ.get("SHEETGEN_LONG") else paths[::11]
    accepted = printed = 0
    for path in paths:
        file = tmp_path / "hostile.yaml"
        file.write_text(with_text(path, payload), encoding="utf-8")
        WATCHING[0] = True
        outcome = plan_file(file)
        assert not {d.code for d in outcome.diagnostics} & {"control-character", "syntax"}, path
        if outcome.plan is None:
            WATCHING[0] = False
            continue
        accepted += 1
        made = [printing.make_sheet(outcome, s) for s in ("record", "kit", "cutouts", "loom")]
        WATCHING[0] = False
        for sheet in made:
            assert sheet.pdf, path
            assert b"/URI" not in sheet.pdf
            assert b"/Launch" not in sheet.pdf
        shown = text_of(sheet.pdf)
        if "192.0.2.1" in shown:
            assert "".join(payload.split()) in shown, path
            printed += 1
    asked = [what for event, what in OPENED if event not in ("open", "os.listdir")]
    assert not asked  # no process, no address
    assert not [what for _, what in OPENED if "bait" in what]
    print(f"{len(paths)} texts, {accepted} accepted, {printed} of them on the sheet")
    assert accepted >= len(paths) * 0.7
    assert printed >= 2
