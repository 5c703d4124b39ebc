"""How the fields of the model are written in a description: gives field metadata.

Every field of every model class carries an :class:`Entry`. The reader, the guide and the JSON
Schema all follow these entries, so that a key exists in one place only.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import MISSING, dataclass
from functools import cache
from types import MappingProxyType
from typing import Any, Literal

Kind = Literal[
    "text",  # any line of text
    "texts",  # a list of lines, or one line
    "whole",  # a whole number
    "number",  # a plain number
    "percent",  # "10 %", held as the share 0.1; its range is in per cent
    "yes-no",  # yes or no
    "choice",  # one of a few words
    "date",  # 2026-05-01
    "file",  # a file in or below the description's folder
    "folder",  # a folder below the description's, or the name of a set of templates
    "length",  # quantity, mm
    "mass",  # quantity, g
    "time",  # quantity, min
    "price",  # an amount of money with its currency
    "amount",  # a mass or a length
    "reading",  # a length that may be uncertain or unknown
    "rate",  # a number per length, per mm
    "yarn",  # the name of a yarn of this description
    "part",  # a nested mapping
    "parts",  # a list of nested mappings
    "named parts",  # a mapping from names to nested mappings
    "count",  # yarn count, "20/2 Nm"
    "put-up",  # "50 g, 210 m"
    "picks",  # "32 in 5 cm"
    "colours",  # which yarn in which hole
    "letters",  # S and Z
    "selection",  # tablet numbers, "1-2, 19-20"
    "selections",  # names and tablet numbers
    "draft",  # one line a tablet
    "turning",  # turning steps
    "order",  # bead order
    "differences",  # keys of the whole description, laid over it for a kit
]


HYPHENATED = {"put_up": "put-up", "take_up": "take-up", "left_over_warp": "left-over warp"}
"""Words that the trade writes with a hyphen."""


@dataclass(frozen=True, slots=True)
class Entry:
    """How one field is written: ``kind``, one sentence of explanation, range, choices, part class.

    ``low`` and ``high`` bound the value (inclusive) in internal units (mm, g, min, per mm, 1).
    ``example`` is a value as it may stand in a description, ``hint`` what is said of one that is
    out of range.
    """

    kind: Kind
    doc: str
    example: str = ""
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    part: type | None = None
    hint: str = ""


def entry(kind: Kind, doc: str, *, default: Any = MISSING, **rest: Any) -> Any:
    """A dataclass field with its :class:`Entry`; without ``default`` the key is required."""
    metadata = {"entry": Entry(kind, doc, **rest)}
    if default is MISSING:
        return dataclasses.field(metadata=metadata)
    return dataclasses.field(default=default, metadata=metadata)


def written_key(field_name: str) -> str:
    """The key in the description of a field: ``finger_room`` is written ``finger room``."""
    name = field_name.rstrip("_")
    return HYPHENATED.get(name, name.replace("_", " "))


@cache
def entries(part: type) -> Mapping[str, tuple[dataclasses.Field[Any], Entry]]:
    """Written key -> (field, entry) of a model class, in the order of the class."""
    return MappingProxyType(
        {
            written_key(f.name): (f, f.metadata["entry"])
            for f in dataclasses.fields(part)
            if "entry" in f.metadata
        }
    )


def shorthand(part: type) -> str | None:
    """The written key that a lone value stands for, if the class names one."""
    return getattr(part, "SHORTHAND", None)
