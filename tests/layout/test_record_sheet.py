"""The record on paper: a form, and filled; in both languages, on every paper, in grey."""

from __future__ import annotations

import io
from itertools import pairwise

import pdfplumber
import pytest
from PIL import Image

from sheetgen.draw.fonts import text_width
from sheetgen.draw.pdf import render
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.record import PARTS, record_sheet
from sheetgen.layout.sentences import unprintable
from sheetgen.layout.shapes import Raster
from sheetgen.layout.words import named_in
from sheetgen.read.templates import read_template
from sheetgen.resources import data_folder

MM = 72 / 25.4
PLAIN = Setting()
FILLED, FORM = "ferry-cross-string", "mill-race-loop"
FILE = "photographs/ferry-cross-string.jpg"


def read(language):
    folder = data_folder("templates")
    folder = folder if language == "english" else folder / language
    result = read_template((folder / "record.yaml").read_bytes())
    assert not result.diagnostics
    return result.template


ENGLISH, GERMAN = read("english"), read("german")


def picture(mode="RGB", size=(300, 150)):
    data = io.BytesIO()
    Image.new(mode, size, 90 if mode == "L" else (200, 40, 40)).save(data, "JPEG")
    return Raster(*size, data.getvalue())


def sheet(plan, template=ENGLISH, paper="A4", setting=PLAIN, photographs=None):
    return record_sheet(plan, template, PAPERS[paper], text_width, setting, photographs)


def pages(document):
    with pdfplumber.open(io.BytesIO(render(document))) as pdf:
        yield from pdf.pages


def text_of(document):
    return "\n".join(page.extract_text() for page in pages(document))


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize("template", [ENGLISH, GERMAN], ids=["english", "german"])
def test_the_sets_have_every_part_and_only_figures_that_there_are(template, example_plan):
    assert [part.name for part in template.parts] == list(PARTS)
    for name in (FILLED, FORM, "abbey-fillet"):
        assert not unprintable(template, template, example_plan(name))


def test_both_sets_have_the_same_sentences():
    assert ENGLISH.words.keys() == GERMAN.words.keys()
    for ours, theirs in zip(ENGLISH.parts, GERMAN.parts, strict=True):
        assert list(ours.words) == list(theirs.words), ours.name
        for key, word in ours.words.items():
            assert set(named_in(word)) == set(named_in(theirs.words[key])), key
        for name, lines in ours.lists.items():
            others = theirs.lists[name]
            assert [(x.key, x.when) for x in lines] == [(x.key, x.when) for x in others]
            for one, other in zip(lines, others, strict=True):
                assert one.say != other.say
                assert set(named_in(one.say)) == set(named_in(other.say))


def test_the_form_has_room_for_the_pencil(example, example_plan):
    plan = example_plan(example)
    if plan.project.made is not None:
        pytest.skip("this one is filled")
    found = list(pages(sheet(plan)))
    wide = 0
    for page in found:
        # lines to write on and rules of tables, as long as the frame, at least 8 mm apart below
        # one another wherever nothing is printed between them (sheets.md)
        rules = sorted({round(line["top"], 1) for line in page.lines if line["width"] > 250})
        for above, below in pairwise(rules):
            band = page.crop((0, above, page.width, below)) if below - above > 1 else None
            if band is not None and not band.extract_text().strip() and not band.curves:
                gap = (below - above) / MM
                assert gap >= 8 or gap < 1, gap
                wide += gap >= 8
    assert wide >= 8, "there are lines to write on"
    frames = [r for page in found for r in page.rects if r["width"] > 250 and r["height"] > 150]
    assert len(frames) >= 3, "two to paste into and one to draw in"
    assert "Written by" in text_of(sheet(plan))


def test_the_filled_record_has_all_that_was_made(example_plan):
    plan = example_plan(FILLED)
    made = plan.project.made
    text = flat(text_of(sheet(plan, photographs={FILE: picture()})))
    for words in (
        plan.project.number, plan.project.digest, "2026-05-09", "449", "× 1.03", "jet bead",
        "jet not to be had drilled", "by choice", "by need", "not planned", "252",
        plan.project.find.kept,
    ):  # fmt: skip
        assert words in text, words
    for long in (*made.notes, *made.differently, made.photographs[0].caption, made.place):
        assert flat(long)[:30] in text
    assert "Still to be measured" not in text, "all of it was measured"
    # arithmetic by hand: 449 picks made, 444 planned; 368 mm made, 40 cm of the find are left
    assert "to plan +5 (+1 %)" in text
    assert "−32 mm" in text


