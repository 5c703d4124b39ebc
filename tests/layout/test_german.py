"""The German set: as complete as the English one, and no English word on its sheets."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from itertools import combinations

import pytest

from sheetgen.draw.fonts import text_width
from sheetgen.layout.blocks import Document, Figure, Heading, Run
from sheetgen.layout.loom import loom_sheet
from sheetgen.layout.paper import PAPERS, Setting
from sheetgen.layout.shapes import Text
from sheetgen.layout.words import named_in
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan
from sheetgen.resources import data_folder

ALIKE = {
    "loom", "{n}", "mm", "cm", "m", "g", "oz", "h", "min", "tex", "{yarn}", "Nylon", "nylon",
    "Polyester", "S", "Z", "{pick} · {at}", "{group} {hole}", ", ", "{name} ({doubt}): {measure}",
    "**{name}: {length}, {mass}** – {what}", "**{count} × {name}**, {size} – {what}",
    "Plan {version}", "plan {version}",
}  # fmt: skip
"""Sentences that are the same in both languages."""

ENGLISH = frozenset(
    re.findall(
        "[a-z]+",
        """
        the and of with to from each turn turns weft warp per by for is are at it on or not no if
        your you this that these yarn yarns tablet tablets cord band piece pieces ends pick picks
        hole holes bead beads near far forward backward idle left right over long thick wide
        measured stated computed thumb wool silk cotton linen worsted woollen line spun reeled
        brass page print width length thickness time twist how what where when which all only
        times straight spiral before after enlarged alike others about half full under
        """,
    )
)
"""Words of the English sentences that are no German ones."""

MORE = (
    "form: cord\nlength: 1.2 m\nunits: both\nwarping: between posts\n"
    "tablets: {number: 6, threaded: S Z}\n"
    "yarns: {a: {wraps: 12 per cm, fibre: wool, preparation: woollen, put-up: '50 g, 90 m'}}",
    "form: band\nlength: 30 cm\nunits: inches\ntablets: {number: 9, threaded: S}\n"
    "yarns: {a: {diameter: 0.4 to 0.7 mm, fibre: hemp, preparation: tow, spin: Z}}\n"
    "turning: [forward 4, backward 4]",
    "form: loop\nyarns: {a: {count: 30/2 Nm, fibre: silk, preparation: reeled, at hand: 30 g}}\n"
    "tablets: 4\nbeads: {kinds: {b: {diameter: 5 mm}}, order: [20 b]}\ntwist: {under beads: yes}",
    "form: cord\nlength: 40 cm\npieces: 6\ntablets: 5\naglets: {number: 1}\npace: 4\n"
    "find: {name: x, thickness: 2 to 2.4 mm}\nsessions: {a: 1 h, b: 9 h}\n"
    "yarns: {a: {count: 16/2 NeC, fibre: cotton}}\nsample: {picks: 30 in 5 cm}",
)


def strings(value: object) -> Iterator[str]:
    """Every text anywhere in a value."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Run | Text):
        yield value.text
    elif is_dataclass(value):
        for each in fields(value):
            if each.name not in ("name", "colour", "language", "anchor", "paper"):
                yield from strings(getattr(value, each.name))
    elif isinstance(value, tuple | list):
        for item in value:
            yield from strings(item)


