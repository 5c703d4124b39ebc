"""What is open while a description is read: lists and mappings whose end has not been seen."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Protocol

from sheetgen.diagnostics import Path
from sheetgen.read.tree import Node, Refused, Text


class Mark(Protocol):
    """A place in the text as the parser gives it, from 0."""

    @property
    def line(self) -> int:
        """The line."""

    @property
    def column(self) -> int:
        """The column."""


@dataclass(slots=True)
class Open:
    """A list or mapping whose end has not been seen."""

    start: Mark | None
    is_list: bool
    items: list[Node] = field(default_factory=list)
    pairs: dict[str, tuple[Text, Node]] = field(default_factory=dict)
    key: Text | Refused | None = None
    cut: bool = False
    """True after a value that was cut at its comma, so that more pieces of it may follow."""

    def step(self) -> Path:
        """Where the next value stands inside it, when that can be said."""
        if self.is_list:
            return (len(self.items),)
        return (self.key.value,) if isinstance(self.key, Text) else ()

    def put_value(self, node: Node) -> None:
        """Take the node as the value of the key that waits for one."""
        if isinstance(self.key, Text):
            self.cut = self.cut and isinstance(node, Refused)
            self.pairs[self.key.value] = (self.key, node)
        self.key = None
