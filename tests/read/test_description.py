"""Whole descriptions: what comes out, where values stand, and that no input raises."""

from __future__ import annotations

import codecs
import hashlib
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from sheetgen.diagnostics import Span, has_errors
from sheetgen.model.project import Project
from sheetgen.model.schema import entries
from sheetgen.read import ReadResult, read_description

LOOP = """\
piece: Loop of twenty-four beads
form: loop
find: {name: String of beads from a mill, invented: yes, thickness: about 3 mm, length: unknown}
yarns:
  madder: {fibre: wool, count: 20/2 Nm, colour: red}
tablets: {number: 3, threaded: S, colours: madder}
beads:
  kinds:
    box: {diameter: 10 mm, hole: 4 mm, material: boxwood}
    bone: {diameter: 12 mm, hole: 4 mm, divider: yes}
  order:
    - repeat: 2
      of: [6 box, bone, 6 box]
tassels: {number: 1, skirt: 6 cm}
"""

BAND = """\
piece: Garter
form: band
length: 0.9 m
notes: the colours are those of the heather
yarns:
  red: {wraps: 16 per cm, letter: R}
  white: {diameter: 0.6 mm}
tablets:
  number: 10
  threaded: 5S 5Z
  colours: [red, red, white, white]
  except:
    - tablets: 1, 10
      colours: {A: red, B C D: white}
  groups: {border: '1-2, 9-10'}
turning:
  - repeat: 4
    steps:
      - {border: forward 4, rest: backward 4}
  - flip border
weft: red
aglets: 2
sessions: {Saturday morning: 2 h}
"""


def codes(result: ReadResult) -> list[str]:
    return [d.code for d in result.diagnostics]


@pytest.mark.parametrize("text", [LOOP, BAND])
def test_a_good_description_has_no_mistakes(text: str) -> None:
    result = read_description(text.encode())
    assert result.diagnostics == ()
    assert isinstance(result.project, Project)


def test_shorthands_and_defaults() -> None:
    project = read_description(BAND.encode()).project
    assert project is not None
    assert project.aglets is not None
    assert (project.weft.yarn, project.aglets.number, project.aglets.length) == ("red", 2, 30.0)
    assert [(s.name, s.lasts) for s in project.sessions] == [("Saturday morning", 120)]
    assert project.notes == ("the colours are those of the heather",)
    assert project.tablets.except_[0].tablets == (1, 10)


def test_spans_of_values() -> None:
    spans = read_description(LOOP.encode()).spans
    assert spans["form",] == Span(2, 7, 4)
    assert spans["yarns", "madder", "count"] == Span(5, 32, 7)
    assert spans["yarns", "madder"] == Span(5, 3, 6)
    assert spans["beads", "order", 0, "of", 1] == Span(13, 19, 4)


def test_the_digest_is_that_of_the_bytes() -> None:
    project = read_description(LOOP.encode()).project
    assert project is not None
    assert project.digest == hashlib.sha256(LOOP.encode()).hexdigest()[:8]


def test_line_ends_and_mark_do_not_matter() -> None:
    plain = read_description(LOOP.encode())
    for data in (
        LOOP.replace("\n", "\r\n").encode(),
        LOOP.replace("\n", "\r").encode(),
        codecs.BOM_UTF8 + LOOP.encode(),
    ):
        other = read_description(data)
        assert (other.project, other.spans) == (plain.project, plain.spans)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_wide_encodings_are_named(encoding: str) -> None:
    (found,) = read_description(LOOP.encode(encoding)).diagnostics
    assert found.code == "encoding"
    assert encoding[:6].upper() in found.message
    assert found.span is None  # its line would be nothing but noise


@pytest.mark.parametrize(
    ("start", "what"),
    [(b"%PDF-1.4\n", "a PDF"), (b"\x89PNG\r\n", "PNG"), (b"PK\x03\x04", "packed")],
)
def test_a_file_of_another_kind_is_named(start: bytes, what: str) -> None:
    (found,) = read_description(start + bytes(range(256))).diagnostics
    assert (found.code, found.span) == ("not-a-text", None)
    assert what in found.message


def test_the_place_of_a_foreign_character() -> None:
    (found,) = read_description("piece: x\r\nform: blé\r\n".encode("latin-1")).diagnostics
    assert (found.code, found.span) == ("encoding", Span(2, 9))


def test_too_large_a_file() -> None:
    assert codes(read_description(b"#" * 2_000_001)) == ["too-large"]


def test_too_many_values() -> None:
    assert codes(read_description(b"a: [" + b"b," * 50_001 + b"]")) == ["too-large"]


def test_noise_is_cut_short() -> None:
    many = "\n".join(f"lenght{i}: 2 m" for i in range(5000))
    assert len(read_description(many.encode()).diagnostics) == 200


