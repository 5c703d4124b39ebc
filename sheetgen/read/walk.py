"""What the readers share while they go through one description, and how a lone text is taken."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

from sheetgen.diagnostics import Path, Span
from sheetgen.model.project import Project
from sheetgen.model.schema import Entry
from sheetgen.model.values import Price
from sheetgen.read.findings import Findings, Misread
from sheetgen.read.tree import Items, Node, Refused, Text
from sheetgen.units import QuantityError


class Unread:
    """Stands where a value could not be read, so that the rest can still be checked.

    It has every attribute, holds nothing and equals no written value: a check that meets it
    finds no fault. It never leaves this folder, since an unread value is an error.
    """

    def __getattr__(self, name: str) -> Unread:
        return self

    def __iter__(self) -> Iterator[Any]:
        return iter(())

    def __bool__(self) -> bool:
        return False


UNREAD: Any = Unread()

Named = Literal["yarn", "kind of bead", "group"]


class Mention(NamedTuple):
    """A name used at ``path`` that must be given elsewhere in the description."""

    what: Named
    name: str
    path: Path
    span: Span | None = None


class Priced(NamedTuple):
    """A price that was read, where it stands, and as it was written."""

    price: Price
    path: Path
    span: Span
    text: str


@dataclass(slots=True)
class Walk:
    """One going-through: the mistakes, what has been read so far by its path, the names used."""

    findings: Findings
    values: dict[Path, Any] = field(default_factory=dict)
    mentions: list[Mention] = field(default_factory=list)
    prices: list[Priced] = field(default_factory=list)
    misplaced: set[str] = field(default_factory=set)
    """Keys of the whole that were found in a part of it."""
    whole: type = Project
    """The class of the whole file."""


Reader = Callable[[Walk, Node, Path, Entry], Any]
"""Reads the node at a path as its entry says; UNREAD when it cannot, with the mistakes found."""


def label(path: Path) -> str:
    """What a value is called in a message: its key."""
    keys = [step for step in path if isinstance(step, str)]
    return keys[-1] if keys else "the description"


def wrong_kind(walk: Walk, node: Node, path: Path, wanted: str, hint: str = "") -> None:
    """Say that another kind of thing stands here; silent when a mistake has been told already."""
    if isinstance(node, Refused):
        return
    if isinstance(node, Text):
        stands = "a lone value"
    elif isinstance(node, Items):
        stands = "a list" if node.items else "an empty list"
    else:
        stands = "a set of keys" if node.pairs else "an empty pair of braces"
    walk.findings.error(
        "wrong-kind",
        f"{label(path)}: {stands} instead of {wanted}",
        path,
        span=node.span,
        given=node.value if isinstance(node, Text) else "",
        allowed=wanted,
        hint=hint,
    )


def misread(walk: Walk, problem: Misread | QuantityError, node: Node, path: Path) -> None:
    """Note why the text of a node cannot be read."""
    walk.findings.error(
        problem.code,
        f"{label(path)}: {problem.reason}",
        path,
        span=node.span,
        given=node.value if isinstance(node, Text) else "",
        allowed=problem.allowed if isinstance(problem, Misread) else "",
        hint=problem.hint,
    )


def from_text(read: Callable[[str, Entry], Any]) -> Reader:
    """A reader of lone values from a function that reads their text."""

    def reader(walk: Walk, node: Node, path: Path, entry: Entry) -> Any:
        if not isinstance(node, Text):
            wrong_kind(walk, node, path, "a lone value", _as_in(entry))
            return UNREAD
        try:
            return read(one_line(node.value), entry)
        except (Misread, QuantityError) as problem:
            misread(walk, problem, node, path)
            return UNREAD

    return reader


def one_line(text: str) -> str:
    """The text on one line, single spaces; Misread when nothing is left."""
    line = " ".join(text.split())
    if not line:
        raise Misread("empty-value", "nothing stands between the quotes", hint="write something")
    return line


def each(node: Node, path: Path) -> list[tuple[Node, Path]]:
    """The items of a list with their paths; anything else is its own only item."""
    if isinstance(node, Items):
        return [(item, (*path, i)) for i, item in enumerate(node.items)]
    return [(node, path)]


_SPELT = re.findall(r"\w+", "one two three four five six seven eight nine ten eleven twelve")
_IN_WORDS = {
    **{word: f"write {n}" for n, word in enumerate(_SPELT, start=1)},
    **dict.fromkeys(("no", "none", "false"), "if there are none, leave the line out"),
    **dict.fromkeys(("yes", "true"), "write how many, in digits"),
}
"""What to write instead of a word where a whole number is wanted."""


def whole_number(text: str, low: int, high: int) -> int:
    """Read digits between ``low`` and ``high``; Misread says what is wrong."""
    allowed = f"{low} to {high}"
    digits = text.removeprefix("-")
    if not (digits.isascii() and digits.isdigit()):
        hint = _IN_WORDS.get(text.casefold()) or _digits_of(text)
        raise Misread("not-whole", "this is not a whole number", allowed=allowed, hint=hint)
    if len(digits) > 1 and digits.startswith("0"):
        plain = digits.lstrip("0") or "0"
        raise Misread(
            "leading-zero",
            "a number with a 0 in front",
            allowed=allowed,
            hint=f"write {plain[:12]}",
        )
    # int() refuses thousands of digits, so their number is looked at first
    if len(digits) > 12 or not low <= int(text) <= high:
        raise Misread("out-of-range", "outside what is possible", allowed=allowed)
    return int(text)


def _digits_of(text: str) -> str:
    """What to write for ``8 six-hole``: the number alone, where one leads."""
    found = re.match(r"([0-9]{1,6}) [^0-9.,/]", text)
    return f"write {found[1]} alone; more is said by keys of its own" if found else "digits only"


def _as_in(entry: Entry) -> str:
    return f"write e.g. {entry.example}" if entry.example else ""
