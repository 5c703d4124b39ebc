"""How diagnostics look. Expected columns are counted by hand on the lines that stand here."""

from __future__ import annotations

import time

import pytest

from sheetgen.cli.report import as_json, counted, rendered
from sheetgen.cli.terminal import Paint
from sheetgen.diagnostics import Diagnostic, Span

PLAIN = Paint()


def error(span: Span | None = None, **more: str) -> Diagnostic:
    return Diagnostic("some-code", "error", "this is wrong", ("a", 1), span, **more)


def underlined(line: str, span: Span, width: int = 100) -> list[str]:
    return rendered("f.yaml", line, [error(span)], PLAIN, width).splitlines()[1:3]


def test_all_lines_of_a_diagnostic_in_order():
    d = error(Span(2, 4, 3), given="xyz", allowed="abc", hint="write abc")
    assert rendered("f.yaml", "one\nk: xyz", [d], PLAIN, 100).splitlines() == [
        "f.yaml:2:4: error: this is wrong [some-code]",
        "  2 | k: xyz",
        "    |    ^^^",
        "    given    xyz",
        "    allowed  abc",
        "    hint     write abc",
        "",
        "1 error",
    ]


@pytest.mark.parametrize(
    ("line", "span", "under"),
    [
        ("k: 3 mm", Span(1, 4, 4), "3 mm"),
        ("\tk:\tvalue", Span(1, 5, 5), "value"),
        ("名: 絹糸 x", Span(1, 4, 2), "絹糸"),  # two columns a character
        ("名: 絹糸 x", Span(1, 7, 1), "x"),
        ("e\u0301e\u0301: red", Span(1, 7, 3), "red"),  # combining accents take no column
    ],
)
def test_marks_stand_under_the_value(line, span, under):
    shown, marks = underlined(line, span)
    columns = {"絹": 2, "糸": 2, "名": 2, "\u0301": 0}
    before = shown[: shown.index(under)]
    assert len(marks) - len(marks.lstrip(" |")) >= 0
    assert marks.index("^") == sum(columns.get(c, 1) for c in before)
    assert marks.count("^") == sum(columns.get(c, 1) for c in under)


def test_a_span_beyond_the_line_is_marked_at_its_end():
    shown, marks = underlined("k: v", Span(1, 90, 5))
    assert marks.index("^") == len(shown)


def test_a_line_beyond_the_file_is_not_shown():
    assert underlined("k: v", Span(7, 1))[0] == ""


@pytest.mark.parametrize("at", [0, 40, 300, 990])
@pytest.mark.parametrize("width", [40, 80])
def test_a_long_line_is_cut_round_the_place(at, width):
    line = "a" * at + "XYZ" + "b" * (1000 - at)
    shown, marks = underlined(line, Span(1, at + 1, 3), width)
    assert len(shown) <= width
    assert marks.index("^") == shown.index("XYZ")
    assert marks.count("^") == 3


def test_a_value_longer_than_the_window_is_marked_as_far_as_it_is_shown():
    shown, marks = underlined("k: " + "x" * 500, Span(1, 4, 500), 60)
    assert len(marks) <= len(shown) <= 60


def test_a_line_as_long_as_a_file_takes_no_time():
    line = "k: x, " * 300_000
    found = [error(Span(1, 1 + 9_000 * i, 3)) for i in range(200)]
    began = time.perf_counter()
    rendered("f.yaml", line, found, PLAIN, 100)
    assert time.perf_counter() - began < 2  # seconds; it takes hundredths


def test_characters_that_command_a_terminal_are_shown_as_marks():
    text = rendered("f\x1b[2J.yaml", "k: \x1b[31m\u202e", [error(Span(1, 4))], PLAIN, 100)
    assert "\x1b" not in text
    assert "\u202e" not in text


def test_a_diagnostic_without_a_place_names_the_file():
    assert rendered("f.yaml", "", [error()], PLAIN, 80).startswith("f.yaml: error: this is wrong")


def test_colour_adds_nothing_but_colour():
    coloured = rendered("f.yaml", "k: v", [error(Span(1, 4))], Paint(on=True), 80)
    assert "\x1b[1;31merror:\x1b[0m" in coloured
    for code in ("\x1b[0m", "\x1b[1m", "\x1b[1;31m", "\x1b[34m"):
        coloured = coloured.replace(code, "")
    assert coloured == rendered("f.yaml", "k: v", [error(Span(1, 4))], PLAIN, 80)


def test_count():
    warning = Diagnostic("w", "warning", "mind")
    assert counted([error(), warning, error(), error()]) == "3 errors, 1 warning"
    assert counted([warning, warning]) == "2 warnings"


def test_json_has_the_same_fields():
    assert as_json("f.yaml", [error(Span(2, 4, 3), hint="h")]) == {
        "file": "f.yaml",
        "diagnostics": [
            {
                "code": "some-code",
                "severity": "error",
                "message": "this is wrong",
                "line": 2,
                "column": 4,
                "length": 3,
                "path": ["a", 1],
                "given": None,
                "allowed": None,
                "hint": "h",
            }
        ],
    }