def test_what_is_not_measured_yet_is_a_row_to_write_in(plan_of):
    text = (
        "piece: Q\nform: cord\nlength: 1 m\ntablets: 4\nyarns: {a: {diameter: 0.5 mm}}\n"
        "made: {length: 1 m}"
    )
    document = sheet(plan_of(text))
    assert "Still to be measured" in text_of(document)


@pytest.mark.parametrize(
    ("name", "size", "template", "large"),
    [
        (FILLED, "A4", ENGLISH, False),
        (FILLED, "A5", GERMAN, True),
        (FILLED, "A5", ENGLISH, False),
        (FORM, "A5", GERMAN, True),
        (FORM, "Letter", ENGLISH, False),
        (FORM, "A4", GERMAN, False),
        ("reeve-purse-cords", "A5", ENGLISH, True),
    ],
)
def test_nothing_lies_on_anything_or_beyond_the_margin(
    name, size, template, large, example_plan, overlapping
):
    document = sheet(example_plan(name), template, size, Setting(large), {FILE: picture()})
    for page in pages(document):
        assert not overlapping(page)
        words = page.extract_words()
        assert len(words) > 12, "no page is left empty"
        for word in words:
            assert word["x0"] >= 9.9 * MM
            assert word["x1"] <= page.width - 9.9 * MM


@pytest.mark.parametrize(
    ("size", "on"),
    [((300, 150), "A4"), ((150, 300), "A5"), ((2000, 30), "Letter"), ((30, 2000), "A5")],
)
def test_a_photograph_keeps_its_shape_and_stays_in_the_frame(size, on, example_plan):
    document = sheet(example_plan(FILLED), paper=on, photographs={FILE: picture("L", size)})
    images = [image for page in pages(document) for image in page.images]
    assert len(images) == 1
    wide, high = images[0]["width"], images[0]["height"]
    assert wide / high == pytest.approx(size[0] / size[1], rel=1e-3)
    assert wide <= PAPERS[on].frame_width * MM + 0.1
    assert high <= PAPERS[on].frame_height / 2 * MM


def test_an_image_in_the_file_is_rgb_or_grey_and_has_no_mask(example_plan):
    # ISO 19005-3, 6.2.8: no alternate image, and Interpolate, if there, is false
    for mode, space in (("RGB", "DeviceRGB"), ("L", "DeviceGray")):
        document = sheet(example_plan(FILLED), photographs={FILE: picture(mode)})
        (image,) = [image for page in pages(document) for image in page.images]
        attributes = image["stream"].attrs
        assert space in str(attributes["ColorSpace"])
        assert attributes["BitsPerComponent"] == 8
        for key in ("SMask", "Mask", "Alternates", "Interpolate", "OPI"):
            assert not attributes.get(key)


def test_the_drawing_has_ticks_ten_millimetres_apart(example_plan):
    page = next(p for p in pages(sheet(example_plan(FORM))) if "drawing" in p.extract_text())
    ticks = sorted(line["x0"] for line in page.lines if abs(line["height"] - 2 * MM) < 0.05)
    assert len(ticks) > 10
    for a, b in pairwise(ticks):
        assert (b - a) / MM == pytest.approx(10, abs=0.01)


def test_the_middle_strokes_of_s_and_z(example_plan):
    # the letters themselves: the middle stroke of S falls from left to right, that of Z rises
    lines = (x for page in pages(sheet(example_plan(FORM))) for x in (*page.lines, *page.curves))
    strokes = [line for line in lines if line["linewidth"] > 3]
    assert len(strokes) == 2
    slopes = {}
    for stroke in strokes:
        (x, y), (u, v) = stroke["pts"][:2]
        slopes[stroke["x0"]] = (v - y) * (u - x)
    left, right = sorted(slopes)
    assert slopes[left] > 0 > slopes[right], "y runs down the page"


def test_where_both_units_are_wanted_differences_stay_short(plan_of):
    text = (
        "piece: Q\nform: cord\nlength: 1 m\ntablets: 4\nunits: both\n"
        "yarns: {a: {diameter: 0.5 mm}}\nmade: {length: 1.1 m, warp end: 1.6 m}"
    )
    found = flat(text_of(sheet(plan_of(text))))
    assert "43 5/16 in" in found  # 1100 / 25.4 = 43.307, 5/16 = 0.3125
    assert "to plan +10 cm (+10 %)" in found
