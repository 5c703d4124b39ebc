"""Choices written into a description, and what was used booked off the stash: line by line."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from sheetgen.cli import taking
from sheetgen.plan.beads import string_up
from sheetgen.read import read_description
from sheetgen.read.stash import read_stash

STASH = """# the drawer
stash: drawer
yarns:
  fine: {fibre: wool, count: 40/2 Nm, colour: "red, dark", at hand: 20 g}   # from the fair
  long:
    # measured twice
    fibre: linen
    diameter: 0.4 mm
    at hand: 50 m   # by the reel
beads:
  six: {diameter: 6 mm, hole: 3 mm, at hand: 40}
  seven: 7 mm
"""
PIECE = """# a cord
piece: Beads on a cord   # for the fair
form: straight
number: A-1

yarns:
  red:   # the only one
    fibre: wool
    count: 20/2 Nm   # by the label
    letter: R
    put-up: "50 g, 500 m"   # as sold
tablets: 4

beads:
  kinds: {small: {diameter: 5 mm, hole: 3 mm}}   # one kind
  order: [20 small]
"""
MADE = "made:\n  yarns used: {red: 4 g}\n  beads used: {small: 18}\n"


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    piece, stash = tmp_path / "piece.yaml", tmp_path / "stash.yaml"
    piece.write_text(PIECE, encoding="utf-8")
    stash.write_text(STASH, encoding="utf-8")
    return piece, stash


def remarks(text: str) -> list[str]:
    return [line.partition("#")[2] for line in text.splitlines() if "#" in line]


def test_a_yarn_is_written_and_only_its_lines_change(run, files):
    piece, stash = files
    shown = run("choose", piece, "--stash", stash, "--take", "fine")
    assert shown.exit_code == 0
    assert piece.read_text("utf-8") == PIECE  # shown, not written
    assert "in stash: fine" in shown.stdout
    assert run("choose", piece, "--stash", stash, "--take", "fine", "--write").exit_code == 0
    text = piece.read_text("utf-8")
    assert remarks(text) == remarks(PIECE)
    assert [x for x in PIECE.splitlines() if x not in text.splitlines()] == [
        "    count: 20/2 Nm   # by the label",
        '    put-up: "50 g, 500 m"   # as sold',
    ]
    project = read_description(text.encode()).project
    assert project is not None
    (yarn,) = project.yarns
    assert yarn.count is not None
    assert yarn.count.text == "40/2 Nm"
    assert (yarn.name, yarn.letter, yarn.colour, yarn.in_stash) == ("red", "R", "red, dark", "fine")
    assert yarn.put_up is None
    assert yarn.at_hand is not None
    assert yarn.at_hand.mass == 20
    again = run("choose", piece, "--stash", stash, "--take", "fine", "--write")
    assert again.exit_code == 0
    assert "says so already" in again.stdout
    assert piece.read_text("utf-8") == text


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_line_ends_are_kept(run, files, ends):
    piece, stash = files
    piece.write_bytes(PIECE.replace("\n", ends).encode())
    assert run("choose", piece, "--stash", stash, "--take", "long", "--write").exit_code == 0
    data = piece.read_bytes()
    assert data.count(b"\n") == data.count(ends.encode())


def test_a_bead_is_written_with_what_it_stands_for(run, files):
    piece, stash = files
    done = run("choose", piece, "--stash", stash, "--take", "six", "--for", "small", "--write")
    assert done.exit_code == 0, done.stderr
    text = piece.read_text("utf-8")
    assert remarks(text) == remarks(PIECE)
    changed = [x for x in text.splitlines() if x not in PIECE.splitlines()]
    assert len(changed) == 1
    project = read_description(text.encode()).project
    assert project is not None
    assert project.beads is not None
    (kind,) = project.beads.kinds
    assert (kind.diameter, kind.at_hand, kind.in_stash) == (6, 40, "six")
    assert kind.stands_for is not None
    assert (kind.stands_for.length, kind.stands_for.diameter) == (5, 5)
    lone = run("choose", piece, "--stash", stash, "--take", "seven", "--write")
    assert lone.exit_code == 0  # one kind only: no --for is needed


def test_what_cannot_be_taken_is_said(run, files):
    piece, stash = files
    for words, code in (
        (("--take", "nothing"), "not-in-stash"),
        (("--take", "fine", "--for", "small"), "for-what"),
    ):
        said = run("choose", piece, "--stash", stash, *words)
        assert said.exit_code == 1
        assert code in said.stderr
    assert run("choose", piece, "--stash", stash, "--write").exit_code == 2
    assert piece.read_text("utf-8") == PIECE


def test_remarks_inside_braces_are_not_lost(run, files):
    piece, stash = files
    text = PIECE.replace("{small: {diameter: 5 mm,", "{small: {diameter: 5 mm,   # by eye\n    ")
    piece.write_text(text, encoding="utf-8")
    said = run("choose", piece, "--stash", stash, "--take", "six", "--write")
    assert said.exit_code == 1
    assert "cannot-edit" in said.stderr
    assert piece.read_text("utf-8") == text


def test_what_was_used_is_booked_off_once(run, files):
    piece, stash = files
    run("choose", piece, "--stash", stash, "--take", "fine", "--write")
    run("choose", piece, "--stash", stash, "--take", "six", "--write")
    early = run("choose", piece, "--stash", stash, "--book-off")
    assert early.exit_code == 1
    assert "nothing-used" in early.stderr
    piece.write_text(piece.read_text("utf-8") + MADE, encoding="utf-8")
    done = run("choose", piece, "--stash", stash, "--book-off")
    assert done.exit_code == 0, done.stderr
    text = stash.read_text("utf-8")
    assert remarks(text) == remarks(STASH)
    read = read_stash(text.encode()).stash
    assert read is not None
    left = {y.name: y.at_hand for y in read.yarns}
    assert left["fine"] is not None
    assert left["fine"].mass == 16  # 20 g less 4 g
    assert left["long"] is not None
    assert left["long"].length == 50_000
    assert [b.at_hand for b in read.beads] == [22, None]  # 40 less 18
    assert [b.piece for b in read.booked] == ["A-1: Beads on a cord"]
    second = run("choose", piece, "--stash", stash, "--book-off")
    assert second.exit_code == 1
    assert "booked-before" in second.stderr
    assert stash.read_text("utf-8") == text
    # a record that was changed afterwards is the same piece still
    piece.write_text(piece.read_text("utf-8").replace("4 g}", "5 g}"), encoding="utf-8")
    assert "changed since" in run("choose", piece, "--stash", stash, "--book-off").stderr
    other = piece.with_name("other.yaml")
    other.write_text(piece.read_text("utf-8").replace("A-1", "A-2"), encoding="utf-8")
    assert run("choose", other, "--stash", stash, "--book-off").exit_code == 0
    read = read_stash(stash.read_bytes()).stash
    assert read is not None
    assert len(read.booked) == 2
    assert read.beads[0].at_hand == 4


def test_mass_used_of_a_yarn_counted_by_length_and_more_than_there_was(run, files):
    piece, stash = files
    text = PIECE.replace("    count: 20/2 Nm", "    in stash: fine\n    count: 20/2 Nm")
    # published: 40/2 Nm is 50 tex, so 100 m weigh 5 g
    piece.write_text(f"{text}made: {{yarns used: {{red: 100 m}}}}\n", encoding="utf-8")
    assert run("choose", piece, "--stash", stash, "--book-off").exit_code == 0
    read = read_stash(stash.read_bytes()).stash
    assert read is not None
    assert read.yarns[0].at_hand is not None
    assert read.yarns[0].at_hand.mass == pytest.approx(15)
    piece.write_text(f"{text.replace('A-1', 'A-3')}made: {{yarns used: {{red: 90 g}}}}\n", "utf-8")
    much = run("choose", piece, "--stash", stash, "--book-off")
    assert much.exit_code == 0
    assert "more-than-there-was" in much.stderr
    assert read_stash(stash.read_bytes()).stash.yarns[0].at_hand.mass == 0


FILLED = """piece: Beads
form: straight
yarns: {a: {diameter: 0.4 mm}}
tablets: 4
beads:
  kinds:
    small: {diameter: 5 mm, hole: 3 mm}   # the find has these
    large: 9 mm
  order: %s   # from the tassel
