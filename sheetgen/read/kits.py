"""The kit of a description: takes its tree, gives the tree of the piece that the kit is for.

A key that the kit gives as a set of keys is merged with the piece's, key by key and name by name,
as deep as it goes; anything else (a lone value, a list) replaces what the piece has. ``none`` takes
a key or a name out. Every value keeps its own place in the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from sheetgen.diagnostics import Diagnostic, Path, Span
from sheetgen.model.kit import Kit
from sheetgen.model.project import Project
from sheetgen.model.schema import Entry
from sheetgen.read.findings import Findings, listed, nearest
from sheetgen.read.tree import Node, Pairs, Text
from sheetgen.read.walk import UNREAD, Walk, wrong_kind

NONE = "none"
LIFTED = ("pace", "sessions", "reserve")
"""Keys of the kit that stand for those of its piece."""
OWN = ("kit", "sessions", "made", "register", "departures")
"""Keys of the piece that say nothing of its kit."""
NOT_TOLD = ("unused-bead", "yarn-unused", "far-from-find", "far-from-sample")
"""Warnings that say nothing of a kit unless they come from what it says itself."""


def read_differences(walk: Walk, node: Node, path: Path, entry: Entry) -> tuple[str, ...]:
    """The keys that differ; what stands under them is read with the kit's piece."""
    if not isinstance(node, Pairs):
        wrong_kind(walk, node, path, "a set of keys", "write lines “key: value”, set in")
        return UNREAD  # type: ignore[no-any-return]
    for key, _ in node.pairs:
        if key.value == "kit":
            walk.findings.error(
                "kit-in-kit",
                "a kit cannot hold another kit",
                (*path, key.value),
                span=key.span,
                hint="write its keys under the “kit” of the piece",
            )
    return tuple(key.value for key, _ in node.pairs)


def kit_tree(root: Node, findings: Findings) -> Pairs | None:
    """The tree of the kit's piece; None if the description has no kit that could be read."""
    kit = _below(root, "kit")
    if not isinstance(root, Pairs) or not isinstance(kit, Pairs):
        return None
    base = Pairs(tuple(p for p in root.pairs if p[0].value not in OWN), root.span)
    lifted = tuple((key, node) for key, node in kit.pairs if key.value in LIFTED)
    tree = _merged(base, Pairs(lifted, kit.span), (), findings)
    differs = _below(kit, "differs")
    if isinstance(differs, Pairs):
        pairs = tuple(p for p in differs.pairs if p[0].value != "kit")
        tree = _merged(tree, Pairs(pairs, differs.span), (), findings)
    return tree


def _below(node: Node | None, key: str) -> Node | None:
    if not isinstance(node, Pairs):
        return None
    return next((value for k, value in node.pairs if k.value == key), None)


def _merged(base: Pairs, over: Pairs, path: Path, findings: Findings) -> Pairs:
    """Both trees as one: the base's keys in their order, then the new ones."""
    found = {key.value: (key, node) for key, node in base.pairs}
    for key, node in over.pairs:
        old = found.get(key.value)
        if isinstance(node, Text) and node.value == NONE:
            if old is None:
                _nothing_there(key, node, path, found, findings)
            found.pop(key.value, None)
        elif old is not None and isinstance(node, Pairs) and isinstance(old[1], Pairs):
            found[key.value] = key, _merged(old[1], node, (*path, key.value), findings)
        else:
            found[key.value] = key, node
    return Pairs(tuple(found.values()), base.span)


def _nothing_there(
    key: Text, node: Text, path: Path, known: Iterable[str], findings: Findings
) -> None:
    near = nearest(key.value, known)
    findings.error(
        "nothing-to-take-out",
        f"the piece has no “{key.value[:60]}” that the kit could do without",
        (*path, key.value),
        span=key.span,
        given=f"{key.value}: {node.value}",
        allowed=listed(known),
        hint=f"did you mean “{near}”?" if near else "take the line out",
    )


def of_guests(piece: Project, kit: Kit) -> Project:
    """The kit's piece with the hours and the pace of guests: sessions less what is set aside.

    Not for parts that could not be read.
    """
    sessions = tuple(replace(s, lasts=s.lasts - kit.set_aside) for s in piece.sessions)
    slower = kit.times_slower
    if kit.pace is None and slower is None:
        slower = 0.0  # the planner's rule of thumb
    return replace(piece, sessions=sessions, slower=None if kit.pace is not None else slower)


def check_kit(project: Project, walk: Walk) -> None:
    """What the keys of the kit say together."""
    kit = project.kit
    if not kit:
        return
    if kit.pace and kit.times_slower:
        walk.findings.error(
            "pace-twice",
            "the pace of a guest is given, and how many times slower it is as well",
            ("kit", "times slower"),
            hint="take one of the two out",
        )
    for session in kit.sessions:
        if session.lasts and kit.set_aside and session.lasts <= kit.set_aside:
            walk.findings.error(
                "nothing-left",
                f"of “{session.name[:40]}” all is set aside, and nothing is left to weave in",
                ("kit", "sessions", session.name),
                allowed=f"more than {kit.set_aside:g} min",
                hint="set less aside, or make the session longer",
            )
    if kit.people and kit.names and len(kit.names) > kit.people:
        walk.findings.error(
            "more-names-than-people",
            f"{len(kit.names)} names for {kit.people} people",
            ("kit", "names"),
            hint="write the number of guests under “people”, or take names out",
        )
    for thing in kit.things:
        if thing.each == 0 and thing.lent == 0:
            walk.findings.error(
                "nothing-needed",
                f"nothing says how many of “{thing.name[:40]}” are needed",
                ("kit", "things", thing.name),
                allowed="each, lent",
                hint="write “each: 1” for one in every bag, “lent: 4” for four to share",
            )


def told_of_kit(
    found: Iterable[Diagnostic], already: Iterable[Diagnostic], spans: Mapping[Path, Span]
) -> tuple[Diagnostic, ...]:
    """What is to be said of the kit's piece (each with its span), beyond what was said already.

    ``spans`` are those of the description; each gets the path that the value has there.
    """
    said = {(d.code, d.span) for d in already}
    at = {span: path for path, span in spans.items()}
    told = []
    for d in found:
        path = at.get(d.span, d.path) if d.span else d.path
        own = path[:1] == ("kit",)
        if (d.code, d.span) in said or (d.code in NOT_TOLD and not own):
            continue
        told.append(replace(d, path=path, message=f"kit: {d.message}"))
    return tuple(told)
