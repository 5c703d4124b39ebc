from types import MappingProxyType

import pytest

from sheetgen.layout.blocks import Run
from sheetgen.layout.words import UnknownFieldError, Words
from sheetgen.model.template import Line, SheetPart


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
