"""A row of the register: takes a Gist and where it was read from, gives the little that is kept."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import fsum

from sheetgen.model.yarn import Yarn
from sheetgen.plan.gist import Gist


@dataclass(frozen=True, slots=True)
class Row:
    """One piece. Lengths in mm, times in min; None where nothing is known.

    Length, thickness, width, picks and minutes are those of the piece as made where it was
    measured, else the planned ones; ``made`` tells which of these names were measured.
    """

    number: str
    piece: str
    form: str
    find: str
    maker: str
    planned: str
    begun: str
    finished: str
    yarns: tuple[str, ...]
    tablets: int
    ends: int
    length: float | None
    thickness: float | None
    width: float | None
    picks: float | None
    minutes: float | None
    made: tuple[str, ...]
    version: str
    file: str

    @property
    def year(self) -> str:
        """Year it was finished, else begun, else planned; empty if none is told."""
        return (self.finished or self.begun or self.planned)[:4]

    @property
    def date(self) -> str:
        """The same day in full."""
        return self.finished or self.begun or self.planned


def row_of(gist: Gist, file: str) -> Row:
    """What the register keeps of a piece that was described in ``file``.

    Planned without what other pieces taught, so that a row depends on nothing but its record.
    """
    project, made = gist.project, gist.project.made
    figures = gist.figures
    long = figures.get("finished_length") or figures.get("cord_length")
    sizes: dict[str, float | None] = {
        "length": long.value if long else None,
        "thickness": figures["thickness"].value,
        "width": figures["width"].value if "width" in figures else None,
        "picks": figures["picks"].value,
        "minutes": figures["weaving_time"].value,
    }
    measured: dict[str, float] = {}
    if made:
        for what in ("length", "thickness", "width"):
            if reading := getattr(made, what):
                measured[what] = reading.value
        if made.picks_woven:
            measured["picks"] = made.picks_woven
        if made.time:
            measured["minutes"] = fsum(t.took for t in made.time)
    return Row(
        number=project.number or "",
        piece=project.piece,
        form=project.form,
        find=project.find.name if project.find else "",
        maker=project.maker or "",
        planned=project.date or "",
        begun=(made.begun if made else None) or "",
        finished=(made.finished if made else None) or "",
        yarns=tuple(_yarn(figures.yarn) for figures in gist.yarns),
        tablets=len(gist.pack.tablets),
        ends=gist.pack.ends,
        **(sizes | measured),
        made=tuple(measured),
        version=project.digest,
        file=file,
    )


def in_order(text: str) -> list[tuple[int, int | str]]:
    """A key by which SW-2 comes before SW-10, and any number before any letter.

    >>> sorted(["SW-10", "sw-2", "10", "SW-"], key=in_order)
    ['10', 'SW-', 'sw-2', 'SW-10']
    """
    parts = re.findall(r"\d+|\D+", text.casefold())
    return [(0, int(p)) if p.isdecimal() and p.isascii() else (1, p) for p in parts]


def _yarn(yarn: Yarn) -> str:
    """A yarn by which a piece is looked up: fibre, how it was spun, count; its name last."""
    count = yarn.count.text if yarn.count else None
    kind = " ".join(filter(None, (yarn.preparation, yarn.fibre, count)))
    return f"{kind} ({yarn.name})" if kind else yarn.name
