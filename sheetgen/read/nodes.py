"""Bytes to a tree of texts, lists and keyed values, each with its line and column.

Built from the parser's events, not from its objects: every scalar stays the text it was written
as, and nothing recurses, so no file can exhaust the stack or turn ``no`` into False.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import yaml

from sheetgen.diagnostics import Path, Span
from sheetgen.read import syntax
from sheetgen.read.causes import causes
from sheetgen.read.decoding import INVISIBLE, composed, decoded
from sheetgen.read.empties import tell_empty
from sheetgen.read.findings import Findings
from sheetgen.read.frames import Mark, Open
from sheetgen.read.syntax import Plain, in_plain_words
from sheetgen.read.tree import Items, Node, Pairs, Refused, Text

DEEPEST = 40
MOST_NODES = 20_000
"""The parser takes half a second for so many; no description has a tenth of it."""

_LOST_COLOUR = re.compile(r"[ \t]+#[0-9A-Fa-f]{6}\b")


def parse(
    data: bytes, findings: Findings, most: int = MOST_NODES, fast: bool = False
) -> Node | None:
    """The tree of one YAML document in UTF-8; None, with an error found, when there is none.

    ``most`` bounds its lists, mappings and texts. ``fast`` takes the parser in C where PyYAML has
    it, ten times as quick: for files of our own, as it words some mistakes in another way.
    """
    text = decoded(data, findings)
    if text is None:
        return None
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader) if fast else yaml.SafeLoader
    return _Builder(text, findings, most, loader).run()


class _Stop(Exception):  # noqa: N818  # not an error: the mistake has been noted
    """Reading cannot go on."""


class _Builder:
    """Builds the tree from the parser's events."""

    def __init__(
        self, text: str, findings: Findings, most: int, loader: type[yaml.SafeLoader]
    ) -> None:
        self.text = text
        self.most = most
        self.loader = loader
        self.lines = text.split("\n")
        self.findings = findings
        self.open: list[Open] = []
        self.root: Node | None = None
        self.count = 0

    def run(self) -> Node | None:
        """Go through all events; None, with the mistake noted, when reading had to stop."""
        try:
            for event in self._events():
                self._take(event)
        except _Stop:
            return None
        if self.root is None or (isinstance(self.root, Refused) and not self.findings.diagnostics):
            self._error(syntax.EMPTY_FILE, Span(1, 1))
        return self.root

    def _events(self) -> Iterator[yaml.Event]:
        mark = None
        try:
            for event in yaml.parse(self.text, Loader=self.loader):
                mark = event.end_mark
                yield event
        except yaml.MarkedYAMLError as problem:
            self._syntax(problem)
            raise _Stop from problem
        except (yaml.YAMLError, ValueError, OverflowError) as problem:
            # the parser lets chr() and int() fail on \U00110000 or an endless version number
            plain = in_plain_words("", "escape sequence of" if "\\" in self.text else "")
            self._error(plain, self._span(mark, mark))
            raise _Stop from problem

    def _take(self, event: yaml.Event) -> None:
        if isinstance(event, yaml.DocumentStartEvent):
            self._one_document(event)
        elif isinstance(event, yaml.NodeEvent):
            self._node(event)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._close(event)

    def _one_document(self, event: yaml.Event) -> None:
        if self.root is not None:
            self._error(syntax.SECOND_DOCUMENT, self._span(event.start_mark, event.end_mark))
            raise _Stop

    def _node(self, event: yaml.NodeEvent) -> None:
        self.count += 1
        span = self._span(event.start_mark, event.end_mark)
        if self.count > self.most:
            self._error(syntax.TOO_MANY, span)
            raise _Stop
        if isinstance(event, yaml.AliasEvent):
            self._error(syntax.REFERENCE, span)
            self._put(Refused(span))
            return
        if event.anchor is not None:
            self._error(syntax.REFERENCE, Span(span.line, span.column))
        if isinstance(event, yaml.ScalarEvent):
            self._scalar(event, span)
        elif isinstance(event, yaml.CollectionStartEvent):
            self._open_up(event, span)

    def _open_up(self, event: yaml.CollectionStartEvent, span: Span) -> None:
        self._no_tag(event, span)
        if len(self.open) >= DEEPEST:
            self._error(syntax.TOO_DEEP, span)
            raise _Stop
        self.open.append(Open(event.start_mark, isinstance(event, yaml.SequenceStartEvent)))

    def _no_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, span: Span) -> None:
        if event.tag is not None:
            self._error(syntax.TAG, Span(span.line, span.column))

    def _scalar(self, event: yaml.ScalarEvent, span: Span) -> None:
        self._no_tag(event, span)
        value = composed(event.value)
        plain = not event.style  # None, or empty from the parser in C
        if plain and value in ("", "~"):
            self._empty(span)
            return
        if INVISIBLE.search(value):
            self._error(syntax.UNPRINTABLE, span)
            self._put(Refused(span))
            return
        if plain and _LOST_COLOUR.match(self._line(span.line), span.column - 1 + span.length):
            code, message, hint, _ = syntax.LOST_COLOUR
            self.findings.warning(code, message, self._path(), span=span, given=value, hint=hint)
        self._put(Text(value, span))

    def _empty(self, span: Span) -> None:
        if not self.open:
            self.root = Refused(span)
            return
        key = self.open[-1].key
        tell_empty(self.open[-1], span, self._path(), self.lines, self.findings)
        self._put(Refused(key.span if key else span))

    def _put(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        frame = self.open[-1]
        if frame.is_list:
            frame.items.append(node)
        elif frame.key is None:
            frame.key = self._key(frame, node)
        else:
            frame.put_value(node)

    def _key(self, frame: Open, node: Node) -> Text | Refused:
        """The node as a key of the mapping, or Refused after telling why it cannot be one."""
        if isinstance(node, Refused):
            return node
        if not isinstance(node, Text):
            self._error(syntax.ODD_KEY, node.span)
        elif node.value == "<<":
            self._error(syntax.REFERENCE, node.span)
        elif node.value in frame.pairs:
            first = frame.pairs[node.value][0].span.line
            message = f"“{node.value[:60]}” is given twice, first in line {first}"
            self._error(syntax.DUPLICATE, node.span, message)
        else:
            return node
        return Refused(node.span)

    def _close(self, event: yaml.Event) -> None:
        frame = self.open.pop()
        span = self._span(frame.start, event.end_mark)
        if frame.is_list:
            self._put(Items(tuple(frame.items), span))
        else:
            self._put(Pairs(tuple(frame.pairs.values()), span))

    def _line(self, number: int) -> str:
        return self.lines[number - 1] if number <= len(self.lines) else ""

    def _path(self) -> Path:
        return tuple(step for frame in self.open for step in frame.step())

    def _span(self, start: Mark | None, end: Mark | None) -> Span:
        if start is None or end is None:
            return Span(1, 1)
        if start.line == end.line:
            length = end.column - start.column
        else:
            length = len(self._line(start.line + 1).rstrip()) - start.column
        return Span(start.line + 1, start.column + 1, max(1, length))

    def _syntax(self, problem: yaml.MarkedYAMLError) -> None:
        """Tell why the parser broke off, unless its line has been told of already."""
        opened = self.open[-1].start if self.open else None
        for plain, span in causes(problem, self.lines, opened):
            if plain is syntax.LOST_END:
                self.findings.withdraw(plain.code, span.line)
            if not self.findings.errors_in(span.line):
                self._error(plain, span)

    def _error(self, plain: Plain, span: Span, message: str = "") -> None:
        self.findings.error(
            plain.code, message or plain.message, self._path(), span=span, hint=plain.hint
        )
