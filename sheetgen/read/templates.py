"""Templates: takes the bytes of a template file, gives a Template or None, and diagnostics."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from sheetgen.diagnostics import Diagnostic, Path, Span, has_errors, placed
from sheetgen.model.template import SheetPart, Template
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.sentences import Sentences
from sheetgen.read.tree import Items, Node, Pairs, Refused, Text, places

TOP_KEYS = ("sheet", "language", "words", "parts")
OWN_KEYS = ("based on", "order")
PART_KEYS = ("heading", "words")


@dataclass(frozen=True, slots=True)
class Sets:
    """The sets of templates that come with the program: names, the usual one first, and each."""

    names: Sequence[str]
    get: Callable[[str], Template | None]


@dataclass(frozen=True, slots=True)
class TemplateResult:
    """What came of reading: ``template`` is None whenever one of the diagnostics is an error.

    ``base`` is the set that the file is based on, if it is. ``own`` says which sentences are the
    file's, by their place in the template, and under which path of ``spans`` they stand.
    """

    template: Template | None
    diagnostics: tuple[Diagnostic, ...]
    base: Template | None = None
    own: Mapping[Path, Path] = field(default_factory=dict)
    spans: Mapping[Path, Span] = field(default_factory=dict)


def read_template(data: bytes, sets: Sets | None = None) -> TemplateResult:
    """Read the bytes of a template: ``sheet``, ``language``, ``words`` and ``parts``.

    A part has a ``heading``, ``words`` (key: sentence) and any number of lists, each a mapping
    from a key to a sentence or to ``{say: ..., when: [...]}``. With ``sets``, the file need hold
    only what differs from the set that it is ``based on``.
    """
    findings = Findings()
    root = parse(data, findings, fast=sets is None)
    sentences = Sentences(findings)
    template, base = None, None
    if root is not None and sets is None:
        template = _whole(root, sentences)
    elif root is not None and sets is not None:
        base = _base(root, sets, findings)
        template = _over(root, base, sentences) if base else None
    spans = places(root) if root is not None else {}
    diagnostics = placed(map(_of_templates, findings.diagnostics), spans)
    if has_errors(diagnostics):
        template = None
    return TemplateResult(template, diagnostics, base, sentences.own, spans)


def _of_templates(told: Diagnostic) -> Diagnostic:
    """What the reading of descriptions said, in words that fit a file of templates."""
    if told.code != "empty-file":
        return told
    hint = "write what differs, e.g. “words: {title: Our loom sheet}”"
    return replace(told, message="nothing stands in this file", hint=hint)


def _whole(root: Node, sentences: Sentences) -> Template:
    """A template that has everything itself."""
    top = sentences.mapping(root, ())
    for key in TOP_KEYS:
        if key not in top:
            sentences.findings.error(
                "missing-key", f"a template needs “{key}”", span=Span(root.span.line, 1)
            )
            top[key] = Refused(root.span)
    parts = sentences.mapping(top["parts"], ("parts",))
    return Template(
        sentences.text(top["sheet"], ("sheet",), ("sheet",)),
        sentences.text(top["language"], ("language",), ("language",)),
        tuple(_part(name, node, sentences, None) for name, node in parts.items()),
        sentences.words(top["words"], ("words",), None),
    )


def _part(name: str, node: Node, sentences: Sentences, base: SheetPart | None) -> SheetPart:
    """One part; with ``base``, what it does not say itself it has from there."""
    path: Path = ("parts", name)
    known = None if base is None else (*PART_KEYS, *base.lists)
    fields = sentences.mapping(node, path, known)
    lists = dict(base.lists) if base else {}
    for key, child in fields.items():
        if key not in PART_KEYS:
            old = base.lists[key] if base else None
            lists[key] = sentences.lines(child, (*path, key), old)
    words = sentences.words(fields.get("words"), (*path, "words"), base.words if base else None)
    heading = base.heading if base else ""
    if "heading" in fields or base is None:
        place = (*path, "heading")
        heading = sentences.text(fields.get("heading"), place, place)
    return SheetPart(name, heading, MappingProxyType(lists), words)


def _base(root: Node, sets: Sets, findings: Findings) -> Template | None:
    """The set that the file names, or the usual one."""
    sentences = Sentences(findings)
    top = sentences.mapping(root, (), (*OWN_KEYS, *TOP_KEYS))
    name = top.get("based on")
    if name is None:
        return sets.get(sets.names[0])
    if isinstance(name, Text) and name.value in sets.names:
        return sets.get(name.value)
    if isinstance(name, Text):
        message = f"no set of templates “{name.value}” comes with the program"
        sentences.unknown("unknown-set", message, name, (), sets.names)
    elif not isinstance(name, Refused):
        findings.error("wrong-form", "a name is wanted here", ("based on",), span=name.span)
    return sets.get(sets.names[0])


def _over(root: Node, base: Template, sentences: Sentences) -> Template:
    """A template of the base's sentences, and the file's where it has its own."""
    top = {key.value: node for key, node in root.pairs} if isinstance(root, Pairs) else {}
    sheet = top.get("sheet")
    if isinstance(sheet, Text) and sheet.value != base.sheet:
        message = f"this file is for the sheet “{base.sheet}”"
        sentences.unknown("unknown-sheet", message, sheet, (), (base.sheet,))
    language = base.language
    if "language" in top:
        language = sentences.text(top["language"], ("language",), ("language",))
    parts = {part.name: part for part in base.parts}
    for name, node in sentences.mapping(top.get("parts"), ("parts",), parts, "part").items():
        parts[name] = _part(name, node, sentences, parts[name])
    order = _order(top["order"], tuple(parts), sentences) if "order" in top else tuple(parts)
    words = sentences.words(top.get("words"), ("words",), base.words)
    return Template(base.sheet, language, tuple(parts[name] for name in order), words)


def _order(node: Node, known: Sequence[str], sentences: Sentences) -> Sequence[str]:
    """The parts to print, in their order; those that are not named are left out."""
    if not isinstance(node, Items) or not node.items:
        if not isinstance(node, Refused):
            sentences.findings.error(
                "wrong-form", "a list of parts is wanted here", ("order",), span=node.span,
                allowed=", ".join(known),
            )  # fmt: skip
        return known
    found: list[str] = []
    for item in node.items:
        if not isinstance(item, Text):
            if not isinstance(item, Refused):
                message = "the name of a part is wanted here"
                sentences.findings.error("wrong-form", message, ("order",), span=item.span)
        elif item.value not in known:
            message = f"“{item.value}” is no part of the sheet"
            sentences.unknown("unknown-part", message, item, ("order",), known)
        elif item.value in found:
            message = f"“{item.value}” is given twice"
            sentences.findings.error("given-twice", message, ("order",), span=item.span)
        else:
            found.append(item.value)
    return found
