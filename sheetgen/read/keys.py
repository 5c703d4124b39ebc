"""The keys of a part: takes a node and a model class, gives what stands under each known key.

A key that is misspelt, set in too far or not far enough is told once; what was meant by it is
taken as written, though it cannot be read, so that nothing is said to be missing because of it.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping

from sheetgen.diagnostics import Path
from sheetgen.model.schema import Entry, Kind, entries, shorthand
from sheetgen.read.causes import no_space, told_no_space
from sheetgen.read.findings import listed, nearest
from sheetgen.read.meant import example_of, instead_of_key
from sheetgen.read.syntax import EMPTY
from sheetgen.read.tree import Node, Pairs, Refused, Text
from sheetgen.read.walk import Walk, label, wrong_kind

Written = dict[str, tuple[Node, Path]]
"""What stands under each key of a part, and where."""

Below = Callable[[str], Container[str]]
"""The keys that may stand below a key."""

KIT: Path = ("kit",)
_HOLDS_NAMES: tuple[Kind, ...] = ("named parts", "selections")
_YES_NO = ("yes", "no", "true", "false", "none")


class _Anything(Container[str]):
    """Names, which may be any words."""

    def __contains__(self, word: object) -> bool:
        return True


def written_keys(walk: Walk, node: Node, path: Path, part: type) -> Written | None:
    """Each known key with its node, unknown ones told; None when there can be no keys."""
    known = {key: entry for key, (_, entry) in entries(part).items()}
    short = shorthand(part)
    if isinstance(node, Text):
        if (pair := no_space(node.value)) and pair[0] in known:
            plain = told_no_space(*pair)
            walk.findings.error(plain.code, plain.message, path, span=node.span, hint=plain.hint)
            return None
        if short is not None:
            return {short: (node, path)}
    if not isinstance(node, Pairs):
        wrong_kind(walk, node, path, "a set of keys", _how_keys(node, known, part))
        return None
    found: Written = {
        key.value: (value, (*path, key.value)) for key, value in node.pairs if key.value in known
    }
    stray = not_set_in(walk, node, path, lambda key: _below(known.get(key)), known)
    for key, value in node.pairs:
        if key.value in known or key.value in stray or isinstance(value, Refused):
            continue
        if not walk.findings.full and not set_in_too_far(walk, node, key, path):
            near = _unknown(walk, key, path, known, part)
            if near and near not in found:
                found[near] = (Refused(key.span), (*path, near))
    return found


def _how_keys(node: Node, known: Mapping[str, Entry], part: type) -> str:
    if isinstance(node, Text) and node.value.casefold() in _YES_NO:
        return f"leave the line out if there are none; keys: {listed(known)}"
    how = f"e.g. “{example}”" if (example := example_of(part)) else "lines “key: value”"
    return f"write {how}; keys: {listed(known)}"


def _unknown(
    walk: Walk, key: Text, path: Path, known: Mapping[str, Entry], part: type
) -> str | None:
    """Tell of an unknown key; the known one that looks most like it."""
    meant = instead_of_key(key.value, known, part)
    near = None if meant else nearest(key.value, known)
    otherwise = meant or "take it out, or put it into “notes”"
    walk.findings.error(
        "unknown-key",
        f"“{key.value[:60]}” is not a key of {label(path)}",
        (*path, key.value),
        span=key.span,
        given=key.value,
        allowed=listed(known),
        hint=f"did you mean “{near}”?" if near else otherwise,
    )
    return near


def _below(entry: Entry | None) -> Container[str]:
    if entry is not None and entry.kind in _HOLDS_NAMES:
        return _Anything()
    return entries(entry.part) if entry is not None and entry.part is not None else ()


def not_set_in(
    walk: Walk, node: Pairs, path: Path, below: Below, known: Container[str]
) -> set[str]:
    """Keys that should have been set in, since the key above them holds nothing: told once.

    ``below`` says what may stand under a key of the node; ``known`` are its own keys.
    """
    stray: set[str] = set()
    empty: Text | None = None
    told = False
    for key, value in node.pairs:
        if key.value in known:
            empty, told = (key if isinstance(value, Refused) else None), False
        elif empty and key.value in below(empty.value):
            if not told and not walk.findings.withdraw(EMPTY.code, empty.span.line):
                empty = None  # it holds something, though that is at fault
                continue
            if not told:
                walk.findings.error(
                    "not-set-in",
                    f"nothing stands under “{empty.value[:60]}”: the lines below are not set in",
                    (*path, empty.value),
                    span=empty.span,
                    hint=f"set the lines below in by two spaces, from “{key.value[:40]}:” on",
                )
            told = True
            stray.add(key.value)
    return stray


def set_in_too_far(walk: Walk, node: Pairs, key: Text, path: Path) -> bool:
    """Tell of a key of the whole piece that stands, on a line of its own, one part too deep."""
    alone = all(k is key or k.span.line != key.span.line for k, _ in node.pairs)
    if len(path) != 1 or key.value not in entries(walk.whole) or not alone:
        return False
    if path == KIT:  # more likely to be changed for the guests
        return False
    walk.findings.error(
        "set-in-too-far",
        f"“{key.value}” belongs to the whole and stands under “{path[0]}”",
        (*path, key.value),
        span=key.span,
        hint=f"begin its line at the margin, as that of “{path[0]}:” does",
    )
    walk.misplaced.add(key.value)
    return True
