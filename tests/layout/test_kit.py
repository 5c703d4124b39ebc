"""The kit sheet: one sheet of paper, two sides, in words that a child reads."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from pdfplumber.page import Page
from pypdf import PdfReader

from sheetgen.cli.sets import shipped
from sheetgen.draw.boxes import LayoutError
from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document
from sheetgen.layout.cutouts import cutouts_sheet
from sheetgen.layout.kit import kit_sheet
from sheetgen.layout.kit_boxes import boxes_of
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.words import named_in
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

MM = 72 / 25.4  # published: PDF counts in 1/72 inch, an inch is 25.4 mm
CORD = "piece: Q\nform: cord\nyarns: {a: {diameter: 0.5 mm}}\n"
WIDE = "piece: Q\nform: band\nyarns: {a: {diameter: 0.3 mm}}\ntablets: 300\nlength: 30 cm\n"


@pytest.fixture(scope="module")
def kit_template() -> Callable[[str], Template]:
    def get(language: str) -> Template:
        result = shipped("kit", language)
        assert result.template is not None, result.about.diagnostics
        return result.template

    return get


def pages(document: Document) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(render(document))).pages]


@pytest.mark.parametrize("printing", ["A4-english", "Letter-english", "Letter-german"])
def test_every_example_goes_onto_the_two_sides_of_a_sheet(
    example: str,
    printing: str,
    example_plan: Callable[[str], Plan],
    kit_template: Callable[[str], Template],
):
    paper, language = printing.split("-")
    document = kit_sheet(example_plan(example), kit_template(language), PAPERS[paper], text_width)
    assert len(pages(document)) == 2


@pytest.mark.parametrize("text", [f"{CORD}tablets: 6\nlength: {n} m" for n in (3, 50)] + [WIDE])
def test_so_do_the_longest_and_the_widest(
    text: str, plan_of: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    document = kit_sheet(plan_of(text), kit_template("english"), PAPERS["A4"], text_width)
    assert len(pages(document)) == 2


def test_what_does_not_fit_is_named_with_what_to_shorten(
    plan_of: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    # combinatorics: four holes of two yarns and two ways of threading make 2 x 2^4 = 32 tablets
    lines = [
        f"{way} {' '.join('ab'[n >> k & 1] for k in range(4))}" for way in "SZ" for n in range(16)
    ]
    text = f"{WIDE.replace('300', '{number: 300, draft: [' + ', '.join(lines) + ']}')}"
    plan = plan_of(text.replace("}}\n", "}, b: {diameter: 0.3 mm}}\n", 1))
    document = kit_sheet(plan, kit_template("english"), PAPERS["A4"], text_width)
    assert "“tablets”: 32 are threaded differently, about 16 too many" in document.too_much
    with pytest.raises(LayoutError, match="tablets") as told:
        render(replace(document, most_pages=1))
    assert "kit" in told.value.hint
    assert "paper" not in told.value.hint


def test_it_says_about_how_much_too_long_it_is(
    plan_of: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    document = kit_sheet(
        plan_of(f"{CORD}tablets: 6\nlength: 30 cm"),
        kit_template("english"),
        PAPERS["A4"],
        text_width,
    )
    twice = replace(document, blocks=document.blocks * 2)
    once = [told_length(replace(document, most_pages=1)), told_length(replace(twice, most_pages=1))]
    # the same twice is twice as long; columns that end before a picture make it a little more
    assert (1 + once[1]) / (1 + once[0]) == pytest.approx(2, rel=0.1)


def told_length(document: Document) -> float:
    with pytest.raises(LayoutError, match=r"about \d+ % longer") as told:
        render(document)
    found = re.search(r"about (\d+) %", str(told.value))
    assert found is not None
    return int(found[1]) / 100


def test_too_long_a_pattern_says_which_key(
    plan_of: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    steps = ", ".join(f"forward {n}, backward {n}" for n in range(1, 41))  # counted: 80 steps
    plan = plan_of(f"{CORD}tablets: 4\nlength: 5 m\nturning: [{steps}]")
    document = kit_sheet(plan, kit_template("english"), PAPERS["A4"], text_width)
    with pytest.raises(LayoutError, match="“turning”: 80 different steps, about 68 too many"):
        render(document)


def test_boxes_hold_every_pick_once(example: str, example_plan: Callable[[str], Plan]):
    plan = example_plan(example)
    for per_box in (4, 12, 24):
        boxes = list(boxes_of(plan, per_box))
        assert [b.first for b in boxes[1:]] == [b.last for b in boxes[:-1]]
        assert (boxes[0].first, boxes[-1].last) == (0, plan.turning.picks)
        assert all(0 < b.last - b.first <= per_box for b in boxes)
        stops = {b.last: b.stop for b in boxes if b.stop}
        assert stops == {i.pick: i.number for i in plan.turning.interventions}


def sentences(template: Template) -> dict[tuple[str, ...], tuple[str, tuple[str, ...]]]:
    found = {("words", k): (w, ()) for k, w in template.words.items()}
    for part in template.parts:
        found[part.name, "heading"] = (part.heading, ())
        found |= {(part.name, "words", k): (w, ()) for k, w in part.words.items()}
        for name, lines in part.lists.items():
            found |= {(part.name, name, line.key): (line.say, line.when) for line in lines}
    return found


def test_both_languages_say_the_same(kit_template: Callable[[str], Template]):
    english, german = (sentences(kit_template(name)) for name in ("english", "german"))
    assert list(english) == list(german)
    for place, (sentence, when) in english.items():
        assert german[place][1] == when, place
        assert set(named_in(sentence)) == set(named_in(german[place][0])), place
        told = re.sub(r"\{[^}]*\}|[^A-Za-z]", "", sentence)
        if len(told) > 12:
            assert sentence != german[place][0], place


def read_aloud(template: Template) -> list[str]:
    """Every sentence of the lists: what a guest must follow, a figure read as a number."""
    lines = [ln.say for part in template.parts for lns in part.lists.values() for ln in lns]
    plain = [re.sub(r"\{[^}]*\}", "ten", line).replace("**", "") for line in lines]
    return [s for line in plain for s in re.split(r"[.?!:|]+", line) if re.search("[a-z]", s)]


def english_syllables(word: str) -> int:
    """Groups of vowels, without a mute e at the end (a usual rule, no source)."""
    word = re.sub(r"(?<![aeiouyl])e$|(?<=[^td])ed$", "", word.lower())
    return max(1, len(re.findall("[aeiouy]+", word)))


def test_a_child_of_12_reads_the_english(kit_template: Callable[[str], Template]):
    """Published: Kincaid et al. 1975, grade = 0.39 words per sentence
    + 11.8 syllables per word - 15.59. A child of 12 is in about grade 6 or 7."""
    found = read_aloud(kit_template("english"))
    words = [word for sentence in found for word in re.findall("[A-Za-z]+", sentence)]
    syllables = sum(map(english_syllables, words))
    assert 0.39 * len(words) / len(found) + 11.8 * syllables / len(words) - 15.59 < 6


def test_a_child_of_12_reads_the_german(kit_template: Callable[[str], Template]):
    """Published: Bamberger and Vanecek 1984, first Wiener Sachtextformel
    = 0.1935 MS + 0.1672 SL + 0.1297 IW - 0.0327 ES - 0.875, as a school year: share (%) of words
    of three syllables or more, words per sentence, share of more than six letters, of one
    syllable. A child of 12 is in year 6 or 7."""
    found = read_aloud(kit_template("german"))
    words = [word for sentence in found for word in re.findall("[A-Za-zäöüÄÖÜß]+", sentence)]
    sounds = [max(1, len(re.findall("ei|ie|eu|äu|au|[aeiouyäöü]", w.lower()))) for w in words]
    n = len(words)
    long = 100 * sum(s >= 3 for s in sounds) / n
    letters = 100 * sum(len(w) > 6 for w in words) / n
    short = 100 * sum(s == 1 for s in sounds) / n
    year = 0.1935 * long + 0.1672 * n / len(found) + 0.1297 * letters - 0.0327 * short - 0.875
    assert year < 6


def test_large_print_may_take_two_sheets(
    example: str, example_plan: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    document = kit_sheet(
        example_plan(example), kit_template("english"), PAPERS["A4"], text_width, Setting(True)
    )
    assert len(pages(document)) <= 4


@pytest.mark.parametrize("printing", ["Letter-german", "A5-english"])
def test_no_words_lie_on_each_other_and_none_is_small(
    example: str,
    printing: str,
    example_plan: Callable[[str], Plan],
    kit_template: Callable[[str], Template],
    overlapping: Callable[[Page], list[tuple[str, str]]],
):
    paper, language = printing.split("-")
    document = kit_sheet(example_plan(example), kit_template(language), PAPERS[paper], text_width)
    with pdfplumber.open(io.BytesIO(render(document))) as file:
        for page in file.pages:
            assert not overlapping(page)
            body = [c for c in page.chars if document.paper.header < c["top"] / MM
                    < document.paper.height - document.paper.foot - 6]  # fmt: skip
            # common practice: less than 8 points is not read at arm's length
            assert min(c["size"] for c in body) >= 8
            assert all(w["x0"] >= 0 and w["x1"] <= page.width for w in page.extract_words())


@pytest.mark.parametrize(
    ("name", "kind"),
    [("mill-race-loop", "kit"), ("abbey-fillet", "kit"), ("mill-race-loop", "cutouts")],
)
def test_every_word_is_as_dark_on_a_grey_copy(
    name: str, kind: str, example_plan: Callable[[str], Plan]
):
    template = shipped(kind, "english").template
    assert template is not None
    make = kit_sheet if kind == "kit" else cutouts_sheet
    document = make(example_plan(name), template, PAPERS["A4"], text_width)
    data = render(document)
    with pdfplumber.open(io.BytesIO(data)) as file:
        pages = [page.extract_words() for page in file.pages[:2]]
    for number, words in enumerate(pages):
        bitmap = pypdfium2.PdfDocument(data)[number].render(scale=150 / 72, grayscale=True)
        grey = bitmap.to_numpy().reshape(bitmap.height, bitmap.width)
        for word in words:
            place = [round(word[k] * 150 / 72) for k in ("top", "bottom", "x0", "x1")]
            seen = grey[place[0] : place[1], place[2] : place[3]]
            # black letters on white or on a light ground: common practice for copies
            assert seen.min() < 90, word["text"]
            assert np.percentile(seen, 80) > 150, word["text"]


def test_what_hardly_fits_is_set_a_little_smaller(
    example_plan: Callable[[str], Plan], kit_template: Callable[[str], Template]
):
    plan = example_plan("ferry-cross-string")
    usual = kit_sheet(plan, kit_template("english"), PAPERS["A4"], text_width)
    extra = replace(usual, blocks=(*usual.blocks, *usual.blocks[-6:]))
    with pytest.raises(LayoutError):
        render(replace(extra, smaller_text=None))
    sizes = []
    for document in (usual, extra):
        with pdfplumber.open(io.BytesIO(render(document))) as file:
            assert len(file.pages) == 2
            found = [c["size"] for page in file.pages for c in page.chars]
        sizes.append(max(set(found), key=found.count))
    assert sizes == pytest.approx([10, 9])
