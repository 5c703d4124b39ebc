"""The description as written: takes bytes, gives a Project or None, spans and diagnostics."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from sheetgen.diagnostics import Diagnostic, Path, Span, has_errors, placed
from sheetgen.model import Project
from sheetgen.read.causes import no_space, told_no_space
from sheetgen.read.cross import check_agreement
from sheetgen.read.findings import Findings
from sheetgen.read.kits import kit_tree, of_guests, told_of_kit
from sheetgen.read.nodes import parse
from sheetgen.read.parts import read_part
from sheetgen.read.tree import Node, Pairs, Refused, Text, places
from sheetgen.read.walk import Walk

__all__ = ["ReadResult", "read_description", "read_quickly", "told_of_kit"]


@dataclass(frozen=True, slots=True)
class ReadResult:
    """What came of reading: ``project`` is None whenever one of the diagnostics is an error.

    ``spans`` says where each value stands, by its written keys and list positions;
    ``diagnostics`` are sorted by place.
    """

    project: Project | None
    spans: Mapping[Path, Span]
    diagnostics: tuple[Diagnostic, ...]
    kit_spans: Mapping[Path, Span] = field(default_factory=dict)
    """The same of the kit's piece, by the keys that a whole description of it would have."""


def read_quickly(data: bytes) -> ReadResult:
    """The same by the quick parser, for one of many; by the other where anything is amiss."""
    read = _read(data, fast=True)
    return read_description(data) if read.diagnostics else read


def read_description(data: bytes) -> ReadResult:
    """Read the bytes of a description. Mistakes are handed back, all at once, never raised."""
    return _read(data)


def _read(data: bytes, fast: bool = False) -> ReadResult:
    findings = Findings()
    root = parse(data, findings, fast=fast)
    spans = places(root) if root is not None else {}
    project = _read_project(root, spans, findings) if root is not None else None
    diagnostics = placed(findings.diagnostics, spans)
    kit, kit_spans, kit_told = _read_kit(root, spans, diagnostics)
    if kit_told:
        diagnostics = placed((*diagnostics, *kit_told), spans)
    if project is not None and not has_errors(diagnostics):
        digest = hashlib.sha256(data).hexdigest()[:8]
        if kit is not None and project.kit is not None:
            kit = dataclasses.replace(of_guests(kit, project.kit), digest=digest, kit=project.kit)
        project = dataclasses.replace(project, digest=digest, kit_piece=kit)
    else:
        project = None
    frozen = MappingProxyType(kit_spans)
    return ReadResult(project, MappingProxyType(spans), diagnostics, frozen)


def _read_kit(
    root: Node | None, spans: Mapping[Path, Span], told: Sequence[Diagnostic]
) -> tuple[Project | None, dict[Path, Span], tuple[Diagnostic, ...]]:
    """The kit's piece, where its values stand, and what is wrong with it alone."""
    findings = Findings()
    tree = kit_tree(root, findings) if root is not None else None
    if tree is None:
        return None, {}, ()
    kit_spans = places(tree)
    piece = _read_project(tree, kit_spans, findings)
    found = placed(findings.diagnostics, kit_spans)
    return piece, kit_spans, told_of_kit(found, told, spans)


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
