"""Every key misspelt, every number wrong in every way: told at its place, off the model."""

from __future__ import annotations

import pytest

from sheetgen.model.project import Project
from sheetgen.model.schema import entries
from sheetgen.read import read_description

UNITS = {
    "length": "mm",
    "reading": "mm",
    "mass": "g",
    "amount": "g",
    "time": "min",
    "rate": "per cm",
}
PLAIN = ("whole", "number", "percent")
NUMBERS = (*PLAIN, *UNITS, "count", "put-up", "picks")

BASE = [
    "piece: A plain cord",
    "form: cord",
    "length: 1 m",
    "tablets: {number: 4}",
    "yarns:",
    "  red: {wraps: 16 per cm}",
]


def parts(part=Project, path=()):
    """(path, class) of every part of a description; a made-up name where there are names."""
    yield path, part
    for key, (_, entry) in entries(part).items():
        if entry.part is not None:
            steps = {"part": (key,), "named parts": (key, "one"), "parts": (key, 0)}
            yield from parts(entry.part, path + steps[entry.kind])


def written(path, key, value):
    """A description with one key in the part at ``path``, and where key and value stand."""
    top = path[0] if path else key
    lines = [line for line in BASE if not line.startswith(f"{top}:")]
    if top == "yarns":
        lines.remove("  red: {wraps: 16 per cm}")
    indent = 0
    for step in path:
        if step == 0:
            lines.append(" " * indent + "-")
        else:
            lines.append(" " * indent + f"{step}:")
        indent += 2
    lines.append(" " * indent + f"{key}: {value}")
    column = indent + 1
    return "\n".join(lines) + "\n", (len(lines), column), (len(lines), column + len(key) + 2)


def told(text):
    found = read_description(text.encode()).diagnostics
    for diagnostic in found:
        assert diagnostic.hint or diagnostic.allowed, diagnostic
    return {(d.span.line, d.span.column, d.code) for d in found if d.span}


PARTS = list(parts())


def misspellings(key):
    yield key[:-1]
    yield f"{key}x"
    yield key[1] + key[0] + key[2:]


def test_every_key_misspelt_is_told_at_its_place():
    tried = 0
    for path, part in PARTS:
        known = entries(part)
        for key in known:
            for wrong in misspellings(key):
                if not wrong or wrong in known or wrong in entries(Project):
                    continue
                text, place, _ = written(path, wrong, "{}")
                assert (*place, "unknown-key") in told(text), text
                tried += 1
    assert tried >= 300


def wrong_numbers(kind, entry):
    """(text, codes of which one must be told) for each way of being wrong."""
    unit = UNITS.get(kind, {"percent": "%"}.get(kind, ""))
    say = {
        "count": "{} Nm", "put-up": '"{} g, 210 m"', "picks": "{} in 5 cm",
    }.get(kind, f"{{}} {unit}".strip())  # fmt: skip
    say = say.replace("{}", "{0}")
    no_number = {"whole": "not-whole", "picks": "not-whole", "count": "not-a-count"}
    no_number |= dict.fromkeys(("number", "percent"), "not-a-number")
    unread = no_number.get(kind, "not-a-quantity")
    minus = {"whole": "out-of-range", "count": "not-a-count"}.get(kind, "negative")
    yield say.format("-5"), minus
    if kind in ("count", "put-up") or (entry.low or 0) > 0:
        yield say.format("0"), "out-of-range"
    yield say.format("9" * 12), "out-of-range"
    yield say.format("9" * 400), None
    yield say.format("1e300"), unread
    yield say.format("nan"), unread
    yield say.format(".inf"), unread
    yield say.format("-.inf"), None
    yield wrong_dimension(kind)


def wrong_dimension(kind):
    return {
        "whole": ("4 mm", "not-whole"),
        "number": ("4 mm", "not-a-number"),
        "percent": ("4 mm", "no-percent"),
        "amount": ("4 h", "not-a-quantity"),
        "rate": ("4 per g", "not-a-rate"),
        "count": ("4 g", "no-count-system"),
        "put-up": ('"4 h, 210 m"', "not-a-quantity"),
        "picks": ("32 in 5 g", "wrong-dimension"),
        "length": ("4 g", "wrong-dimension"),
        "reading": ("4 g", "wrong-dimension"),
        "mass": ("4 mm", "wrong-dimension"),
        "time": ("4 mm", "wrong-dimension"),
    }[kind]


def test_every_number_wrong_in_every_way_is_told_at_its_place():
    tried = 0
    for path, part in PARTS:
        for key, (_, entry) in entries(part).items():
            if entry.kind not in NUMBERS:
                continue
            for value, code in wrong_numbers(entry.kind, entry):
                text, _, place = written(path, key, value)
                found = told(text)
                if code is None:
                    assert any(where[:2] == place for where in found), text
                else:
                    assert (*place, code) in found, (text, found)
                tried += 1
    assert tried >= 300


@pytest.mark.parametrize("word", ["3 smalls and 4 larges", "-1 small", "0 small", "9e9 small"])
def test_numbers_of_beads_are_told(word):
    base = "\n".join([*BASE, "beads:", "  kinds: {small: 6 mm}", f"  order: [{word}]"])
    text = base.replace("form: cord", "form: straight")
    assert {(line, column) for line, column, _ in told(text)} == {(9, 11)}
