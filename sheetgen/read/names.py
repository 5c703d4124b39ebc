"""Names that other lines refer to: takes a written name, says what is wrong with it as a name."""

from __future__ import annotations

import re
from typing import NamedTuple

from sheetgen.model.beads import BeadKind
from sheetgen.model.pack import EMPTY
from sheetgen.model.turning import MOTIONS, REST
from sheetgen.model.yarn import Yarn
from sheetgen.read.findings import Misread

LONGEST_NAME = 40
_WORD = re.compile(r"[^\W\d_](?:[^\W_]|-)*")


class Names(NamedTuple):
    """How names of one sort may look: they stand in notations that part words by spaces."""

    sort: str
    taken: frozenset[str]
    """Words that mean something else where the name is used."""

    def fault(self, name: str) -> Misread | None:
        """What is wrong with the name; None when nothing is."""
        if name in self.taken:
            return Misread(
                "taken-name",
                f"“{name}” means something else here and cannot name a {self.sort}",
                hint=f"choose another name for the {self.sort}",
            )
        if len(name) > LONGEST_NAME or not _WORD.fullmatch(name):
            return Misread(
                "bad-name",
                f"“{name[:LONGEST_NAME]}” cannot name a {self.sort}",
                allowed="one word of letters, digits and hyphens that begins with a letter",
                hint="write e.g. dark-red",
            )
        return None


_YARN = Names("yarn", frozenset({EMPTY, "S", "Z"}))
_BEAD = Names("kind of bead", frozenset({"gap", "knot"}))
REPEAT = "repeat"
GROUP_NAMES = Names("group", frozenset({REST, "flip", REPEAT, "all", "odd", "even", *MOTIONS}))
_PARTS: dict[type, Names] = {Yarn: _YARN, BeadKind: _BEAD}


def names_of(part: type) -> Names | None:
    """How parts of this class may be called, if their names are referred to; else None: anyhow."""
    return next((_PARTS[kind] for kind in part.__mro__ if kind in _PARTS), None)
