from types import MappingProxyType

import pytest

from sheetgen.layout.blocks import Run
from sheetgen.layout.described import described
from sheetgen.layout.facts import facts_of
from sheetgen.layout.fields import Fields
from sheetgen.layout.sentences import GUARDS
from sheetgen.layout.words import UnknownFieldError, Words
from sheetgen.model.template import Line, SheetPart
from sheetgen.resources import data_folder


def words(sentence: str, flags: frozenset[str] = frozenset(), **fields: str) -> Words:
    lines = (
        Line("always", "a"),
        Line("only loops", "b", ("loop",)),
        Line("never loops", "c", ("not loop",)),
    )
    part = SheetPart("p", "h", MappingProxyType({"list": lines}), {"s": sentence})
    return Words(part, fields, flags)


def test_bold_and_fields():
    runs = words("Cut **{n} ends** of {yarn}.", n="12", yarn="red").runs("s")
    assert runs == (Run("Cut "), Run("12 ends", True), Run(" of red."))


def test_a_users_text_is_never_read_again():
    runs = words("Name: {name}", name="**{n}** <b>").runs("s")
    assert runs == (Run("Name: **{n}** <b>"),)


def test_a_misspelt_field_is_named():
    with pytest.raises(UnknownFieldError, match="thicknes"):
        words("{thicknes}", thickness="3 mm").runs("s")


def test_conditions():
    assert words("", frozenset({"loop"})).keys("list") == ["always", "only loops"]
    assert words("", frozenset()).keys("list") == ["always", "never loops"]


def test_what_to_measure_next_is_said_by_the_template(plan_of, template):
    """Every measure that a plan may ask for, and every figure that may want one, has its words."""
    pieces = (
        "form: cord\nlength: 12 cm\ntablets: 3\nyarns: {a: {wraps: 12 per cm, fibre: wool}}",
        "form: band\nlength: 12 cm\ntablets: 9\nyarns: {a: {count: 20/2 Nm, fibre: wool}}",
        "form: cord\nlength: 12 cm\nfind: {name: f, thickness: about 3 mm}\n"
        "yarns: {a: {diameter: 0.4 to 0.5 mm, fibre: wool}}",
    )
    (part,) = (p for p in template.parts if p.name == "at a glance")
    names = {line.key for line in part.lists["names"]}
    measures = {line.key.replace("{yarn}", "a") for line in part.lists["measures"]}
    for piece in pieces:
        for figure in plan_of(f"piece: p\n{piece}").figures.values():
            if figure.next_measure:
                assert figure.key.partition(":")[0] in names
                assert figure.next_measure in measures


def test_a_figure_that_some_plans_lack_has_the_flags_of_those_that_have_it(
    example_plan, template, plan_of
):
    posts = "form: cord\npiece: p\nlength: 9 cm\ntablets: 4\nwarping: between posts\nyarns:\n"
    texts = [
        p.stem for p in data_folder("example_projects").glob("*.yaml") if "stash" not in p.stem
    ]
    plans = [*map(example_plan, texts), plan_of(f"{posts}  a: {{diameter: 0.4 mm, fibre: silk}}")]
    has = [set(Fields(plan, described(plan, template)).names) for plan in plans]
    everything = {name for names in has for name in names if ":" not in name}
    assert everything >= GUARDS.keys()
    for plan, names in zip(plans, has, strict=True):
        assert everything - names <= GUARDS.keys()
        true = {f for f, holds in facts_of(plan).items() if holds}
        for name, flags in GUARDS.items():
            assert (name in names) is Line("", "", tuple(flags.split(", "))).applies(true), name
