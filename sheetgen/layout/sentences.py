"""Sentences: takes a template and a plan, gives a diagnostic for each that cannot be printed.

A sentence may name a figure of the plan, or one that its own place gives it; a condition may name
a flag. What this plan does not have may stand in a line that its ``when`` keeps out.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from sheetgen.diagnostics import Diagnostic, Path
from sheetgen.layout.described import described
from sheetgen.layout.facts import facts_of, flags_of
from sheetgen.layout.fields import FORMS, Fields
from sheetgen.layout.words import named_in
from sheetgen.model.template import Line, SheetPart, Template
from sheetgen.model.turning import WAYS
from sheetgen.plan.plan import Plan

STOP = frozenset({"n", "pick", "at", "before", "after", "bead", "turns"})
LOCAL: dict[tuple[str, str], frozenset[str]] = {
    ("at a glance", "remarks"): frozenset({"next"}),
    ("at a glance", "names"): frozenset({"yarn"}),
    ("at a glance", "lessons"): frozenset({"value"}),
    ("at a glance", "measures"): frozenset({"yarn"}),
    ("weave", "weft"): frozenset({"beater"}),
    ("checks", "list"): frozenset({"bags", "people", "spares"}),
    **{("turning", way): STOP for way in WAYS},
}
"""Part and list -> figures that only its sentences have."""

SHEET = frozenset({"paper", "of_one_piece", "of_all_pieces"})
GUARDS = {
    "width": "band",
    **dict.fromkeys(("spiral_angle", "spiral_lead"), "spirals"),
    **dict.fromkeys(
        (
            "beads", "beads_length", "finger_room", "finger_room_wanted", "cord_length",
            "pressed_cord", "knots_take", "string_length",
        ),
        "string",
    ),
    **dict.fromkeys(("finial", "finial_takes"), "finial"),
    **dict.fromkeys(
        (
            "tassels", "skirt", "neck", "neck_wraps", "board", "strand_yarn", "binding_yarn",
            "binding", "tassel_tails", "tassel_strands", "tassel_strand", "tassel_neck",
        ),
        "tassels",
    ),
    **dict.fromkeys(
        (
            "aglets_in_all", "aglet_length", "aglet_material", "aglet_inside_stated",
            "aglet_inside",
        ),
        "aglets",
    ),
    "find_thickness": "find thickness",
    "find_width": "find width",
    **dict.fromkeys(
        (
            "difference", "difference_share", "best_size", "tablets_for_find",
        ),
        "against find",
    ),
    "thickness_difference": "against find, not by width",
    "width_difference": "against find, by width",
    "ends_take": "cord inside ends",
    "finished_length": "not string",
    "woven_length": "shrinkage",
    "post_distance": "between posts",
}  # fmt: skip
"""Figures that not every plan has -> the flags of those that have them."""


def unprintable(template: Template, base: Template, plan: Plan) -> list[Diagnostic]:
    """What is wrong with the sentences of a template for this plan; ``base`` has none wrong.

    A path is that of the sentence in the template, with ``when`` after it where a flag is meant.
    """
    checker = _Checker(plan, template)
    found = list(checker.words(template.words, base.words, ("words",), plain=True))
    olds = {part.name: part for part in base.parts}
    for part in template.parts:
        found += checker.part(part, olds[part.name])
    return found


class _Checker:
    """The names that a plan has, and what is said of others."""

    def __init__(self, plan: Plan, template: Template) -> None:
        self.fields = Fields(plan, described(plan, template))
        self.flags = flags_of(plan)
        self.known_flags = tuple(facts_of(plan))
        self.known_elsewhere = GUARDS.keys() - set(self.fields.names)
        self.names = (*self.fields.names, *self.known_elsewhere)

    def part(self, part: SheetPart, base: SheetPart) -> Iterator[Diagnostic]:
        """One part: heading, words, lists."""
        path: Path = ("parts", part.name)
        yield from self._sentence(part.heading, (*path, "heading"), SHEET)
        yield from self.words(part.words, base.words, (*path, "words"))
        for name, lines in part.lists.items():
            local = LOCAL.get((part.name, name), frozenset()) | SHEET
            for line in lines:
                yield from self._line(line, (*path, name, line.key), local)
                if name == "figures" and line.key not in self.names:
                    yield replace(
                        self._unknown(line.key, (*path, name, line.key), self.names), given=line.key
                    )

    def words(
        self, words: Mapping[str, str], base: Mapping[str, str], path: Path, plain: bool = False
    ) -> Iterator[Diagnostic]:
        """Words by key; each may name what the base's word names, and nothing else if ``plain``."""
        for key, word in words.items():
            local = frozenset(named_in(base[key]))
            yield from self._sentence(word, (*path, key), local, not plain)

    def _line(self, line: Line, path: Path, local: frozenset[str]) -> Iterator[Diagnostic]:
        for flag in line.when:
            name = flag.removeprefix("not ")
            if name not in self.known_flags:
                near = _near(name, self.known_flags)
                yield Diagnostic(
                    "unknown-flag",
                    "error",
                    f"“{name}” is nothing that can be asked for in “when”",
                    (*path, "when"),
                    given=flag,
                    allowed=", ".join(self.known_flags),
                    hint=f"did you mean “{near}”?" if near else None,
                )
        yield from self._sentence(line.say, path, local, printed=line.applies(self.flags))

    def _sentence(
        self,
        sentence: str,
        path: Path,
        local: frozenset[str],
        figures: bool = True,
        printed: bool = True,
    ) -> Iterator[Diagnostic]:
        """Every name that cannot be filled in here."""
        for name in named_in(sentence):
            key = name.partition(".")[0]
            if name in local or (figures and name in self.fields):
                continue
            if figures and key in self.known_elsewhere and name.partition(".")[2] in FORMS:
                if printed:
                    yield self._not_here(name, path, GUARDS[key])
                continue
            yield self._unknown(name, path, (*local, *self.names) if figures else local)

    def _unknown(self, name: str, path: Path, known: Iterable[str]) -> Diagnostic:
        """A figure that no plan has here."""
        key, _, form = name.partition(".")
        near = _near(name, known)
        if form and key in self.fields:
            hint = f"after the dot may stand: {', '.join(filter(None, FORMS))}"
        else:
            hint = f"did you mean {{{near}}}?" if near else "sheetgen plan --json has the names"
        message = f"there is no figure “{name}” for this sentence"
        return Diagnostic("unknown-figure", "error", message, path, given=f"{{{name}}}", hint=hint)

    def _not_here(self, name: str, path: Path, flag: str) -> Diagnostic:
        """A figure that other plans have."""
        return Diagnostic(
            "figure-not-here",
            "error",
            f"this piece has no figure “{name}”",
            path,
            given=f"{{{name}}}",
            hint=f"print the line only where there is one: {{say: ..., when: [{flag}]}}",
        )


def _near(word: str, known: Iterable[str]) -> str | None:
    found = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return found[0] if found else None
