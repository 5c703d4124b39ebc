"""The choice on the terminal: takes candidates in order, gives lines or JSON."""

from __future__ import annotations

import re
from typing import Any

from sheetgen.amounts import length, mass, percent
from sheetgen.cli.terminal import BOLD, Paint, cells, seen, wrapped
from sheetgen.plan.candidate import Candidate, Wanted
from sheetgen.plan.choice import ALL, ORDER, Choice
from sheetgen.plan.words import counted

_LABEL = 9
_UNIT = re.compile(r"(?<=\d) (?=(?:mm|cm|m|g|kg|%)(?![^\W_]))")
"""The space between a number and its unit, where a line is not broken."""
RULE = "“but” is what speaks against a yarn and keeps none out; what keeps yarns out stands last."


def listing(choice: Choice, name: str, top: int, paint: Paint, width: int) -> str:
    """The first ``top`` yarns that can be used and what keeps as many others out, as lines."""
    usable = [c for c in choice.candidates if not c.failures]
    kept_out = [c for c in choice.candidates if c.failures]
    target = "every yarn" if choice.wanted.target == ALL else f"“{choice.wanted.target}”"
    head = f"In the place of {target}: {counted(len(choice.candidates), 'yarn')} of {name}"
    lines = [*wrapped(seen(head), width)]
    for sentence in choice.follows:
        lines += hung("", seen(sentence[0].upper() + sentence[1:] + "."), width)
    if choice.candidates:
        lines += hung("", f"Order: {'; '.join(ORDER)}.", width)
        lines += hung("", RULE, width)
    if not usable:
        none = "There is no yarn in the stash." if not choice.candidates else "No yarn will do."
        lines += ["", none]
    for number, candidate in enumerate(usable[:top], start=1):
        lines += ["", *_block(number, candidate, choice.wanted, paint, width)]
    if len(usable) > top:
        can = "can" if choice.looked_into == len(choice.candidates) else "may"
        more = f"{len(usable) - top} more {can} be used: --top {len(usable)} shows all."
        lines += ["", more]
    if kept_out:
        shown = kept_out[:top]
        of = f", {len(shown)} of {len(kept_out)}" if len(shown) < len(kept_out) else ""
        lines += ["", paint(f"Cannot be used{of}:", BOLD)]
        for candidate in shown:
            words = "; ".join(r.words for r in candidate.failures)
            lines += hung(f"  {seen(candidate.yarn.name)}: ", seen(words), width, 4)
    if choice.looked_into < len(choice.candidates):
        lines += ["", *wrapped(
            f"The {choice.looked_into} nearest were planned in full; of the other "
            f"{len(choice.candidates) - choice.looked_into} only the size was looked at.", width
        )]  # fmt: skip
    return "\n".join(lines)


def _block(number: int, c: Candidate, wanted: Wanted, paint: Paint, width: int) -> list[str]:
    name, label = seen(c.yarn.name), f"{number:2}. "
    lines = hung(f"{label}{name}  ", _size(c), width, 4, f"{label}{paint(name, BOLD)}  ")
    rows = [
        ("tablets", _tablets(c)),
        *(("made", text) for text in _as_made(c)),
        ("left", _left(c)),
        ("kind", _kind(c, wanted)),
        *(("holes", fit) for fit in _holes(c)),
        *(("but", r.words) for r in c.remarks if r.code not in ("amount-unknown", "tight-holes")),
    ]
    for label in ("source", "cost", "period"):
        if said := getattr(c.yarn, label):
            rows.append((label, said))
    for label, text in rows:
        lines += hung(f"    {label.ljust(_LABEL)}", seen(text), width, 4 + _LABEL)
    return lines


def _as_made(c: Candidate) -> list[str]:
    """Which pieces made before the size is taken from."""
    key = "band_width" if c.verdict and c.verdict.what == "width" else "thickness"
    lessons = c.plan.lessons if c.plan else {}
    return [f"size by the {one.said()}" for what, one in lessons.items() if what.endswith(key)][:1]


def _size(c: Candidate) -> str:
    f = c.predicted
    size = length(f.value)
    if f.has_range:
        size += f" ({length(f.low)} to {length(f.high)})"
    if c.verdict is None:
        return size
    if abs(c.verdict.difference) < 0.005:
        return f"{size}, as the find"
    sign = "+" if c.verdict.difference > 0 else ""
    where = "within" if c.verdict.within else "near" if c.meets else "outside"
    difference = f"{sign}{length(c.verdict.difference)} ({percent(c.verdict.share)})"
    return f"{size}, {difference}: {where} the find"


