"""The tree of a description as written: texts, lists and keyed values, each with its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sheetgen.diagnostics import Path, Span


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar, as text."""

    value: str
    span: Span


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Pairs:
    """Keys and values, in the order written."""

    pairs: tuple[tuple[Text, Node], ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Refused:
    """Stands for a value whose mistake has already been told."""

    span: Span


Node = Text | Items | Pairs | Refused


def places(root: Node) -> dict[Path, Span]:
    """Where each value stands: a text at itself, anything larger at its key."""
    found: dict[Path, Span] = {(): root.span}
    waiting: list[tuple[Path, Node]] = [((), root)]
    while waiting:
        path, node = waiting.pop()
        for step, child, key in _children(node):
            at = (*path, step)
            found[at] = key.span if key and not isinstance(child, Text) else child.span
            waiting.append((at, child))
    return found


def _children(node: Node) -> Iterator[tuple[str | int, Node, Text | None]]:
    if isinstance(node, Items):
        yield from ((i, child, None) for i, child in enumerate(node.items))
    elif isinstance(node, Pairs):
        yield from ((key.value, child, key) for key, child in node.pairs)
