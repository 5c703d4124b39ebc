"""Words that newcomers write: takes such a word and what may stand there, gives what to write.

No reader takes them for what was meant: a description reads the same for everyone. The words are
those that were tried by people who had only the guide; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import MISSING, Field
from itertools import islice
from typing import Any

from sheetgen.model.project import Project
from sheetgen.model.schema import Entry, entries, shorthand

_FIRM = "push the wraps of the yarn close together and count; write e.g. “wraps: 18 per in”"
_GERMAN = "for sheets in German write “templates: german”; keys stay as they are"

_KEYS: Mapping[str, tuple[str, str]] = {
    "wpi": ("wraps", _FIRM),
    "wraps per inch": ("wraps", _FIRM),
    "wraps per cm": ("wraps", "write e.g. “wraps: 16 per cm”"),
    "language": ("templates", _GERMAN),
    "sprache": ("templates", _GERMAN),
    "children": ("people", "write “people”, whatever their age"),
    "guests": ("people", "write “people”"),
    "participants": ("people", "write “people”"),
    "thickness": ("diameter", "write “diameter”"),
    "width": ("diameter", "write “diameter” for what stands across the string, and “length”"),
    "size": ("diameter", "write “diameter”"),
    "cards": ("tablets", "write “tablets”"),
    "threading": ("tablets", "write it under “tablets”: “threaded: S Z”, “colours: ...”"),
    "shrink": ("shrinkage", "write “shrinkage”"),
}
"""A key that is none -> the key that must be known there for the hint to fit, and the hint."""

_OVAL = "an oval bead is “shape: round” with a “length” of its own beside the “diameter”"
_LETTER = "write “Letter”"
_CHOICES: Mapping[str, tuple[str, str]] = {
    **dict.fromkeys(("oval", "ovals", "ellipse", "olive", "egg", "rice"), ("round", _OVAL)),
    **dict.fromkeys(("tube", "bugle", "pipe"), ("cylinder", "write “cylinder”")),
    **dict.fromkeys(("us", "imperial", "inch", "in"), ("inches", "write “inches”")),
    **dict.fromkeys(("metric", "cm", "millimetres"), ("mm", "write “mm”")),
    **dict.fromkeys(("us letter", "ansi a"), ("Letter", _LETTER)),
    **dict.fromkeys(
        ("necklace", "rosary", "paternoster", "bracelet"),
        ("loop", "beads on a ring are a “loop”, on one line “straight”"),
    ),
    **dict.fromkeys(("lace", "rope", "string", "schnur"), ("cord", "write “cord”")),
    **dict.fromkeys(("belt", "strap", "ribbon", "flat", "borte"), ("band", "write “band”")),
    **dict.fromkeys(("flax",), ("linen", "write “linen”")),
    **dict.fromkeys(("merino", "alpaca", "mohair"), ("wool", "“wool” comes nearest")),
    **dict.fromkeys(
        ("spiral", "helix"),
        ("let out", "“let out” keeps one look; with “threaded: Z” under “tablets” it is a spiral"),
    ),
}
"""A word that is no choice -> the choice that must be there for the hint to fit, and the hint."""

_UNKNOWN = ("unknown", "i don't know", "i don’t know", "don't know", "not known", "?", "-")
_MOST_IN_EXAMPLE = 3


def instead_of_key(key: str, known: Collection[str], part: type) -> str:
    """What to write instead of a key that is none of the ``known`` ones of a part, or nothing.

    >>> instead_of_key("holes", entries(Project), Project)
    '“holes” stands under “tablets”, set in'
    """
    near, hint = _KEYS.get(key.casefold(), ("", ""))
    if near in known:
        return hint
    inner = [
        name
        for name, (_, entry) in entries(part).items()
        if entry.kind == "part" and entry.part is not None and key in entries(entry.part)
    ]
    if inner:
        places = " or ".join(f"“{name}”" for name in inner[:3])
        return f"“{key}” stands under {places}, set in"
    if key in entries(Project) and "differs" in known:
        return f"“{key}” of the piece is changed for the kit under “differs”"
    return ""


def instead_of_choice(word: str, choices: Collection[str]) -> str:
    """What to write instead of a word that is none of the choices, or nothing.

    >>> instead_of_choice("US", ("mm", "inches", "both"))
    'write “inches”'
    """
    folded = word.casefold()
    if folded in _UNKNOWN:
        return "if it is not known, leave it out"
    choice, hint = _CHOICES.get(folded, ("", ""))
    return hint if choice in choices else ""


def example_of(part: type) -> str:
    """A set of keys as it may stand for a part, or nothing: keys that must be there first."""
    if shorthand(part) is not None:
        return ""
    shown = ((key, _shown(field, entry)) for key, (field, entry) in entries(part).items())
    said = [f"{key}: {value}" for key, value in islice(filter(_has_value, shown), _MOST_IN_EXAMPLE)]
    return "{" + ", ".join(said) + "}" if said else ""


def _has_value(pair: tuple[str, str]) -> bool:
    return bool(pair[1])


def _shown(field: Field[Any], entry: Entry) -> str:
    """The example of a key as it may stand in braces; none where the usual value mostly stays."""
    if entry.choices and field.default in (MISSING, None):
        return entry.example or entry.choices[0]
    quoted = "," in entry.example and not entry.example.startswith(("[", "{"))
    return f'"{entry.example}"' if quoted else entry.example
