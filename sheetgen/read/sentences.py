"""Sentences of a template: takes nodes, gives lines and words, over those of another set or not."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from sheetgen.diagnostics import Path, Span
from sheetgen.model.template import Line
from sheetgen.read.findings import Findings, did_you_mean, listed
from sheetgen.read.tree import Items, Node, Pairs, Refused, Text

NONE = "none"
"""Written instead of a line, or of a whole list, that shall not be printed."""

LINE_KEYS = ("say", "when", "after", "before")
_FIELD = re.compile(r"\{[^{}]*\}")
Entries = tuple[tuple[Text, Node, Path], ...]


@dataclass(slots=True)
class Sentences:
    """One going-through of a template file.

    ``own`` are the sentences that the file itself has: where each stands in the template ->
    where it stands in the file. ``keys`` are the keys as written.
    """

    findings: Findings
    own: dict[Path, Path] = field(default_factory=dict)
    keys: dict[Path, Text] = field(default_factory=dict)

    def mapping(
        self, node: Node | None, path: Path, known: Iterable[str] | None = None, what: str = "key"
    ) -> dict[str, Node]:
        """Keys and values; those that are not ``known`` (if it is given) are told and left out."""
        if not isinstance(node, Pairs):
            if node is not None and not isinstance(node, Refused):
                message = "keys and values are wanted here"
                self.findings.error("wrong-form", message, path, span=node.span)
            return {}
        found: dict[str, Node] = {}
        allowed = None if known is None else tuple(known)
        for key, child in node.pairs:
            if allowed is None or key.value in allowed:
                found[key.value] = child
                self.keys[*path, key.value] = key
            elif not isinstance(child, Refused):
                message = f"“{key.value}” is no {what} here"
                self.unknown(f"unknown-{what}", message, key, path, allowed)
        return found

    def unknown(
        self, code: str, message: str, node: Text, path: Path, known: Iterable[str], hint: str = ""
    ) -> None:
        """Tell of a name that is not known, with the one that was probably meant."""
        known = tuple(known)
        self.findings.error(
            code,
            message,
            (*path, node.value),
            span=node.span,
            given=node.value,
            allowed=listed(known),
            hint=did_you_mean(node.value, known, hint),
        )

    def text(self, node: Node | None, path: Path, place: Path) -> str:
        """A sentence, which stands at ``place`` of the template."""
        if not isinstance(node, Text):
            if not isinstance(node, Refused):
                span = None if node is None else node.span
                self.findings.error("wrong-form", "a sentence is wanted here", path, span=span)
            return ""
        self.own[place] = path
        if node.value == NONE:
            self.findings.error(
                "left-out",
                "only lines and lists can be left out",
                path,
                span=node.span,
                given=NONE,
                hint='write "" to print nothing here',
            )
        self._well_formed(node.value, path, node.span)
        return node.value

    def _well_formed(self, sentence: str, path: Path, span: Span) -> None:
        """Tell of stars without their partner, and of braces that do not close."""
        if sentence.count("**") % 2:
            self.findings.error(
                "open-stars",
                "** begins bold letters that do not end",
                path,
                span=span,
                given="**",
                hint="write ** before and after what shall be bold",
            )
        rest = _FIELD.sub("", sentence)
        if brace := next((c for c in rest if c in "{}"), ""):
            at = rest.index(brace)
            self.findings.error(
                "open-brace",
                "a brace without its partner",
                path,
                span=span,
                given=rest[at : at + 20] if brace == "{" else brace,
                hint="write the name of a figure in braces, e.g. {thickness}",
            )

    def words(
        self, node: Node | None, path: Path, base: Mapping[str, str] | None
    ) -> Mapping[str, str]:
        """Words by key; with ``base``, those of the file over those of the base."""
        pairs = self.mapping(node, path, base)
        found = {k: self.text(child, (*path, k), (*path, k)) for k, child in pairs.items()}
        return MappingProxyType({**(base or {}), **found})

    def lines(self, node: Node, path: Path, base: tuple[Line, ...] | None) -> tuple[Line, ...]:
        """A list of lines: keys and values change those of ``base``, a list stands instead."""
        if base is not None and isinstance(node, Items):
            return self._instead(node, path, base)
        if base is not None and isinstance(node, Text) and node.value == NONE:
            return ()
        found = list(base or ())
        places: list[tuple[Line, Node]] = []
        for key, child in self.mapping(node, path).items():
            at = (*path, key)
            old = next((line for line in found if line.key == key), None)
            if base is not None and isinstance(child, Text) and child.value == NONE:
                self._known(key, old, child, path, found)
                found = [line for line in found if line.key != key]
                continue
            line = self._line(key, child, at, (*path, key), old)
            if old is not None:
                found[found.index(old)] = line
            else:
                found.append(line)
            if base is not None:
                places.append((line, child))
                if not _says_where(child):
                    self._known(key, old, child, path, base)
        for line, child in places:
            self._move(found, line, child, path)
        return tuple(found)

    def _known(
        self, key: str, old: Line | None, child: Node, path: Path, lines: Iterable[Line]
    ) -> None:
        if old is None and not isinstance(child, Refused):
            self.unknown(
                "unknown-line",
                f"“{key}” is no line of “{path[-1]}”",
                self.keys[*path, key],
                path,
                [line.key for line in lines],
                "a new line says where it stands: {say: ..., after: the key of another}",
            )

    def _line(self, key: str, node: Node, path: Path, place: Path, old: Line | None) -> Line:
        """One line; what it does not say itself it has from ``old``."""
        if not isinstance(node, Pairs):
            return Line(key, self.text(node, path, place), old.when if old else ())
        fields = self.mapping(node, path, LINE_KEYS)
        say, when = (old.say, old.when) if old else ("", ())
        if "say" in fields or old is None:
            say = self.text(fields.get("say", node), (*path, "say"), place)
        if "when" in fields:
            self.own.setdefault(place, path)
            when = self._flags(fields["when"], (*path, "when"))
        return Line(key, say, when)

    def _flags(self, node: Node, path: Path) -> tuple[str, ...]:
        items = node.items if isinstance(node, Items) else (node,)
        flags = [item for item in items if isinstance(item, Text)]
        for item in items:
            if not isinstance(item, Text | Refused):
                self.findings.error("wrong-form", "a flag is wanted here", path, span=item.span)
        return tuple(flag.value for flag in flags)

    def _move(self, found: list[Line], line: Line, node: Node, path: Path) -> None:
        """Put a line after or before the one that it names."""
        if not isinstance(node, Pairs):
            return
        for key, child in node.pairs:
            if key.value not in ("after", "before") or not isinstance(child, Text):
                continue
            others = [other.key for other in found if other.key != line.key]
            if child.value not in others:
                message = f"“{child.value}” is no line of “{path[-1]}”"
                self.unknown("unknown-line", message, child, (*path, line.key), others)
                continue
            found.remove(line)
            found.insert(others.index(child.value) + (key.value == "after"), line)

    def _instead(self, node: Items, path: Path, base: tuple[Line, ...]) -> tuple[Line, ...]:
        """Lines written with dashes: a key alone for a line of the base, or key and sentence."""
        old = {line.key: line for line in base}
        found: dict[str, Line] = {}
        for i, item in enumerate(node.items):
            at = (*path, i)
            written: list[tuple[str, Node, Line | None]] = []
            if isinstance(item, Text):
                written.append((item.value, item, old.get(item.value)))
            else:
                for key, child in self.mapping(item, at).items():
                    line = self._line(key, child, (*at, key), (*path, key), old.get(key))
                    written.append((key, child, line))
            for key, child, known in written:
                if known is None:
                    hint = "a sentence of your own needs a key before it: “- key: sentence”"
                    message = f"“{key}” is no line of “{path[-1]}”"
                    self.unknown(
                        "unknown-line", message, Text(key, child.span), (*path, i), old, hint
                    )
                elif key in found:
                    message = f"“{key}” is given twice"
                    self.findings.error("given-twice", message, at, span=child.span)
                else:
                    found[key] = known
        return tuple(found.values())


def _says_where(node: Node) -> bool:
    return isinstance(node, Pairs) and any(k.value in ("after", "before") for k, _ in node.pairs)
