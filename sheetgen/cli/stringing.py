"""Fillings on the terminal: takes the fillings of a string, gives lists, strips and differences."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from sheetgen.amounts import length
from sheetgen.cli.choosing import hung
from sheetgen.cli.terminal import BOLD, Paint, seen
from sheetgen.model.beads import BeadKind
from sheetgen.plan.beads import STRANDS, BeadString, bead_length
from sheetgen.plan.filler import spread
from sheetgen.plan.fillings import ORDER, Filling, fillings, runs_of
from sheetgen.plan.plan import Plan
from sheetgen.plan.words import counted

_SAYS = {
    "exact": "only beads of the wanted size and outline",
    "nearest": "one kind at hand for each wanted",
    "mixed": "kinds at hand mixed",
}


def of_plan(plan: Plan, at_hand: tuple[BeadKind, ...]) -> tuple[Filling, ...]:
    """The fillings of a planned string; none for a piece without beads."""
    string = plan.string
    if string is None:
        return ()
    strands = STRANDS[string.stringing]
    pieces = plan.project.pieces
    return fillings(string.string, string.kinds, at_hand, plan.thickness, strands, pieces)


def listing(
    plan: Plan, found: tuple[Filling, ...], at_hand: tuple[BeadKind, ...], paint: Paint, width: int
) -> str:
    """Every filling with its list, its strip of letters and what is otherwise than wanted."""
    assert plan.string is not None, "fillings are those of a string"
    string = plan.string.string
    kinds = {k.name: k for k in (*plan.string.kinds, *at_hand)}
    lines = [paint("Beads", BOLD)]
    lines += hung("", f"Order: {'; '.join(ORDER)}.", width)
    for n, filling in enumerate(found):
        lines += ["", f"{paint(filling.way, BOLD)}: {_SAYS[filling.way]}"]
        if same := next((one.way for one in found[:n] if one.runs == filling.runs), None):
            lines.append(f"    comes to the same as {same}")
            continue
        rows = [("list", _list(filling)), ("strip", _strip(filling, string))]
        rows += [("instead", text) for text in _instead(filling, string, kinds)]
        rows.append(("so", _differences(filling, len(string.beads))))
        if filling.left_out:
            rows.append(("but", _left_out(filling)))
        for label, text in rows:
            lines += hung(f"    {label.ljust(9)}", seen(text), width, 13)
    return "\n".join(lines)


def _left_out(filling: Filling) -> str:
    """What the search had no time for; so another filling may be better."""
    used = [name for name in filling.left_out if name in filling.counts]
    found = f"not every way was tried: {', '.join(filling.left_out)} stood back as the least like"
    return f"{found}, and fill only what was wanting ({', '.join(used)})" if used else found


def _list(filling: Filling) -> str:
    parts = [f"{n} {name}" for name, n in filling.counts.items()]
    if filling.wanting:
        parts.append(f"{filling.wanting} wanting")
    return ", ".join(parts) or "nothing"


def _strip(filling: Filling, string: BeadString) -> str:
    """A letter a bead, a point for one that is wanting, a gap or a knot between bars."""
    letters = _letters(list(filling.counts))
    beads = [letters.get(name, ".") for run in filling.runs for name, n in spread(run)
             for _ in range(n)]  # fmt: skip
    at, text = iter(beads), []
    for bead, items in groupby(string.placed, key=lambda p: p.kind is not None):
        text.append("".join(next(at) for _ in items) if bead else "|")
    said = [f"{letter} {name}" for name, letter in letters.items()]
    key = ", ".join([*said, *([". wanting"] if filling.wanting else [])])
    return f"{''.join(text)}  {key}".strip()


def _letters(names: list[str]) -> dict[str, str]:
    """One letter for each: of its name where that is free, else the next that is."""
    found: dict[str, str] = {}
    for name in names:
        candidates = f"{name.upper()}ABCDEFGHIJKLMNOPQRSTUVWXYZ{name}"
        taken = found.values()
        found[name] = next((c for c in candidates if c.isalpha() and c not in taken), "?")
    return found


def _instead(filling: Filling, string: BeadString, kinds: dict[str, BeadKind]) -> list[str]:
    """What stands for each wanted kind, with the difference of one bead."""
    stands: dict[tuple[str, str], int] = {}
    for run, row in zip(runs_of(string), filling.runs, strict=True):
        for name, n in row:
            stands[run.kind, name] = stands.get((run.kind, name), 0) + n
    found = []
    for (kind, name), n in stands.items():
        if name:
            bead, wanted = kinds[name], kinds[kind]
            longer = _off(bead_length(bead) - bead_length(wanted))
            wider = _off(bead.diameter - wanted.diameter)
            sizes = f"{longer} long, {wider} wide"
            found.append(f"{n} {name} for {kind}: {sizes}{_other(bead, wanted)}")
    return found


def _other(bead: BeadKind, wanted: BeadKind) -> str:
    """Outline and material where they differ."""
    said = [
        f"{word}{value}" if (value := getattr(bead, key)) else f"{key} not said"
        for key, word in (("shape", ""), ("material", "of "))
        if getattr(wanted, key) and getattr(bead, key) != getattr(wanted, key)
    ]
    return f"; {', '.join(said)}" if said else ""


def _off(mm: float) -> str:
    if abs(mm) < 0.005:
        return "as"
    return f"{'+' if mm > 0 else ''}{length(mm)}"


def _differences(filling: Filling, beads: int) -> str:
    if filling.wanting == beads:
        return "none at hand"
    off = filling.total_off
    whole = "as long as wanted" if abs(off) < 0.005 else f"{length(abs(off))} " + (
        "longer" if off > 0 else "shorter"
    )  # fmt: skip
    parts = [f"{counted(filling.exact, 'bead')} of {beads} exact", f"the string {whole}"]
    if filling.runs_off >= 0.005:
        parts.append(f"all runs together {length(filling.runs_off)} off")
    if filling.mixed:
        parts.append(f"{counted(filling.mixed, 'run')} of mixed kinds")
    if filling.wanting:
        parts.append(f"{counted(filling.wanting, 'bead')} wanting")
    return "; ".join(parts)


def as_json(found: tuple[Filling, ...]) -> dict[str, Any]:
    """The same for a program to read, mm."""
    return {
        "order": list(ORDER),
        "fillings": [
            {
                "way": f.way,
                "counts": f.counts,
                "runs": [[list(pair) for pair in spread(run)] for run in f.runs],
                "wanting": f.wanting,
                "exact": f.exact,
                "runs_off": f.runs_off,
                "total_off": f.total_off,
                "not_tried": list(f.left_out),
                "mixed_runs": f.mixed,
            }
            for f in found
        ],
    }
