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

_WIDEST = 96
"""Characters in a line of what is written, where words allow it."""


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
    if not node.flow_style:
        return _block(text, node, values)
    if {str(k.value) for k, _ in node.value} == values.keys():
        return _changed(text, _in_place(node, values))
    inside = text[node.start_mark.index : node.end_mark.index]
    if re.search(r"\s#[^\n]*\n", inside):
        raise CannotEdit("there are remarks inside its braces")
    return _put(text, node.start_mark.index, node.end_mark.index, whole)


def raw_value(data: bytes, path: Path) -> str:
    """A value as it stands in the text; CannotEdit for one that is not on a line of its own."""
    node = _at(_root(data), path)
    raw = _text(data)[node.start_mark.index : _end(node)]
    if "\n" in raw:
        raise CannotEdit(f"“{path[-1]}” takes several lines")
    return raw


Change = tuple[int, int, str]


def _in_place(node: yaml.MappingNode, values: Mapping[str, str]) -> list[Change]:
    """The values that differ, each in its own place."""
    return [
        (value.start_mark.index, _end(value), values[key.value])
        for key, value in node.value
        if key.value in values
        and not (
            isinstance(value, yaml.ScalarNode)
            and quoted(" ".join(str(value.value).split())) == values[key.value]
        )
    ]


def _changed(text: str, changes: Sequence[Change]) -> bytes:
    """From the last change to the first, so that places before them stay true."""
    for begin, end, new in sorted(changes, reverse=True):
        text = text[:begin] + new + text[end:]
    return text.encode()


def _block(text: str, node: yaml.MappingNode, values: Mapping[str, str]) -> bytes:
    there = [str(key.value) for key, _ in node.value]
    column = node.value[0][0].start_mark.column
    margin, newline = " " * column, _newline(text)
    changes = _in_place(node, values)
    for key, value in node.value:
        if key.value in values:
            continue
        start = text.rfind("\n", 0, key.start_mark.index) + 1
        if text[start : key.start_mark.index].strip():
            raise CannotEdit(f"“{key.value}” shares its line with other keys")
        stop = _line_end(text, _end(value))
        remark = text[_end(value) : stop].strip()
        kept = f"{margin}{remark}{newline}" if remark else ""
        changes.append((start, min(stop + len(newline), len(text)), kept))
    more = [f"{margin}{k}: {v}" for k, v in values.items() if k not in there]
    if more:
        start = text.rfind("\n", 0, node.value[0][0].start_mark.index) + 1
        changes.append((start, start, newline.join([*more, ""])))
    return _changed(text, changes)


def _newline(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _line_end(text: str, at: int) -> int:
    """Where the line ends, before its line break."""
    found = text.find(_newline(text), at)
    return found if found >= 0 else len(text)


def with_entry(data: bytes, path: Path, key: str, values: Mapping[str, str]) -> bytes:
    """The keys at a path with one more, whose own keys have these written values."""
    text, node = _text(data), _at(_root(data), path)
    if not isinstance(node, yaml.MappingNode):
        raise CannotEdit(f"“{path[-1]}” has no keys")
    entry = f"{key}: {{" + ", ".join(f"{k}: {v}" for k, v in values.items()) + "}"
    if node.flow_style:
        at = _end_of_value(node)
        return _put(text, at, at, f", {entry}")
    margin, stop = " " * node.value[0][0].start_mark.column, _line_end(text, _end(node))
    return _put(text, stop, stop, f"{_newline(text)}{margin}{entry}")


def _end_of_value(node: yaml.MappingNode) -> int:
    """Where the last value within braces ends."""
    return _end(node.value[-1][1])


def with_sequence(data: bytes, path: Path, items: Sequence[str]) -> bytes:
    """The list at a path with these written items, as it was written: in brackets or by dashes."""
    text, node = _text(data), _at(_root(data), path)
    begin, end = node.start_mark.index, _end(node)
    if re.search(r"(^|\s)#", text[begin:end]):
        raise CannotEdit(f"there are remarks inside “{path[-1]}”")
    column, newline = node.start_mark.column, _newline(text)
    if isinstance(node, yaml.SequenceNode) and not node.flow_style:
        return _put(
            text, begin, end, f"{newline}{' ' * column}- ".join([f"- {items[0]}", *items[1:]])
        )
    lines = [f"[{items[0]}"]
    for item in items[1:]:
        if column + len(lines[-1]) + len(item) > _WIDEST:
            lines[-1] += ","
            lines.append(f"{' ' * (column + 1)}{item}")
            column = 0
        else:
            lines[-1] += f", {item}"
    return _put(text, begin, end, f"{newline.join(lines)}]")


def with_item(data: bytes, key: str, item: str) -> bytes:
    """The list under a key of the whole file with one item more; the key is added if need be."""
    text, root = _text(data), _root(data)
    assert isinstance(root, yaml.MappingNode), "a file that was read has keys"
    node, newline = next((v for k, v in root.value if k.value == key), None), _newline(text)
    if node is None:
        before = "" if text.endswith("\n") or not text else newline
        return f"{text}{before}{key}:{newline}  - {item}{newline}".encode()
    if not isinstance(node, yaml.SequenceNode):
        raise CannotEdit(f"“{key}” is no list")
    if node.flow_style:
        return _put(text, node.end_mark.index - 1, node.end_mark.index - 1, f", {item}")
    start = text.rfind("\n", 0, node.start_mark.index) + 1
    stop = _line_end(text, _end(node))
    margin = text[start : node.start_mark.index]
    return _put(text, stop, stop, f"{newline}{margin}- {item}")


def differing(old: bytes, new: bytes) -> Sequence[tuple[int, str]]:
    """Lines of the new text that the old one has not, with their numbers."""
    before, after = _text(old).splitlines(), _text(new).splitlines()
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
