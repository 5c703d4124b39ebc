"""Edits: takes the bytes of a description or stash, gives them with single values changed.

Only the lines of the changed values differ: comments, order and layout stay. The bytes must have
been read without an error.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence

import yaml

from sheetgen.diagnostics import Path

_NEEDS_QUOTES = re.compile(r"[,\[\]{}#\"]|: |^[-?*&!%@`'|>]|^\s|\s$|:$")


class CannotEdit(ValueError):  # noqa: N818  # told to the user, not a bug
    """The place is written in a way that cannot be changed without losing something."""


def quoted(value: str) -> str:
    """The value as it may stand anywhere, also inside braces.

    >>> quoted("12 g"), quoted("50 g, 210 m")
    ('12 g', '"50 g, 210 m"')
    """
    if value and not _NEEDS_QUOTES.search(value):
        return value
    inner = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{inner}"'


def written_values(data: bytes, path: Path) -> dict[str, str]:
    """The values under a path as they may be written elsewhere; of a lone value, under ``""``."""
    node = _at(_root(data), path)
    if isinstance(node, yaml.ScalarNode):
        return {"": quoted(" ".join(str(node.value).split()))}
    if not isinstance(node, yaml.MappingNode):
        raise CannotEdit("it is written as a list")
    found = {}
    for key, value in node.value:
        if not isinstance(value, yaml.ScalarNode):
            raise CannotEdit(f"“{key.value}” has keys of its own")
        found[str(key.value)] = quoted(" ".join(str(value.value).split()))
    return found


def with_values(data: bytes, path: Path, values: Mapping[str, str]) -> bytes:
    """The part at a path with exactly these keys and written values; unchanged ones stay."""
    text, node = _text(data), _at(_root(data), path)
    whole = "{" + ", ".join(f"{key}: {value}" for key, value in values.items()) + "}"
    if not isinstance(node, yaml.MappingNode):
        return _put(text, node.start_mark.index, node.end_mark.index, whole)
    if node.flow_style:
        inside = text[node.start_mark.index : node.end_mark.index]
        if re.search(r"\s#[^\n]*\n", inside):
            raise CannotEdit("there are remarks inside its braces")
        return _put(text, node.start_mark.index, node.end_mark.index, whole)
    return _block(text, node, values)


def _block(text: str, node: yaml.MappingNode, values: Mapping[str, str]) -> bytes:
    """Changes from the last line to the first, so that places before them stay true."""
    there = {str(key.value): (key, value) for key, value in node.value}
    first = node.value[0][0].start_mark
    margin = " " * first.column
    last = _end(node)
    more = "".join(f"\n{margin}{k}: {v}" for k, v in values.items() if k not in there)
    line_end = text.find("\n", last)
    changes = [(at, at, more) for at in [line_end if line_end >= 0 else len(text)] if more]
    for name, (key, value) in there.items():
        begin, end = value.start_mark.index, _end(value)
        if name not in values:
            start = text.rfind("\n", 0, key.start_mark.index) + 1
            if text[start : key.start_mark.index].strip():
                raise CannotEdit(f"“{name}” shares its line with other keys")
            stop = text.find("\n", end)
            remark = text[end : stop if stop >= 0 else len(text)].strip()
            kept = f"{margin}{remark}\n" if remark else ""
            changes.append((start, stop + 1 if stop >= 0 else len(text), kept))
        elif not isinstance(value, yaml.ScalarNode) or (
            quoted(" ".join(str(value.value).split())) != values[name]
        ):
            changes.append((begin, end, values[name]))
    for begin, end, new in sorted(changes, reverse=True):
        text = text[:begin] + new + text[end:]
    return text.encode()


def with_item(data: bytes, key: str, item: str) -> bytes:
    """The list under a key of the whole file with one item more; the key is added if need be."""
    text, root = _text(data), _root(data)
    assert isinstance(root, yaml.MappingNode), "a file that was read has keys"
    node = next((v for k, v in root.value if k.value == key), None)
    if node is None:
        text = text if text.endswith("\n") or not text else text + "\n"
        return f"{text}{key}:\n  - {item}\n".encode()
    if not isinstance(node, yaml.SequenceNode):
        raise CannotEdit(f"“{key}” is no list")
    last = _end(node)
    if node.flow_style:
        return _put(text, node.end_mark.index - 1, node.end_mark.index - 1, f", {item}")
    start = text.rfind("\n", 0, node.start_mark.index) + 1
    margin = text[start : node.start_mark.index]
    stop = text.find("\n", last)
    stop = stop if stop >= 0 else len(text)
    return _put(text, stop, stop, f"\n{margin}- {item}")


def differing(old: bytes, new: bytes) -> Sequence[tuple[int, str]]:
    """Lines of the new text that the old one has not, with their numbers."""
    before, after = _text(old).split("\n"), _text(new).split("\n")
    matcher = difflib.SequenceMatcher(None, before, after, autojunk=False)
    return [
        (n + 1, after[n])
        for tag, _, _, begin, end in matcher.get_opcodes()
        if tag != "equal"
        for n in range(begin, end)
    ]


def _text(data: bytes) -> str:
    return data.decode("utf-8")


def _root(data: bytes) -> yaml.Node:
    node = yaml.compose(_text(data), Loader=yaml.SafeLoader)
    assert node is not None, "a file that was read is not empty"
    return node


def _at(node: yaml.Node, path: Path) -> yaml.Node:
    for step in path:
        if isinstance(node, yaml.MappingNode):
            node = next(v for k, v in node.value if k.value == step)
        else:
            node = node.value[step]
    return node


def _end(node: yaml.Node) -> int:
    """Where the last value of a node ends; a block's own end lies after remarks and empty lines."""
    while isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
    end: int = node.end_mark.index
    return end


def _put(text: str, begin: int, end: int, new: str) -> bytes:
    return (text[:begin] + new + text[end:]).encode()