def test_odd_keys_do_not_spoil_a_message() -> None:
    name = "a\\nb" + "c" * 3000
    text = f'yarns: {{? "{name}" : {{fibre: x}}}}\n? "{name}"\n: 3\nfind: {{thickness: 3}}\n'
    for found in read_description(text.encode()).diagnostics:
        assert "\n" not in found.message + (found.hint or "") + (found.allowed or "")
        assert len(found.message) <= 600


def test_mistakes_are_sorted_by_place() -> None:
    text = LOOP.replace("loop\n", "lop\n", 1).replace("3 mm", "3").replace("6 cm", "6")
    places = [d.span for d in read_description(text.encode()).diagnostics]
    assert len(places) == 3
    assert places == sorted(places, key=lambda s: s or Span(0, 0))


def test_a_nearest_word_is_offered() -> None:
    (found,) = read_description(
        LOOP.replace("colours: madder", "colours: mader").encode()
    ).diagnostics
    assert found.message == "no yarn is called “mader”"
    assert found.hint == "did you mean “madder”?"


@pytest.mark.parametrize(
    "data",
    [
        b"[" * 100_000,
        b"{" * 100_000,
        b"a: " + b"- " * 50_000,
        b"\n".join(b" " * i + b"a:" for i in range(900)),
        b'a: "\\UFFFFFFFF"',
        b'a: "\\ud800"',
        b"%YAML 1." + b"9" * 5000 + b"\n---\na: b",
        b"%YAML 3.0\n---\na: b",
        b"a: &a [*a]",
        b"\x00" * 100,
        b"\xff\xfe",
        "a: \u2028b\u0085: c".encode(),
    ],
    ids=lambda d: repr(d[:12]),
)
def test_hostile_files_give_errors(data: bytes) -> None:
    result = read_description(data)
    assert result.project is None
    assert result.diagnostics


@given(st.binary(max_size=300))
def test_no_bytes_raise(data: bytes) -> None:
    assert read_description(data).project is None


@given(st.text("abS: -[]{},'\"#&*!|>%@`\\\n\t~?<=0123456789éx", max_size=200))
@example("a: |\n ")
@example("? ")
@example("- ? :")
def test_no_text_raises(text: str) -> None:
    assert read_description(text.encode()).project is None


def keys_of(part: type) -> set[str]:
    """All keys of a part and of the parts inside it."""
    found = set(entries(part))
    for _, entry in entries(part).values():
        if entry.part is not None:
            found |= keys_of(entry.part)
    return found


WORDS = [
    *("", " ", "red", "S", "S Z", "9999S", "all", "1-2", "300", "301", "0", "-1", "010", "1e3"),
    *("3 mm", "about 3 mm", "3 to 2 mm", "unknown", "50 g", "2 h", "10 %", "yes", "loop", "band"),
    *("20/2 Nm", "20/2", "50 g, 210 m", "32 in 5 cm", "16 per cm", "forward 4", "flip", "flip a"),
    *("10 small", "knot", "gap 3 mm", "rest", "repeat", "steps", "of", "A", "A B", "empty", "nan"),
    *(
        "/",
        "1/0 mm",
        "R",
        "x",
        ",",
        ", ,",
        "9" * 400,
        "é",
        "\x07",
        "\U0001f9f6",
        "a\nb",
        "2026-02-30",
    ),
]
words = st.sampled_from(WORDS)
keys = st.sampled_from(sorted(keys_of(Project))) | words
trees = st.recursive(
    words,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=6),
    max_leaves=25,
)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(keys, trees, max_size=12))
def test_no_tree_raises(tree: dict[str, Any]) -> None:
    data = yaml.safe_dump(tree, allow_unicode=True, sort_keys=False).encode()
    result = read_description(data)
    assert result.project is None or result.diagnostics == ()


def broken(tree: Any, junk: Any) -> list[Any]:
    """Copies of the tree, each with one value in it replaced by ``junk``."""
    places = list(tree.items()) if isinstance(tree, dict) else list(enumerate(tree))
    copies = []
    for key, inside in places:
        for other in [junk, *(broken(inside, junk) if isinstance(inside, dict | list) else [])]:
            copy = dict(tree) if isinstance(tree, dict) else list(tree)
            copy[key] = other
            copies.append(copy)
    return copies


@pytest.mark.parametrize("junk", ["%", ["%"], {"%": "%"}, {}, [], "1", "all", "red"])
@pytest.mark.parametrize("text", [LOOP, BAND], ids=["loop", "band"])
def test_one_bad_value_is_told_and_nothing_raises(text: str, junk: Any) -> None:
    tree = yaml.load(text, yaml.BaseLoader)
    for copy in broken(tree, junk):
        data = yaml.dump(copy, allow_unicode=True, sort_keys=False).encode()
        result = read_description(data)
        assert (result.project is None) == has_errors(result.diagnostics)