def _tablets(c: Candidate) -> str:
    if c.verdict is None:
        return f"{c.tablets}, {counted(c.ends, 'end')}"
    best = c.verdict.best_tablets
    if best == c.tablets:
        return f"{c.tablets}, {counted(c.ends, 'end')}; no other number comes nearer to the find"
    nearer = f"{best} would come nearest to the find, at {length(c.verdict.best_size)}"
    return f"{c.tablets}, {counted(c.ends, 'end')}; {nearer}"


def _left(c: Candidate) -> str:
    if c.used is None or c.wanted is None:
        return "not looked into"
    need = f"{length(c.used)} used, {length(c.wanted)} with the reserve"
    if c.at_hand is None:
        return f"not said; {need}"
    amount = c.yarn.at_hand
    grams = f"{mass(amount.mass)}, about " if amount and amount.mass is not None else ""
    enough = "enough" if c.at_hand >= c.used else f"{length(c.short)} short"
    return f"{grams}{length(c.at_hand)}: {enough}; {need}"


def _kind(c: Candidate, wanted: Wanted) -> str:
    y = c.yarn
    words = {True: "as {}", False: "not as {}", None: ""}
    parts = []
    for has, same, basis in (
        (y.fibre, c.fibre_as, wanted.fibre_basis),
        (y.spin and f"spun {y.spin}", c.spin_as, wanted.spin_basis),
        (y.colour and y.colour.partition("#")[0].strip(), c.colour_as, "the description"),
    ):
        if has:
            said = words[same].format(basis)
            parts.append(f"{has} ({said})" if said else has)
    return ", ".join(parts) or "nothing is said of it"


def _holes(c: Candidate) -> list[str]:
    string = c.plan.string if c.plan else None
    if string is None:
        return []
    there = {*string.string.counts, "finial"}
    fits = [f"{f.name} {f.verdict}" for f in string.fits if f.name in there]
    return [f"strung over a {string.stringing}: {', '.join(fits)}"]


def hung(label: str, text: str, width: int, margin: int = 0, shown: str = "") -> list[str]:
    """The text after a label (``shown`` in its place), its further lines set in by ``margin``."""
    text = _UNIT.sub("\u00a0", text)
    first, *rest = wrapped(text, max(24, width - cells(label)))
    again = wrapped(" ".join(rest), max(24, width - margin)) if rest else []
    lines = [f"{shown or label}{first}", *(" " * margin + line for line in again)]
    return [line.replace("\u00a0", " ") for line in lines]


def as_json(choice: Choice) -> dict[str, Any]:
    """The same for a program to read: mm, g; ``order`` says what orders the list."""
    wanted = choice.wanted
    return {
        "in_place_of": wanted.target,
        "wanted": {
            "fibre": wanted.fibre,
            "spin": wanted.spin,
            "colour": wanted.colour,
            "diameter": wanted.diameter,
        },
        "follows": list(choice.follows),
        "order": list(ORDER),
        "yarns": [_fields(c, n < choice.looked_into) for n, c in enumerate(choice.candidates)],
    }


def _fields(c: Candidate, looked_into: bool) -> dict[str, Any]:
    verdict, string = c.verdict, c.plan.string if c.plan else None
    return {
        "name": c.yarn.name,
        "usable": not c.failures,
        "looked_into": looked_into,
        "predicted": c.predicted.value,
        "low": c.predicted.low,
        "high": c.predicted.high,
        "difference": verdict.difference if verdict else None,
        "share": verdict.share if verdict else None,
        "within_find": c.meets if verdict else None,
        "tablets": c.tablets,
        "ends": c.ends,
        "tablets_for_find": verdict.best_tablets if verdict else None,
        "used": c.used,
        "wanted": c.wanted,
        "at_hand": c.at_hand,
        "short": c.short,
        "fibre_as_wanted": c.fibre_as,
        "spin_as_wanted": c.spin_as,
        "colour_as_described": c.colour_as,
        "holes": {f.name: f.verdict for f in string.fits} if string else {},
        "failures": [{"code": r.code, "words": r.words} for r in c.failures],
        "remarks": [{"code": r.code, "words": r.words} for r in c.remarks],
    }
