"""The questions for a new description: takes the bytes of their file, gives Questions or None."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeGuard

from sheetgen.diagnostics import Diagnostic, Path
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.tree import Items, Node, Pairs, Text

FIELDS = ("at", "forms", "ask", "shows", "optional")
WORDS = ("intro", "form", "left out", "known", "stopped")


@dataclass(frozen=True, slots=True)
class Question:
    """One question: the lines it may fill, best first; figures that are then known.

    One that is ``optional`` has its line as a remark in the starting text.
    """

    at: tuple[Path, ...]
    forms: tuple[str, ...]
    ask: str
    shows: tuple[str, ...]
    optional: bool


@dataclass(frozen=True, slots=True)
class Questions:
    """All questions in order, and the words around them."""

    words: Mapping[str, str]
    questions: tuple[Question, ...]

    def of(self, form: str) -> tuple[Question, ...]:
        """Those that are asked for a form."""
        return tuple(q for q in self.questions if form in q.forms)


def read_questions(data: bytes) -> tuple[Questions | None, tuple[Diagnostic, ...]]:
    """The questions of a file; None with the mistakes when they cannot be used."""
    findings = Findings()
    root = parse(data, findings)
    top = _pairs(root)
    words = {key: node.value for key, node in _pairs(top.get("words")).items() if _is_text(node)}
    listed = top.get("questions")
    items = listed.items if isinstance(listed, Items) else ()
    questions = [_question(item, findings) for item in items]
    for word in WORDS:
        if word not in words:
            findings.error("missing-key", f"“{word}” is missing in words", ("words",))
    if not questions:
        findings.error("missing-key", "there are no questions", hint="begin each with “- at: ”")
    told = tuple(findings.diagnostics)
    return (None if told else Questions(words, tuple(questions))), told


def _question(node: Node, findings: Findings) -> Question:
    given = {key: value.value for key, value in _pairs(node).items() if _is_text(value)}
    for key in ("at", "forms", "ask"):
        if key not in given:
            findings.error("missing-key", f"a question without “{key}”", span=node.span)
    for key in _pairs(node):
        if key not in FIELDS:
            findings.error("unknown-key", f"“{key}” is no key of a question", span=node.span)
    at = tuple(tuple(place.split("/")) for place in given.get("at", "").split())
    forms, shows = given.get("forms", "").split(), given.get("shows", "").split()
    optional = given.get("optional") == "yes"
    return Question(at, tuple(forms), given.get("ask", ""), tuple(shows), optional)


def _pairs(node: Node | None) -> dict[str, Node]:
    return {key.value: value for key, value in node.pairs} if isinstance(node, Pairs) else {}


def _is_text(node: Node) -> TypeGuard[Text]:
    return isinstance(node, Text)
