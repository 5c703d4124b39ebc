"""Templates: takes the bytes of a template file, gives a Template or None, and diagnostics."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from sheetgen.diagnostics import Diagnostic, Path, has_errors, placed
from sheetgen.model.template import Line, SheetPart, Template
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.tree import Items, Node, Pairs, Refused, Text, places

TOP_KEYS = ("sheet", "language", "words", "parts")
PART_KEYS = ("heading", "words")


@dataclass(frozen=True, slots=True)
class TemplateResult:
    """What came of reading: ``template`` is None whenever one of the diagnostics is an error."""

    template: Template | None
    diagnostics: tuple[Diagnostic, ...]


def read_template(data: bytes) -> TemplateResult:
    """Read the bytes of a template: ``sheet``, ``language``, ``words`` and ``parts``.

    A part has a ``heading``, ``words`` (key: sentence) and any number of lists, each a mapping
    from a key to a sentence or to ``{say: ..., when: [...]}``.
    """
    findings = Findings()
    root = parse(data, findings)
    template = _template(root, findings) if root is not None else None
    diagnostics = placed(findings.diagnostics, places(root) if root is not None else {})
    return TemplateResult(None if has_errors(diagnostics) else template, diagnostics)


def _template(root: Node, findings: Findings) -> Template | None:
    top = _mapping(root, (), findings)
    for key in TOP_KEYS:
        if key not in top:
            findings.error("missing-key", f"a template needs “{key}”", span=root.span)
            top[key] = Refused(root.span)
    parts = []
    for name, node in _mapping(top.get("parts"), ("parts",), findings).items():
        parts.append(_part(name, node, ("parts", name), findings))
    return Template(
        _text(top.get("sheet"), ("sheet",), findings),
        _text(top.get("language"), ("language",), findings),
        tuple(parts),
        _words(top.get("words"), ("words",), findings),
    )


def _part(name: str, node: Node, path: Path, findings: Findings) -> SheetPart:
    fields = _mapping(node, path, findings)
    lists = {
        key: _lines(child, (*path, key), findings)
        for key, child in fields.items()
        if key not in PART_KEYS
    }
    words = _words(fields.get("words"), (*path, "words"), findings)
    heading = _text(fields.get("heading"), (*path, "heading"), findings)
    return SheetPart(name, heading, MappingProxyType(lists), words)


def _lines(node: Node, path: Path, findings: Findings) -> tuple[Line, ...]:
    lines = []
    for key, child in _mapping(node, path, findings).items():
        if isinstance(child, Pairs):
            fields = _mapping(child, (*path, key), findings)
            say = _text(fields.get("say"), (*path, key, "say"), findings)
            lines.append(Line(key, say, _flags(fields.get("when"), (*path, key), findings)))
        else:
            lines.append(Line(key, _text(child, (*path, key), findings)))
    return tuple(lines)


def _flags(node: Node | None, path: Path, findings: Findings) -> tuple[str, ...]:
    if node is None:
        return ()
    items = node.items if isinstance(node, Items) else (node,)
    return tuple(_text(item, path, findings) for item in items)


def _words(node: Node | None, path: Path, findings: Findings) -> Mapping[str, str]:
    return MappingProxyType(
        {
            key: _text(child, (*path, key), findings)
            for key, child in _mapping(node, path, findings).items()
        }
    )


def _mapping(node: Node | None, path: Path, findings: Findings) -> dict[str, Node]:
    if isinstance(node, Pairs):
        return {key.value: child for key, child in node.pairs}
    if node is not None and not isinstance(node, Refused):
        findings.error("wrong-form", "keys and values are wanted here", path, span=node.span)
    return {}


def _text(node: Node | None, path: Path, findings: Findings) -> str:
    if isinstance(node, Text):
        return node.value
    if not isinstance(node, Refused):
        findings.error("wrong-form", "a sentence is wanted here", path)
    return ""
