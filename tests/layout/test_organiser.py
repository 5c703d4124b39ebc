"""The organiser's sheet: on every paper, in both languages, for few bags and for many."""

import dataclasses
import re
from collections.abc import Iterator

import pytest

from sheetgen.cli.sets import shipped
from sheetgen.draw.fonts import text_width
from sheetgen.layout.blocks import Figure, Run, Table, Together
from sheetgen.layout.organiser import PARTS, organiser_sheet
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.shapes import Rect, Text
from sheetgen.layout.words import named_in
from sheetgen.plan.kits import plan_kits
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.resources import data_folder

ALIKE = {"{name}", "{n}", "{picks}", "mm", "cm", "m", "g", "oz", "h", "min", "tex"}
ALIKE |= {"{n} × {name}", "**{n}** × {name}"}


def template(language):
    read = shipped("organiser", language)
    assert read.template is not None, read.about.diagnostics
    return read.template


@pytest.fixture(scope="module")
def project():
    data = (data_folder("example_projects") / "town-day-workshop.yaml").read_bytes()
    return read_description(data).project


@pytest.fixture(scope="module")
def guests_plan(project):
    return make_plan(project.kit_piece).plan


def sheet(project, plan, bags=16, language="english", paper="A4", large=False, **kit):
    kits = plan_kits(plan, dataclasses.replace(project.kit, names=(), **kit), bags, 0).kits
    return organiser_sheet(kits, template(language), PAPERS[paper], text_width, Setting(large))


def pictures(blocks) -> Iterator[Figure]:
    for block in blocks:
        if isinstance(block, Figure):
            yield block.picture
        elif isinstance(block, Together):
            yield from pictures(block.blocks)


def words_of(value) -> Iterator[str]:
    if isinstance(value, Run | Text):
        yield value.text
    elif dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from words_of(getattr(value, each.name))
    elif isinstance(value, tuple | list):
        for item in value:
            yield from words_of(item)


@pytest.mark.parametrize("bags", [1, 16, 500])
def test_every_bag_has_a_box_of_5_mm_for_each_thing_and_a_label(project, guests_plan, bags):
    document = sheet(project, guests_plan, bags)
    shown = list(pictures(document.blocks))
    rows = [p for p in shown if p.name.startswith("packing ") and p.name != "packing numbers"]
    assert [p.name for p in rows] == [f"packing {n}" for n in range(1, bags + 1)]
    for row in rows:
        boxes = [s for s in row.shapes if isinstance(s, Rect)]
        # three lengths of red, one of white, tablets, beads, pins, needle, wax, ribbon, kit sheet
        assert len(boxes) == 11
        assert all((b.w, b.h) == (5, 5) for b in boxes)
    labels = [s.text for p in shown if p.name.startswith("labels") for s in p.shapes
              if isinstance(s, Text) and s.text.startswith("Bag ")]  # fmt: skip
    assert labels == [f"Bag {n}" for n in range(1, bags + 1)]


@pytest.mark.parametrize("size", list(PAPERS))
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("language", ["english", "german"])
def test_no_picture_is_wider_than_the_paper_and_no_word_of_a_table_than_its_column(
    project, guests_plan, size, large, language
):
    document = sheet(project, guests_plan, 16, language, size, large)
    width = document.paper.frame_width
    assert all(p.width <= width + 0.01 for p in pictures(document.blocks))
    for table in (b for b in document.blocks if isinstance(b, Table)):
        for row in (table.head, *table.rows):
            for share, cell in zip(table.widths, row, strict=True):
                text = "".join(run.text for run in cell)
                bold = any(run.bold for run in cell)
                room = share * width - 4 - (7 if table.ticked and cell is row[0] else 0)
                for word in re.split(r"[ ]", text):
                    assert text_width(word, document.text_size, bold) <= room + 0.01, word


def test_both_sets_have_the_same_sentences_and_all_parts():
    english, german = template("english"), template("german")
    assert [p.name for p in english.parts] == [p.name for p in german.parts] == list(PARTS)
    for one, other in zip(english.parts, german.parts, strict=True):
        assert list(one.words) == list(other.words)
        assert list(one.lists) == list(other.lists)
        pairs = [(one.words[k], other.words[k]) for k in one.words]
        for name, lines in one.lists.items():
            assert [line.key for line in lines] == [line.key for line in other.lists[name]]
            pairs += [(a.say, b.say) for a, b in zip(lines, other.lists[name], strict=True)]
        for a, b in pairs:
            assert set(named_in(a)) == set(named_in(b)), a
            assert a != b or a in ALIKE, a


def test_the_sheet_says_when_there_is_too_little_time(project, guests_plan):
    slow = dataclasses.replace(project.kit_piece, slower=12.0)
    document = sheet(project, make_plan(slow).plan)
    # 107 picks at half a pick a minute; two sessions of 65 minutes are 65 picks
    assert "42 of 107 picks are then still to be woven." in "".join(words_of(document))


def test_yarn_that_nobody_says_how_it_is_sold_is_asked_about(project):
    yarns = tuple(dataclasses.replace(y, put_up=None, price=None) for y in project.kit_piece.yarns)
    plan = make_plan(dataclasses.replace(project.kit_piece, yarns=yarns)).plan
    text = "".join(words_of(sheet(project, plan)))
    assert "how it is sold is not said" in text
    assert "Ask how much is in one of: red, white." in text
