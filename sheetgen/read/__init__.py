"""The description as written: takes bytes, gives a Project or None, spans and diagnostics."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from sheetgen.diagnostics import Diagnostic, Path, Span, has_errors, placed
from sheetgen.model import Project
from sheetgen.read.causes import no_space, told_no_space
from sheetgen.read.cross import check_agreement
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.parts import read_part
from sheetgen.read.tree import Node, Pairs, Refused, Text, places
from sheetgen.read.walk import Walk

__all__ = ["ReadResult", "read_description"]


@dataclass(frozen=True, slots=True)
class ReadResult:
    """What came of reading: ``project`` is None whenever one of the diagnostics is an error.

    ``spans`` says where each value stands, by its written keys and list positions;
    ``diagnostics`` are sorted by place.
    """

    project: Project | None
    spans: Mapping[Path, Span]
    diagnostics: tuple[Diagnostic, ...]


def read_description(data: bytes) -> ReadResult:
    """Read the bytes of a description. Mistakes are handed back, all at once, never raised."""
    findings = Findings()
    root = parse(data, findings)
    spans = places(root) if root is not None else {}
    project = _read_project(root, spans, findings) if root is not None else None
    diagnostics = placed(findings.diagnostics, spans)
    if project is not None and not has_errors(diagnostics):
        digest = hashlib.sha256(data).hexdigest()[:8]
        project = dataclasses.replace(project, digest=digest)
    else:
        project = None
    return ReadResult(project, MappingProxyType(spans), diagnostics)


def _read_project(root: Node, spans: Mapping[Path, Span], findings: Findings) -> Project | None:
    if not isinstance(root, Pairs):
        if isinstance(root, Text) and (pair := no_space(root.value)):
            plain = told_no_space(pair[0], pair[1].split()[0])
            findings.error(plain.code, plain.message, span=root.span, hint=plain.hint)
        elif not isinstance(root, Refused):
            findings.error(
                "no-keys",
                "this is not a description: it has no keys",
                span=root.span,
                hint="write lines “key: value”, beginning with “piece: ”",
            )
        return None
    keys = {key.value for key, _ in root.pairs}
    if "stash" in keys and "piece" not in keys:
        findings.error(
            "a-stash",
            "this is a stash, not the description of a piece",
            span=root.pairs[0][0].span,
            hint="name it after --stash, e.g. sheetgen choose piece.yaml --stash stash.yaml",
        )
        return None
    walk = Walk(findings)
    project: Project = read_part(walk, root, (), Project)
    check_agreement(project, walk, spans)
    return project
