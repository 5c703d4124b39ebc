"""Parts of the model: takes a node and a model class, gives an instance, following its entries."""

from __future__ import annotations

import dataclasses
from functools import cache
from typing import Any, get_args, get_type_hints

from sheetgen.diagnostics import Path
from sheetgen.model.scale import PictureScale
from sheetgen.model.schema import Entry, Kind, entries, shorthand
from sheetgen.model.values import UNKNOWN, Unknown
from sheetgen.read import counts, holes, measures, plain, selections, steps, stringing
from sheetgen.read.findings import Misread, listed
from sheetgen.read.keys import not_set_in, set_in_too_far, written_keys
from sheetgen.read.kits import read_differences
from sheetgen.read.names import names_of
from sheetgen.read.prices import read_price
from sheetgen.read.tree import Items, Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Mention, Reader, Walk, from_text, label, misread, wrong_kind


def read_part(walk: Walk, node: Node, path: Path, part: type, **given: Any) -> Any:
    """An instance of the model class, unread fields UNREAD; ``given``: fields that are no key."""
    written = written_keys(walk, node, path, part)
    for key, (field, entry) in entries(part).items():
        if written is None or (not path and key in walk.misplaced):
            value = UNREAD
        elif key in written:
            value = _read_field(walk, written[key], part, field.name, entry)
        elif field.default is not dataclasses.MISSING:
            value = field.default
        else:
            value = _missing(walk, node, path, key, entry)
        walk.values[(*path, key)] = given[field.name] = value
    return part(**given)


def read_value(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """One value as its entry says; UNREAD, with the mistakes found, when it cannot be read."""
    return READERS[entry.kind](walk, node, path, entry)


def _read_field(
    walk: Walk, at: tuple[Node, Path], part: type, field_name: str, entry: Entry
) -> Any:
    node, path = at
    value = read_value(walk, node, path, entry)
    if value is UNKNOWN and not _may_be_unknown(part, field_name):
        problem = Misread(
            "unknown-not-here",
            "“unknown” can be said of a find only",
            hint="write the value, or take the line out",
        )
        misread(walk, problem, node, path)
        return UNREAD
    return value


@cache
def _may_be_unknown(part: type, field_name: str) -> bool:
    return Unknown in get_args(get_type_hints(part)[field_name])


def _missing(walk: Walk, node: Node, path: Path, key: str, entry: Entry) -> Any:
    choices = listed(entry.choices)
    example = entry.example or next(iter(entry.choices), "")
    walk.findings.error(
        "missing-key",
        f"“{key}” is missing in {label(path)}",
        path,
        span=None if path else node.span,
        allowed=choices,
        hint=f"add e.g. “{key}: {example}”" if example else entry.doc,
    )
    return UNREAD


def _part(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    return read_part(walk, node, path, _class_of(entry))


def _parts(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    if not isinstance(node, Items) or not node.items:
        wrong_kind(walk, node, path, "a list", "begin each with “- ”")
        return UNREAD
    part = _class_of(entry)
    return tuple(read_part(walk, item, (*path, i), part) for i, item in enumerate(node.items))


def _named_parts(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    if not isinstance(node, Pairs) or not node.pairs:
        dashes = "take the dashes away and " if isinstance(node, Items) and node.items else ""
        example = f"e.g. “{entry.example[1:-1]}”" if entry.example else "lines “name: {...}”"
        wrong_kind(walk, node, path, "a name for each", f"{dashes}write {example}")
        return UNREAD
    part = _class_of(entry)
    stray = _stray(walk, node, path, part)
    names = names_of(part)
    found = []
    for key, value in node.pairs:
        if key.value in stray:
            continue
        at = (*path, key.value)
        if names and (problem := names.fault(key.value)):
            misread(walk, problem, key, at)
        found.append(read_part(walk, value, at, part, name=key.value))
    return tuple(found)


def _stray(walk: Walk, node: Pairs, path: Path, part: type) -> set[str]:
    """Keys among the names that are no names: set in too little or too far, and told."""
    inner = entries(part)
    names = {key.value for key, _ in node.pairs} - inner.keys()
    stray = not_set_in(walk, node, path, lambda _: inner, names)
    for key, value in node.pairs:
        own = isinstance(value, Text) and shorthand(part) is not None
        own |= isinstance(value, Pairs) and any(k.value in inner for k, _ in value.pairs)
        if key.value in names and not own and set_in_too_far(walk, node, key, path):
            stray.add(key.value)
    return stray


def _class_of(entry: Entry) -> type:
    if entry.part is None:
        raise TypeError(f"an entry of kind {entry.kind} names no class")
    return entry.part


def _texts(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """A list of lines, or one; the lines of a block of text are lines of their own."""
    if isinstance(node, Text):
        lines = [line for line in node.value.splitlines() if line.strip()]
        parts = [Text(line, node.span) for line in lines] or [node]
        node = Items(tuple(parts), node.span)
    if not isinstance(node, Items) or not node.items:
        wrong_kind(walk, node, path, "a line, or a list of lines")
        return UNREAD
    found = [_text(walk, item, (*path, i), entry) for i, item in enumerate(node.items)]
    return UNREAD if UNREAD in found else tuple(found)


def _yarn(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    name = _text(walk, node, path, entry)
    if name is not UNREAD:
        walk.mentions.append(Mention("yarn", name, path))
    return name


def _reading(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
    """A length as text, or for a find the measures of a picture with a scale."""
    if not isinstance(node, Pairs) or path[:1] != ("find",):
        return _length_read(walk, node, path, entry)
    scale = read_part(walk, node, path, PictureScale)
    known = (scale.pixels, scale.known, scale.known_pixels, scale.error)
    if UNREAD in known or any(value is UNREAD for value in known):
        return UNREAD
    found = scale.reading()
    if not (entry.low or 0) <= found.value <= (entry.high or found.value):
        allowed = f"{entry.low:g} to {entry.high:g} mm"
        words = f"the picture makes it {found.value:.3g} mm, outside what is possible"
        misread(walk, Misread("out-of-range", words, allowed=allowed), node, path)
        return UNREAD
    return found


_text = from_text(plain.text)
_length_read = from_text(measures.reading)

READERS: dict[Kind, Reader] = {
    "text": _text,
    "texts": _texts,
    "whole": from_text(plain.whole),
    "number": from_text(plain.number),
    "percent": from_text(plain.percent),
    "yes-no": from_text(plain.yes_no),
    "choice": from_text(plain.choice),
    "date": from_text(plain.date),
    "file": from_text(plain.file),
    "folder": from_text(plain.folder),
    "length": from_text(measures.length),
    "mass": from_text(measures.mass),
    "time": from_text(measures.time),
    "amount": from_text(measures.amount),
    "reading": _reading,
    "rate": from_text(measures.rate),
    "yarn": _yarn,
    "part": _part,
    "parts": _parts,
    "named parts": _named_parts,
    "count": from_text(counts.count),
    "put-up": from_text(measures.put_up),
    "picks": from_text(measures.picks),
    "colours": holes.colours,
    "letters": holes.letters,
    "selection": selections.selection,
    "selections": selections.selections,
    "draft": holes.draft,
    "turning": steps.turning,
    "order": stringing.order,
    "price": read_price,
    "differences": read_differences,
}
"""How each kind of entry is read."""