"""
DRAWER = """stash: drawer
beads:
  short: {diameter: 5 mm, length: 4.5 mm, hole: 3 mm, at hand: 8}
  long: {diameter: 5 mm, length: 5.5 mm, hole: 3 mm, at hand: 8}
  small: {diameter: 5 mm, hole: 3 mm, at hand: %d}
"""


def beads_of(project):
    """Names in the stash, bead by bead, as the order of a description has them."""
    kinds = {kind.name: kind.in_stash or kind.name for kind in project.beads.kinds}
    strung = string_up(project.beads, 1.0)
    return [kinds[p.kind.name] if p.kind else "" for p in strung.placed]


@pytest.mark.parametrize("number", [0, 3, 10])
@pytest.mark.parametrize("order", [
    "[4 small, large, {repeat: 2, of: [3 small, gap 2.5 mm, knot]}]",
    "\n    - 4 small\n    - large\n    - repeat: 2\n      of: [3 small, gap 2.5 mm, knot]",
    "[\"4 small, large\", {repeat: 2, of: [3 small, gap 2.5 mm, knot]}]",
])  # fmt: skip
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_a_mixed_filling_is_written_and_reads_back(run, files, order, number, ends):
    piece, stash = files
    text = (FILLED % order).replace("\n", ends)
    piece.write_bytes(text.encode())
    stash.write_text(DRAWER % number, encoding="utf-8")
    told = json.loads(run("choose", piece, "--stash", stash, "--json").stdout)
    (mixed,) = (f for f in told["beads"]["fillings"] if f["way"] == "mixed")
    shown = run("choose", piece, "--stash", stash, "--fill", "mixed")
    assert shown.exit_code == 0, shown.stderr
    assert piece.read_bytes() == text.encode()
    done = run("choose", piece, "--stash", stash, "--fill", "mixed", "--write")
    assert done.exit_code == 0, done.stderr
    data = piece.read_bytes()
    assert remarks(data.decode()) == remarks(text)
    assert data.count(b"\n") == data.count(ends.encode())
    project = read_description(data).project
    assert project is not None
    found = beads_of(project)
    assert [name for name in found if name] == [
        name or "large" for run in mixed["runs"] for name, n in run for _ in range(n)
    ]  # nothing at hand is like the large one: it stays as it was wanted
    assert found.count("") == 4  # two gaps and two knots
    assert [n for n, name in enumerate(found) if not name] == [8, 9, 13, 14]


def test_a_filling_is_not_written_over_remarks_nor_without_beads(run, files):
    piece, stash = files
    text = FILLED % "\n    - 4 small   # one\n    - 3 small"
    piece.write_text(text, encoding="utf-8")
    stash.write_text(DRAWER % 0, encoding="utf-8")
    said = run("choose", piece, "--stash", stash, "--fill", "mixed", "--write")
    assert (said.exit_code, "[cannot-edit]" in said.stderr) == (1, True)
    assert "order: [" in said.stderr
    assert piece.read_text("utf-8") == text
    stash.write_text("stash: empty\n", encoding="utf-8")
    assert "[nothing-at-hand]" in run("choose", piece, "--stash", stash, "--fill", "exact").stderr
    piece.write_text(text[: text.index("beads:")].replace("straight", "cord\nlength: 1 m"), "utf-8")
    assert "[no-beads]" in run("choose", piece, "--stash", stash, "--fill", "mixed").stderr


WRITES = ("open", "write", "replace", "rename", "fsync", "unlink", "chmod")
"""What changes a file or a folder, by its name in ``os``."""


def dies_at(step: int, run, *words: object) -> bool:
    """Run the program in a process that is gone at its ``step``-th write; True if it was."""
    child = os.fork()
    if not child:
        left = [step]

        def dying(real):
            def call(*given, **more):
                left[0] -= 1
                if not left[0]:
                    os._exit(9)
                return real(*given, **more)

            return call

        for name in WRITES:
            setattr(os, name, dying(getattr(os, name)))
        os._exit(run(*words).exit_code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9


@pytest.mark.skipif(not hasattr(os, "fork"), reason="crashes are tried in a fork")
def test_a_crash_while_booking_off_leaves_the_stash_whole_and_books_once(run, files):
    piece, stash = files
    text = PIECE.replace("    count: 20/2 Nm", "    in stash: fine\n    count: 20/2 Nm")
    piece.write_text(f"{text}made: {{yarns used: {{red: 4 g}}}}\n", encoding="utf-8")
    words = ("choose", piece, "--stash", stash, "--book-off")
    assert run(*words).exit_code == 0
    booked = stash.read_bytes()
    for step in range(1, 100):
        stash.write_text(STASH, encoding="utf-8")
        died = dies_at(step, run, *words)
        left = stash.read_bytes()
        assert left in (STASH.encode(), booked), step
        again = run(*words)
        assert again.exit_code == (0 if left == STASH.encode() else 1)
        assert stash.read_bytes() == booked
        if not died:
            break
    assert step > 3


def test_a_stash_that_is_changed_meanwhile_is_not_written_over(run, files, monkeypatch):
    piece, stash = files
    piece.write_text(f"{PIECE}made: {{beads used: {{six: 4}}}}\n", encoding="utf-8")
    real = taking.booked_off

    def slowly(*given):
        found = real(*given)
        stash.write_text(f"{STASH}# seen in the other window\n", encoding="utf-8")
        return found

    monkeypatch.setattr(taking, "booked_off", slowly)
    said = run("choose", piece, "--stash", stash, "--book-off")
    assert (said.exit_code, "[changed-meanwhile]" in said.stderr) == (1, True)
    assert stash.read_text("utf-8").endswith("window\n")


def test_a_kit_that_takes_over_what_was_chosen_is_told(run, files):
    piece, stash = files
    kit = "kit:\n  differs: {tablets: 2, yarns: {red: {fibre: cotton}}}\n"
    piece.write_text(PIECE + kit, encoding="utf-8")
    said = run("choose", piece, "--stash", stash, "--take", "fine", "--write")
    assert (said.exit_code, "[kit-changes]" in said.stderr) == (1, True)
    assert "in stash: fine" in said.stderr
    assert piece.read_text("utf-8") == PIECE + kit
