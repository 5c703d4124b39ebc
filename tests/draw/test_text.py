"""Text is measured, broken and printed as it was written."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.draw.fonts import missing_characters, printable, text_width
from sheetgen.draw.pdf import render
from sheetgen.draw.scale import POINTS
from sheetgen.draw.text import Styles, paragraph, shortened
from sheetgen.layout.blocks import Boxed, Figure, Heading, Para, Run, Step, Table
from sheetgen.layout.shapes import Picture, Text

HOSTILE = [
    '<img src="/etc/passwd"/>',
    '<img src="file:///etc/hostname" width="9"/>',
    '<a href="file:///etc/passwd">x</a>',
    "x<y and z>w",
    "&amp; &lt; &#65;",
    "<b>bold</b> <para/> </para>",
    "{page} %s \\n (unclosed",
    "]]> <!-- -->",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_text_is_never_markup(sheet, read_back, text):
    runs = (Run(text),)
    blocks = (
        Heading(text),
        Para(runs),
        Step(runs, number=text[:3]),
        Table((runs,), ((runs,),), (1.0,)),
        Boxed((Para(runs),), title=text),
        Figure(Picture(150.0, 10.0, (Text(0.0, 5.0, text),)), caption=runs),
    )
    (page,) = read_back(render(sheet(*blocks, header=text, print_sentence=text)))
    wanted = text.replace(" ", "")
    found = "".join(c["text"] for c in page.chars).replace(" ", "")
    # geometry: header, heading, paragraph, step, two cells, frame (2), picture, caption, foot
    assert found.count(wanted) == 11
    assert not page.annots
    assert not page.images


def test_control_characters_and_half_characters_do_no_harm(sheet, read_back):
    text = "a\x00b\x1bc\x7fd\u200be\u202ef\ud800g\ufeffh"
    (page,) = read_back(render(sheet(Para((Run(text),)), title=text, header=text)))
    assert "a b c d" in page.extract_text()


def test_accents_are_composed_and_invisible_characters_go():
    assert printable("e\u0301") == "\u00e9"  # published: Unicode normal form C
    assert printable("soft\u00adhyphen") == "softhyphen"
    assert printable("a\nb") == "a b"


def test_the_faces_have_the_letters_that_finds_need():
    # published: Unicode blocks Latin Extended-A, Greek, Cyrillic, and marks of the trade
    letters = "āēīōūæøåðþœłşžčß ΑΩαωάέ АЯая ⌀×–…½¼→←↑↓²°µ"
    assert missing_characters(letters) == ()


def test_missing_characters_are_named_once():
    assert missing_characters("a漢字漢") == tuple(sorted("漢字"))


def test_a_character_without_a_shape_prints_as_its_number(sheet, read_back):
    text = "silk 絹 🧶."
    runs = (Run(text),)
    blocks = (Heading(text), Para(runs), Figure(Picture(90.0, 9.0, (Text(0.0, 5.0, text),)), runs))
    (page,) = read_back(render(sheet(*blocks, header=text, title=text)))
    found = "".join(c["text"] for c in page.chars).replace(" ", "")
    # published: Unicode has 絹 at 7D79 and a ball of yarn at 1F9F6
    assert found.count("silk[U+7D79][U+1F9F6].") == 5
    assert "\x00" not in found


MARKED = ["x\u0304", "q\u0303", "\u0463\u0301", "\u03c7\u0304", "p\u0302", "e\u0361a"]
"""Letters with marks for which Unicode has no composed form."""


@pytest.mark.parametrize("text", MARKED)
@pytest.mark.parametrize("bold", [False, True])
def test_marks_without_a_composed_form_stand_over_their_letter(sheet, text, bold):
    assert missing_characters(text) == ()
    assert printable(text) == text

    def ink(written: str) -> np.ndarray:
        run = Run(written, bold)
        data = render(sheet(Para((run,)), header="", version="", sheet="", page_of=""))
        bitmap = pypdfium2.PdfDocument(data)[0].render(scale=300 / 72, grayscale=True)
        grey = bitmap.to_numpy().reshape(bitmap.height, bitmap.width)
        px = 300 / 25.4
        return grey[round(20 * px) : round(27 * px), round(11 * px) : round(25 * px)] < 128

    bare, marked = ink(text.replace(text[1], "")), ink(text)
    more = marked & ~bare
    assert more.sum() > 20  # something is there beside the letter
    assert not (bare & ~marked).any()  # and the letter is where it was
    # geometry: the mark lies over the letter, not beside it
    columns, letter = np.flatnonzero(more.any(axis=0)), np.flatnonzero(bare.any(axis=0))
    assert abs(columns.mean() - letter.mean()) < 0.35 * (letter[-1] - letter[0] + 1)
    assert marked.any(axis=1).argmax() < bare.any(axis=1).argmax()


def test_width_grows_with_size_and_needs_no_document():
    # geometry: widths are proportional to the size
    assert text_width("Ten ells", 20.0, False) == pytest.approx(2 * text_width("Ten ells", 10.0))
    # published: DejaVu Sans Condensed, advance of "n" 1169 of 2048 units
    assert text_width("n" * 100, 10.0) == pytest.approx(
        100 * 1169 / 2048 * 10 * 25.4 / 72, rel=0.01
    )
    assert text_width("", 10.0, True) == 0.0


def _lines(runs, width, style=None):
    """Text and width in mm of every line that a paragraph ``width`` mm wide gets."""
    style = style or Styles.of(10.0).body
    text = paragraph(runs, style)
    text.wrap(width * POINTS, 1e6)
    for line in text.blPara.lines:
        if isinstance(line, tuple):
            yield " ".join(line[1]), width - line[0] / POINTS
        else:
            yield "".join(word.text for word in line.words), width - line.extraSpace / POINTS


@given(
    st.lists(st.tuples(st.text(max_size=60), st.booleans()), max_size=6),
    st.floats(min_value=15.0, max_value=200.0),
)
def test_lines_never_run_out_of_their_column_and_lose_nothing(parts, width):
    runs = tuple(Run(text, bold) for text, bold in parts)
    lines = list(_lines(runs, width))
    # The library counts the blank behind the last piece of a broken word: it prints nothing.
    blank = text_width(" ", 10.0, True)
    assert all(wide <= width + blank + 1e-6 for _, wide in lines)
    printed = "".join(text for text, _ in lines)
    written = "".join(printable(part) for text, _ in parts for part in text.split("\n"))
    assert "".join(printed.split()) == "".join(written.split())


def test_weights_meet_inside_a_word(sheet, read_back):
    runs = (Run("half"), Run("bold", True), Run(" end"))
    (page,) = read_back(render(sheet(Para(runs))))
    chars = [c for c in page.chars if c["top"] > page.height / 20 and c["text"] != " "][:11]
    assert "".join(c["text"] for c in chars) == "halfboldend"
    assert ["Bold" in c["fontname"] for c in chars] == [False] * 4 + [True] * 4 + [False] * 3
    # geometry: each piece starts where the one before ends
    assert chars[4]["x0"] == pytest.approx(chars[3]["x1"], abs=0.01)


def test_a_line_end_in_a_text_is_kept():
    assert [text for text, _ in _lines((Run("one\ntwo\n"),), 100.0)] == ["one", "two"]


def test_a_long_word_breaks_at_its_hyphen():
    word = "double-faced-and-brocaded-with-a-border"
    texts = [text for text, _ in _lines((Run(word),), 30.0)]
    assert "".join(texts) == word
    assert len(texts) > 2
    assert all(text.endswith("-") for text in texts[:-1])


@given(st.text(max_size=80), st.floats(min_value=5.0, max_value=80.0))
def test_a_shortened_text_fits(text, width):
    short = shortened(text, 8.5, True, width)
    assert text_width(short, 8.5, True) <= width
    assert short == printable(text) or short.endswith("…")
