"""A description for editors: takes the model's entries, gives its JSON Schema (draft 2020-12).

An editor completes keys with it and marks what cannot be. It knows the shape of every notation, not
its meaning: whether names agree and amounts are possible, ``check`` tells.
"""

from __future__ import annotations

import dataclasses
from typing import Any

from sheetgen.cli.guide import NOTATIONS, WRITTEN
from sheetgen.model.project import Project
from sheetgen.model.schema import Entry, Kind, entries, shorthand
from sheetgen.model.stash import Stash
from sheetgen.model.turning import MOTIONS

DRAFT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]

_SCALAR: Schema = {"type": ["string", "number", "boolean"]}
"""A loader of YAML makes a number or a truth of some texts; the reader takes them as text."""


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": pattern}


def _one_or_list(item: Schema) -> Schema:
    return {"anyOf": [item, {"type": "array", "items": item, "minItems": 1}]}


_MOVE = _text(rf"^\s*({'|'.join(MOTIONS)})\b")
_QUANTITY = _text("[0-9½¼¾⅓⅔⅛⅜⅝⅞].*[A-Za-z'\"′″”’]\\.?\\s*$")
_SELECTION = {"anyOf": [{"type": "integer", "minimum": 1}, _text(r"^[0-9a-z ,–-]+$")]}
_LETTERS = _text(r"^[SZ0-9 ,]+$")

NOTATION: dict[Kind, Schema] = {
    "text": _SCALAR,
    "texts": _one_or_list(_SCALAR),
    "percent": _text(r"^\s*[0-9.]+ ?%\s*$"),
    "yes-no": {"enum": [True, False, "yes", "no", "true", "false", "Yes", "No", "YES", "NO"]},
    "date": {"type": "string", "format": "date"},
    "file": {"type": "string"},
    "folder": {"type": "string"},
    "length": _QUANTITY,
    "mass": _QUANTITY,
    "time": _QUANTITY,
    "price": _text("[0-9]"),
    "amount": _QUANTITY,
    "reading": {"anyOf": [_QUANTITY, {"const": "unknown"}]},
    "rate": _text(r"[0-9].*(per|/|\ba\b|[wepWEPT][pP][iI])"),
    "yarn": _SCALAR,
    "count": _text("[0-9].*[A-Za-z]"),
    "put-up": _text("[0-9].*[A-Za-z].*[0-9]|[0-9].*per"),
    "picks": _text("[0-9].*( in |per|/)"),
    "colours": {
        "anyOf": [
            *_one_or_list(_SCALAR)["anyOf"],
            {
                "type": "object",
                "propertyNames": {"pattern": "^[A-H ,]+$"},
                "additionalProperties": _SCALAR,
                "minProperties": 1,
            },
        ]
    },
    "letters": _one_or_list(_LETTERS),
    "selection": _one_or_list(_SELECTION),
    "selections": {
        "type": "object",
        "additionalProperties": _one_or_list(_SELECTION),
        "minProperties": 1,
    },
    "draft": _one_or_list({"type": "string"}),
    "turning": _one_or_list({"$ref": "#/$defs/turning step"}),
    "order": _one_or_list({"$ref": "#/$defs/beads in order"}),
    "differences": {
        "type": "object",
        "propertyNames": {"enum": list(entries(Project))},
        "minProperties": 1,
    },
}
"""How each kind of value may look. Kinds that hold numbers, choices or parts follow the entry."""


def _repeat(inside: str, item: str) -> Schema:
    return {
        "type": "object",
        "required": ["repeat", inside],
        "additionalProperties": False,
        "properties": {
            "repeat": {"type": "integer", "minimum": 1, "description": "How many times."},
            inside: _one_or_list({"$ref": f"#/$defs/{item}"}),
        },
    }


_STEPS: dict[str, Schema] = {
    "turning step": {
        "anyOf": [
            _text(rf"^\s*({'|'.join(MOTIONS)}|flip)\b"),
            _repeat("steps", "turning step"),
            {
                "type": "object",
                "propertyNames": {"not": {"enum": ["repeat", "steps"]}},
                "additionalProperties": _MOVE,
                "minProperties": 1,
            },
        ]
    },
    "beads in order": {"anyOf": [{"type": "string"}, _repeat("of", "beads in order")]},
}


def schema_of(root: type = Project) -> Schema:
    """The JSON Schema of a description, or of a stash."""
    parts: dict[str, Schema] = {}
    top = _part(root, parts)
    return {
        "$schema": DRAFT,
        "title": "A stash of sheetgen" if root is Stash else "A description of sheetgen",
        **top,
        "$defs": {**_STEPS, **parts},
    }


def _part(part: type, parts: dict[str, Schema]) -> Schema:
    """The keys of a class of the model; classes found below it go into ``parts``."""
    properties, required = {}, []
    for key, (field, entry) in entries(part).items():
        properties[key] = {"description": _says(entry), **_value(entry, parts)}
        if entry.example and entry.part is None and entry.kind in NOTATION:
            properties[key]["examples"] = [entry.example]
        if field.default is dataclasses.MISSING:
            required.append(key)
    found: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
    return {**found, "required": required} if required else found


def _value(entry: Entry, parts: dict[str, Schema]) -> Schema:
    match entry.kind:
        case "choice":
            return {"enum": list(entry.choices)}
        case "whole" | "number":
            kind = "integer" if entry.kind == "whole" else "number"
            bounds = {"minimum": entry.low, "maximum": entry.high}
            number = {"type": kind, **{k: v for k, v in bounds.items() if v is not None}}
            return {"anyOf": [number, _text(r"^\s*[0-9]+(\.[0-9]+)?\s*$")]}
        case "part":
            return _below(entry, parts)
        case "parts":
            return {"type": "array", "items": _below(entry, parts), "minItems": 1}
        case "named parts":
            inside = _below(entry, parts)
            return {"type": "object", "additionalProperties": inside, "minProperties": 1}
    return NOTATION[entry.kind]


def _below(entry: Entry, parts: dict[str, Schema]) -> Schema:
    """A part as its keys, or as the lone value that stands for one of them."""
    part = entry.part
    assert part is not None, "an entry that holds parts names their class"
    if part.__name__ not in parts:
        parts[part.__name__] = {}
        parts[part.__name__] = _part(part, parts)
    whole = {"$ref": f"#/$defs/{part.__name__}"}
    short = shorthand(part)
    if short is None:
        return whole
    return {"anyOf": [whole, _value(entries(part)[short][1], parts)]}


def _says(entry: Entry) -> str:
    """The sentence of a key, and how its value is written."""
    notation = next((words for kind, words, _ in NOTATIONS if kind == entry.kind), "")
    if notation:
        return f"{entry.doc} {notation}"
    written = "" if entry.kind == "choice" else WRITTEN[entry.kind]
    return f"{entry.doc} ({written})" if written else entry.doc
