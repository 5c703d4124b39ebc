import pytest

from sheetgen.read.templates import read_template
from sheetgen.resources import data_folder

GOOD = b"""
sheet: loom
language: en-GB
words: {title: Loom sheet}
parts:
  make up:
    heading: Make up
    steps:
      join: {say: "Join the {ends} ends.", when: [loop, not finial]}
      trim: Trim.
    words: {thread: thread}
"""


def test_lists_keep_their_order_and_conditions():
    template = read_template(GOOD).template
    assert template is not None
    (part,) = template.parts
    join, trim = part.lists["steps"]
    assert (join.key, join.say, join.when) == (
        "join",
        "Join the {ends} ends.",
        ("loop", "not finial"),
    )
    assert trim.when == ()
    assert join.applies(frozenset({"loop"}))
    assert not join.applies(frozenset({"loop", "finial"}))
    assert not join.applies(frozenset())
    assert dict(part.words) == {"thread": "thread"}


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        (b"sheet: loom\n", b"", 2),
        (b"heading: Make up", b"heading: [a, b]", 7),
        (b"trim: Trim.", b"trim: [a]", 10),
        (b"words: {thread: thread}", b"words: thread", 11),
    ],
)
def test_mistakes_stand_at_their_line(old: bytes, new: bytes, line: int):
    result = read_template(GOOD.replace(old, new))
    assert result.template is None
    places = [d.span.line for d in result.diagnostics if d.span]
    assert places == [line]


def test_the_template_that_comes_with_the_program_is_without_mistakes():
    for path in data_folder("templates").glob("*.yaml"):
        assert read_template(path.read_bytes()).diagnostics == ()
