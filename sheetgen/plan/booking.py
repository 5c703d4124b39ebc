"""Booking: takes a piece as made and a stash, gives what is to be taken off, once only."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

from sheetgen.amounts import significant
from sheetgen.diagnostics import Diagnostic
from sheetgen.model.project import Project
from sheetgen.model.stash import Booking, Stash, StashBead, StashYarn
from sheetgen.model.values import Amount
from sheetgen.plan.figure import Ledger
from sheetgen.plan.yarn import measure_yarn


@dataclass(frozen=True, slots=True)
class Taken:
    """The stash after the booking, what was booked, the new ``at hand`` by path, and what is said.

    ``stash`` is None where nothing may be booked.
    """

    stash: Stash | None
    booking: Booking | None
    left: dict[tuple[str, str], str]
    diagnostics: tuple[Diagnostic, ...]


def book_off(project: Project, stash: Stash) -> Taken:
    """Take what the record of the piece says was used off the stash. Pure."""
    piece = f"{project.number}: {project.piece}" if project.number else project.piece
    told = _refused(project, stash, piece)
    if told is not None:
        return Taken(None, None, {}, (told,))
    made = project.made
    assert made is not None, "a piece without a record was refused"
    wrong: list[Diagnostic] = []
    left: dict[tuple[str, str], str] = {}
    taken: list[str] = []
    yarns = {y.name: y for y in stash.yarns}
    beads = {b.name: b for b in stash.beads}
    for used in made.yarns_used:
        name = next((y.in_stash or y.name for y in project.yarns if y.name == used.name), used.name)
        yarn = yarns.get(name)
        if yarn is None:
            wrong.append(_not_there("yarn", used.name, name, ("made", "yarns used", used.name)))
            continue
        yarns[name], written = _less_yarn(yarn, used.amount, wrong)
        taken.append(f"{_written(used.amount)} of {name}")
        if written:
            left["yarns", name] = written
    kinds = project.beads.kinds if project.beads else ()
    for strung in made.beads_used:
        name = next((k.in_stash or k.name for k in kinds if k.name == strung.name), strung.name)
        bead = beads.get(name)
        if bead is None:
            wrong.append(_not_there("bead", strung.name, name, ("made", "beads used", strung.name)))
            continue
        beads[name], written = _fewer_beads(bead, strung.number, wrong)
        taken.append(f"{strung.number} of {name}")
        if written:
            left["beads", name] = written
    if any(d.is_error for d in wrong):
        return Taken(None, None, {}, tuple(wrong))
    booking = Booking(piece, _mark(project), tuple(taken))
    after = replace(
        stash,
        yarns=tuple(yarns.values()),
        beads=tuple(beads.values()),
        booked=(*stash.booked, booking),
    )
    return Taken(after, booking, left, tuple(wrong))


def _refused(project: Project, stash: Stash, piece: str) -> Diagnostic | None:
    """Why nothing is booked: no record, or it was booked before."""
    made = project.made
    if made is None or not (made.yarns_used or made.beads_used):
        return Diagnostic(
            "nothing-used",
            "error",
            "the record does not say what was used, so nothing can be booked off",
            ("made",),
            hint="write “yarns used” and “beads used” under “made”, then book off",
        )
    mark = _mark(project)
    for booking in stash.booked:
        if booking.mark == mark or booking.piece == piece:
            changed = "" if booking.mark == mark else "; the record has been changed since"
            return Diagnostic(
                "booked-before",
                "error",
                f"“{booking.piece}” has been booked off this stash already{changed}",
                ("made",),
                given=", ".join(booking.taken),
                hint="a piece is booked once: change “at hand” in the stash by hand if it is wrong",
            )
    return None


def _mark(project: Project) -> str:
    """First digits of the SHA-256 of what the record says was used, with the piece's name."""
    made = project.made
    assert made is not None, "only a piece with a record has a mark"
    said = [project.piece, project.number or ""]
    said += [f"{u.name} {u.amount.mass} {u.amount.length}" for u in made.yarns_used]
    said += [f"{b.name} {b.number}" for b in made.beads_used]
    return "m" + hashlib.sha256("\n".join(said).encode()).hexdigest()[:8]


def _not_there(what: str, name: str, meant: str, path: tuple[str, ...]) -> Diagnostic:
    return Diagnostic(
        f"no-such-{what}",
        "error",
        f"no {what} of the stash is called “{meant}”",
        path,
        given=name,
        hint="say in the description which it is: “in stash: NAME”",
    )


def _less_yarn(
    yarn: StashYarn, used: Amount, told: list[Diagnostic]
) -> tuple[StashYarn, str | None]:
    """The yarn with what is left of it, and how that is written; in the unit it was stated in."""
    there = yarn.at_hand
    if there is None:
        told.append(_not_counted(yarn.name))
        return yarn, None
    tex = measure_yarn(yarn, Ledger()).tex.value
    if there.mass is not None:
        off = used.mass if used.mass is not None else (used.length or 0.0) / 1e6 * tex
        grams = round(_rest(there.mass, off, yarn.name, told), 1)
        return replace(yarn, at_hand=Amount(mass=grams)), f"{grams:g} g"
    assert there.length is not None, "an amount is a mass or a length"
    off = used.length if used.length is not None else (used.mass or 0.0) / tex * 1e6
    centimetres = round(_rest(there.length, off, yarn.name, told) / 10)
    return replace(yarn, at_hand=Amount(length=centimetres * 10.0)), f"{centimetres} cm"


def _fewer_beads(
    bead: StashBead, number: int, told: list[Diagnostic]
) -> tuple[StashBead, str | None]:
    if bead.at_hand is None:
        told.append(_not_counted(bead.name))
        return bead, None
    rest = int(_rest(bead.at_hand, number, bead.name, told))
    return replace(bead, at_hand=rest), str(rest)


def _rest(there: float, off: float, name: str, told: list[Diagnostic]) -> float:
    if off > there + 1e-9:
        told.append(
            Diagnostic(
                "more-than-there-was",
                "warning",
                f"more of {name} was used than the stash had, so none is left",
                hint="weigh or count it again",
            )
        )
    return max(0.0, there - off)


def _not_counted(name: str) -> Diagnostic:
    return Diagnostic(
        "not-counted",
        "warning",
        f"the stash does not say how much there was of {name}, so nothing is taken off it",
        hint="write “at hand” in the stash",
    )


def _written(amount: Amount) -> str:
    if amount.mass is not None:
        return f"{significant(amount.mass)} g"
    return f"{significant((amount.length or 0.0) / 1000)} m"
