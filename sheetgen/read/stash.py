"""The stash as written: takes bytes, gives a Stash or None, spans and diagnostics."""

from __future__ import annotations

import dataclasses
import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from sheetgen.diagnostics import Diagnostic, Path, Span, has_errors, placed
from sheetgen.model.stash import Stash, StashBead
from sheetgen.read.cross import check_yarn
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.parts import read_part
from sheetgen.read.tree import Node, Pairs, Refused, places
from sheetgen.read.walk import Walk

MOST_NODES = 300_000
"""A stash may be far longer than a description: ten thousand yarns are 150,000."""

_KEY = re.compile(rb"^(stash|piece)[ \t]*:(?:\s|$)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class StashResult:
    """What came of reading: ``stash`` is None whenever one of the diagnostics is an error."""

    stash: Stash | None
    spans: Mapping[Path, Span]
    diagnostics: tuple[Diagnostic, ...]


def is_stash(data: bytes) -> bool:
    """True for a file with the key ``stash`` at its margin; a description has ``piece`` as well."""
    return set(_KEY.findall(data.removeprefix(b"\xef\xbb\xbf"))) == {b"stash"}


def read_stash(data: bytes) -> StashResult:
    """Read the bytes of a stash. Mistakes are handed back, all at once, never raised."""
    # What the quick parser finds fault with is looked at again, for the words of the other.
    findings = Findings()
    root = parse(data, findings, MOST_NODES, fast=True)
    if root is None or findings.diagnostics:
        findings = Findings()
        root = parse(data, findings, MOST_NODES)
    spans = places(root) if root is not None else {}
    stash = _read(root, findings) if root is not None else None
    diagnostics = placed(findings.diagnostics, spans)
    if stash is not None and not has_errors(diagnostics):
        stash = dataclasses.replace(stash, digest=hashlib.sha256(data).hexdigest()[:8])
    else:
        stash = None
    return StashResult(stash, MappingProxyType(spans), diagnostics)


def _read(root: Node, findings: Findings) -> Stash | None:
    if not isinstance(root, Pairs):
        if not isinstance(root, Refused):
            findings.error(
                "no-keys",
                "this is not a stash: it has no keys",
                span=root.span,
                hint="write lines “key: value”, beginning with “stash: ”",
            )
        return None
    walk = Walk(findings, whole=Stash)
    stash: Stash = read_part(walk, root, (), Stash)
    for yarn in stash.yarns:
        check_yarn(yarn, findings)
    for kind in stash.beads:
        _check_hole(kind, findings)
    return stash


def _check_hole(kind: StashBead, findings: Findings) -> None:
    hole, across = kind.hole, kind.diameter
    if hole and across and hole >= across:
        findings.error(
            "hole-too-wide",
            f"the hole of {hole:g} mm is not narrower than the bead of {across:g} mm",
            ("beads", kind.name, "hole"),
            given=f"{hole:g} mm",
            allowed=f"less than {across:g} mm",
            hint="measure both again: the diameter is across the string, over all",
        )
