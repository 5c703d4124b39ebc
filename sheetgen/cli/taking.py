"""What was chosen into the description, what was used off the stash: takes files, changes lines."""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import Path

from sheetgen.cli.run import Outcome, file_error, read_bytes, reason
from sheetgen.cli.terminal import seen
from sheetgen.diagnostics import Diagnostic, placed
from sheetgen.model.beads import BeadKind, StandsFor
from sheetgen.model.project import Project
from sheetgen.model.schema import entries
from sheetgen.model.stash import Stash, StashBead, StashYarn
from sheetgen.model.yarn import Yarn
from sheetgen.plan.beads import bead_length
from sheetgen.plan.booking import book_off
from sheetgen.plan.choice import as_described
from sheetgen.read import read_description
from sheetgen.read.edits import (
    CannotEdit,
    differing,
    quoted,
    raw_value,
    with_item,
    with_values,
    written_values,
)
from sheetgen.read.stash import read_stash


def yarn_taken(
    about: Outcome, project: Project, chest: Outcome, yarn: StashYarn, target: str
) -> bytes | Diagnostic:
    """The description's bytes with a yarn of the stash in the target's place; why not, if not."""
    old = project.yarn(target)
    new = replace(as_described(yarn, target, old.letter), in_stash=yarn.name)
    expected = replace(project, yarns=tuple(new if y.name == target else y for y in project.yarns))
    path = ("yarns", target)
    try:
        values = _own(written_values(chest.data, ("yarns", yarn.name)), Yarn)
        values.pop("letter", None)
        if old.letter:
            values["letter"] = quoted(old.letter)
        values["in stash"] = yarn.name
        data = with_values(about.data, path, values)
    except CannotEdit as problem:
        return by_hand(str(problem))
    return as_meant(about.data, data, expected)


def bead_taken(
    about: Outcome, project: Project, chest: Outcome, bead: StashBead, target: str
) -> bytes | Diagnostic:
    """The same for a kind of bead; what it stands for is kept, or told where sizes differ."""
    assert project.beads is not None, "a kind of bead is in the order"
    old = next(k for k in project.beads.kinds if k.name == target)
    new = taken_bead(old, bead)
    kinds = tuple(new if k.name == target else k for k in project.beads.kinds)
    expected = replace(project, beads=replace(project.beads, kinds=kinds))
    try:
        values = bead_values(about.data, chest.data, bead, old)
        data = with_values(about.data, ("beads", "kinds", target), values)
    except CannotEdit as problem:
        return by_hand(str(problem))
    return as_meant(about.data, data, expected)


def taken_bead(old: BeadKind, bead: StashBead) -> BeadKind:
    """A bead of the stash as a kind of the description, in the place of an old one."""
    own = {f.name: getattr(bead, f.name) for f in fields(BeadKind)}
    stands = old.stands_for or _stands_for(old, bead)
    more = {"name": old.name, "divider": old.divider, "stands_for": stands, "in_stash": bead.name}
    return BeadKind(**(own | more))


def bead_values(data: bytes, chest: bytes, bead: StashBead, old: BeadKind) -> dict[str, str]:
    """The same as it is written; ``data`` and ``chest`` are the bytes of both files."""
    written = written_values(chest, ("beads", bead.name))
    if "" in written:
        written = {"diameter": written[""]}
    values = _own(written, BeadKind)
    if old.divider:
        values["divider"] = "yes"
    else:
        values.pop("divider", None)
    values["in stash"] = bead.name
    if old.stands_for:
        values["stands for"] = raw_value(data, ("beads", "kinds", old.name, "stands for"))
    elif stands := _stands_for(old, bead):
        values["stands for"] = _written(stands)
    return values


def _stands_for(old: BeadKind, bead: BeadKind) -> StandsFor | None:
    same = bead_length(old) == bead_length(bead) and old.diameter == bead.diameter
    if same and old.material == bead.material:
        return None
    name = f"{old.name} of {old.material}" if old.material else old.name
    return StandsFor(name, bead_length(old), old.diameter)


def _written(stands: StandsFor) -> str:
    return (
        f"{{name: {quoted(stands.name)}, length: {stands.length:g} mm, "
        f"diameter: {stands.diameter:g} mm}}"
    )


def _own(values: dict[str, str], part: type) -> dict[str, str]:
    """The values whose keys a description has too."""
    return {key: value for key, value in values.items() if key in entries(part)}


def as_meant(old: bytes, data: bytes, expected: Project) -> bytes | Diagnostic:
    """The bytes, if they read to exactly the project that is meant, and to the kit that was."""
    read = read_description(data).project
    if read == expected:
        return data
    if read is not None and replace(read, kit_piece=expected.kit_piece) == expected:
        lines = "; ".join(seen(line.strip()) for _, line in differing(old, data))
        return file_error(
            "kit-changes",
            "the kit would change as well: it takes over what “differs” does not say anew",
            hint=f"write by hand, and look what the kit is to take over: {lines}",
        )
    return by_hand("read again, it would not say what is meant")


def by_hand(
    why: str, hint: str = "leave --write out and paste the lines that are shown"
) -> Diagnostic:
    """Why the description is not changed, and what to do instead."""
    return file_error(
        "cannot-edit",
        f"the description cannot be changed without touching more than is meant: {why}",
        hint=hint,
    )


def lines_to_paste(old: bytes, new: bytes) -> str:
    """The changed lines with their numbers."""
    return "\n".join(f"{number:4} | {seen(line)}" for number, line in differing(old, new))


def write_back(file: Path, old: bytes, new: bytes) -> Diagnostic | None:
    """Replace the file in one stroke, unless it has been changed since it was read."""
    from sheetgen.archive.files import write_whole
    from sheetgen.archive.locks import folder_held

    with folder_held(file.absolute().parent):
        if read_bytes(file) != old:
            return file_error("changed-meanwhile", "the file has been changed meanwhile",
                              given=str(file), hint="run the command again")  # fmt: skip
        try:
            write_whole(file, new)
        except OSError as problem:
            return file_error("unwritable-file", reason(problem), given=str(file))
    return None


def booked_off(
    about: Outcome, project: Project, chest: Outcome, stash: Stash
) -> tuple[bytes | None, tuple[Diagnostic, ...]]:
    """The stash's bytes with what was used taken off, and what is to be said; None if refused."""
    taken = book_off(project, stash)
    told = placed(taken.diagnostics, about.spans)
    if taken.stash is None or taken.booking is None:
        return None, told
    data, booking = chest.data, taken.booking
    try:
        for (part, name), left in taken.left.items():
            data = with_values(data, (part, name), {**_all(data, (part, name)), "at hand": left})
        said = ", ".join(quoted(text) for text in booking.taken)
        item = f"{{piece: {quoted(booking.piece)}, mark: {booking.mark}, taken: [{said}]}}"
        data = with_item(data, "booked", item)
    except CannotEdit as problem:
        return None, (*told, file_error("cannot-edit", f"the stash cannot be changed: {problem}"))
    if read_stash(data).stash != taken.stash:
        words = "the stash cannot be changed without touching more than is meant"
        return None, (*told, file_error("cannot-edit", words))
    return data, told


def _all(data: bytes, path: tuple[str, str]) -> dict[str, str]:
    written = written_values(data, path)
    return {"diameter": written[""]} if "" in written else written
