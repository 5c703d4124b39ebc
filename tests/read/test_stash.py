"""The stash: read as the weaver wrote it, and told apart from a description."""

from __future__ import annotations

import pytest

from sheetgen.read import read_description
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.stash import is_stash, read_stash
from sheetgen.resources import data_folder

EXAMPLE = (data_folder("example_projects") / "sedgewater-stash.yaml").read_bytes()


def codes(text: str) -> list[str]:
    return [d.code for d in read_stash(text.encode()).diagnostics]


def test_the_example_has_thirty_yarns_and_twenty_beads():
    read = read_stash(EXAMPLE)
    assert read.diagnostics == ()
    assert read.stash is not None
    assert (len(read.stash.yarns), len(read.stash.beads)) == (30, 20)
    yarn, bead = read.stash.yarn("madder-worsted"), read.stash.bead("green-ring")
    assert yarn is not None
    assert bead is not None
    assert yarn.count is not None
    assert yarn.count.tex == pytest.approx(2 * 1000 / 16)  # published: tex * Nm = 1000
    assert (yarn.fibre, yarn.spin, yarn.cost) == ("wool", "S", "6.40 for 50 g")
    assert yarn.at_hand is not None
    assert (yarn.at_hand.mass, yarn.at_hand.length) == (38, None)
    assert (bead.diameter, bead.length, bead.hole, bead.at_hand) == (11, 8, 4.6, 1)
    assert read.stash.yarn("no-such") is None


def test_only_a_file_with_the_key_at_its_margin_is_a_stash():
    assert is_stash(EXAMPLE)
    assert is_stash(b"\xef\xbb\xbfstash: x\n")
    assert not is_stash(b"piece: x\nnotes:\n  stash: y\n")
    assert not is_stash(b"piece: x # stash: y\n")


def test_a_stash_may_be_empty():
    read = read_stash(b"stash: new drawer\n")
    assert read.diagnostics == ()
    assert read.stash is not None
    assert not read.stash.yarns


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("stash: x\nyarns: {a: {fibre: wool}}\n", "no-thickness"),
        ("stash: x\nyarns: {a: {count: 20/2 Nm}}\n", "no-fibre"),
        ("stash: x\nbeads: {a: {diameter: 3 mm, hole: 3 mm}}\n", "hole-too-wide"),
        ("stash: x\nyarn: {a: {diameter: 1 mm}}\n", "unknown-key"),
        ("stash: x\ntools: {cards: many}\n", "not-whole"),
        ("stash: x\nyarns: {a b: {diameter: 1 mm}}\n", "bad-name"),
        ("yarns: {a: {diameter: 1 mm}}\n", "missing-key"),
        ("stash: x\nyarns: {a: {diameter: 1 mm, at hand: much}}\n", "not-a-quantity"),
        ("- stash\n", "no-keys"),
    ],
)
def test_what_is_wrong_is_told(text: str, code: str):
    read = read_stash(text.encode())
    assert code in codes(text)
    assert read.stash is None
    assert all(d.span for d in read.diagnostics if d.path)


def test_a_stash_in_the_place_of_a_description_is_told_in_one_line():
    read = read_description(EXAMPLE)
    assert [d.code for d in read.diagnostics] == ["a-stash"]
    assert read.project is None


def test_five_thousand_yarns_are_not_too_many():
    lines = [f"  y{n}: {{fibre: wool, count: 20/2 Nm, at hand: 30 g}}" for n in range(5000)]
    read = read_stash("\n".join(["stash: x", "yarns:", *lines]).encode())
    assert read.stash is not None
    assert len(read.stash.yarns) == 5000


def test_a_stash_is_read_alike_by_the_quick_parser_and_the_other():
    trees = [parse(EXAMPLE, Findings(), 300_000, fast=fast) for fast in (True, False)]
    assert trees[0] == trees[1]
    assert codes("stash: x\nyarns: {a: {diameter: 1 mm, fibre:}}\n") == ["empty-value"]
    assert codes("stash: x\nyarns: {a: {diameter: 1 mm, fibre: }}\n") == ["empty-value"]