def described(value: object) -> Iterator[str]:
    """Every text of a description, names included."""
    if isinstance(value, str):
        yield value
    elif is_dataclass(value):
        for each in fields(value):
            yield from described(getattr(value, each.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from described(item)


def printed(document: Document) -> Iterator[str]:
    """Every text that is printed, or stands in the file's own description."""
    for each in fields(document):
        if each.name not in ("language", "paper", "keywords"):
            value = getattr(document, each.name)
            yield from strings(value)


def english_in(document: Document, plan: Plan) -> set[str]:
    """English words of a sheet that no text of its description brought there."""
    users = sorted({t for t in described(plan.project) if len(t) > 1}, key=len, reverse=True)
    found = set()
    for text in printed(document):
        text = text.replace("{page}", "").replace("{pages}", "")
        for user in users:
            text = text.replace(user, " ")
        found |= set(re.findall(r"[^\W\d_]+", text.casefold())) & ENGLISH
    return found


@pytest.fixture(scope="session")
def german(template_of: Callable[[str], Template]) -> Template:
    return template_of("german")


def test_nothing_english_is_left_on_a_german_sheet(
    example: str, sheet_of: Callable[..., Document], example_plan: Callable[[str], Plan]
):
    document = sheet_of(example, "A4", "german")
    assert document.language == "de"
    assert not english_in(document, example_plan(example))
    assert english_in(sheet_of(example, "A4"), example_plan(example)), "the test can fail"


@pytest.mark.parametrize("text", MORE)
def test_nor_where_other_sentences_are_wanted(
    text: str, plan_of: Callable[[str], Plan], german: Template
):
    plan = plan_of(f"piece: Q\n{text}")
    setting = Setting(printer_factor=0.985, booklet=True)
    assert not english_in(loom_sheet(plan, german, PAPERS["A5"], text_width, setting), plan)


def test_figures_have_a_decimal_comma(sheet_of: Callable[..., Document], example: str):
    document = sheet_of(example, "A4", "german")
    texts = " ".join(printed(document))
    assert re.search(r"\d,\d", texts)
    assert not re.search(r"\d\.\d+\s(mm|cm|m|g|je)\b", texts)


def sentences(template: Template) -> dict[tuple[str, ...], tuple[str, tuple[str, ...]]]:
    """Place of every sentence -> sentence and conditions."""
    found = {("words", k): (w, ()) for k, w in template.words.items()}
    for part in template.parts:
        found[part.name, "heading"] = (part.heading, ())
        found |= {(part.name, "words", k): (w, ()) for k, w in part.words.items()}
        for name, lines in part.lists.items():
            found |= {(part.name, name, line.key): (line.say, line.when) for line in lines}
    return found


def test_both_sets_have_the_same_sentences(template: Template, german: Template):
    english, other = sentences(template), sentences(german)
    assert list(english) == list(other), "the same keys in the same order"
    for place, (sentence, when) in english.items():
        assert other[place][1] == when, place
        assert set(named_in(other[place][0])) == set(named_in(sentence)), place


def test_no_sentence_is_the_same_in_both(template: Template, german: Template):
    english, other = sentences(template), sentences(german)
    alike = {p: s for p, (s, _) in english.items() if s == other[p][0] and s not in ALIKE}
    assert not alike


def test_headings_are_german(sheet_of: Callable[..., Document], german: Template, example: str):
    blocks = sheet_of(example, "A4", "german").blocks
    headings = {b.text for b in blocks if isinstance(b, Heading) and b.level == 1}
    assert headings <= {part.heading for part in german.parts}


@pytest.mark.parametrize("language", ["english", "german"])
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_lengths_of_a_warp_end_have_room_in_both_units(
    language: str, size: str, template_of: Callable[[str], Template], plan_of: Callable[[str], Plan]
):
    source = (data_folder("example_projects") / "reeve-purse-cords.yaml").read_text("utf-8")
    plan = plan_of(source + "units: both\n")
    blocks = loom_sheet(plan, template_of(language), PAPERS[size], text_width).blocks
    pictures = [b.picture for b in blocks if isinstance(b, Figure)]
    (drawing,) = (picture for picture in pictures if picture.name == "warp end")
    texts = [shape for shape in drawing.shapes if isinstance(shape, Text) and shape.text]
    for a, b in combinations(texts, 2):
        if abs(a.y - b.y) < 2:
            wide = sum(text_width(t.text, t.size, t.bold) for t in (a, b)) / 2
            assert abs(a.x - b.x) >= wide, (a.text, b.text)
