"""What goes to a terminal: widths, line breaks, substitutes. Widths follow Unicode's annex 11."""

from __future__ import annotations

import io

import pytest

from sheetgen.cli import terminal


@pytest.mark.parametrize(
    ("text", "width"), [("", 0), ("abc", 3), ("絹糸", 4), ("e\u0301", 1), ("a\u200db", 2)]
)
def test_cells(text, width):
    assert terminal.cells(text) == width


def test_tabs_reach_the_next_stop():
    assert terminal.laid_out("\ta\tb") == ("    a   b", [0, 4, 5, 8, 9])


@pytest.mark.parametrize("width", [2, 5, 9, 40])
@pytest.mark.parametrize("text", ["", "a few words to wrap", "絹糸絹糸絹糸 word", "x" * 50])
def test_wrapping_keeps_every_character_and_the_width(text, width):
    lines = terminal.wrapped(text, width)
    assert lines
    assert all(terminal.cells(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_padding_counts_columns():
    assert terminal.padded("絹", 4) == "絹  "
    assert terminal.padded("ab", 4, right=True) == "  ab"
    assert terminal.padded("abcdef", 4) == "abcdef"


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("“a” – 2 × 3 mm²", '"a" - 2 x 3 mm^2'),
        ("é", "e"),
        ("絹", "?"),
        ("−5 ± 1", "-5 +/- 1"),
        ("\udcff", "?"),
    ],
)
def test_plain_substitutes(text, plain, monkeypatch):
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii", newline="")
    monkeypatch.setattr("sys.stdout", out)
    terminal.make_safe()
    terminal.say(text)
    assert out.buffer.getvalue().decode() == plain + "\n"


@pytest.mark.parametrize(("columns", "width"), [("10", 40), ("80", 80), ("1000", 160), ("", 100)])
def test_the_width_is_kept_within_reason(monkeypatch, columns, width):
    monkeypatch.setenv("COLUMNS", columns)
    monkeypatch.setattr("os.get_terminal_size", lambda *_: (_ for _ in ()).throw(OSError))
    assert terminal.columns() == width
