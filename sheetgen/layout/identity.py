"""Identity: takes the plan, gives what the piece is, its find, where it departs, what it is of."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Heading, Para, Runs, Table, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.words import Words, plain
from sheetgen.model.made import Made
from sheetgen.model.values import Reading
from sheetgen.plan.beads import bead_length
from sheetgen.plan.made import CarriedOver, carried_over
from sheetgen.plan.record import compare
from sheetgen.plan.told import Told

WIDE = 150.0
"""From so many mm on, two pairs of question and answer stand side by side."""
BLANKS = 3
"""Empty rows for what is remembered later."""


def identity(desk: Desk) -> Iterator[Block]:
    """Number, names, dates and places; what is not known yet is left to write."""
    words, project = desk.words("identity"), desk.plan.project
    made = project.made or Made()
    yield Heading(words.heading)
    event = desk.fields["event"]
    told = {
        "number": project.number,
        "piece": f"{project.piece} ({words.text(project.form)})",
        "maker": project.maker,
        "belongs": project.belongs_to,
        "version": ", ".join(filter(None, (project.digest, project.date))),
        "pieces": str(project.pieces) if project.pieces > 1 else None,
        "event": event or None,
        "begun": made.begun,
        "finished": made.finished,
        "place": made.place,
        "kept": made.kept,
    }
    left_out = {"pieces", "event"}
    pairs = [
        (words.runs(key), plain(text, bold=key == "number") if text else ())
        for key, text in told.items()
        if text or key not in left_out
    ]
    open_ = any(not answer for _, answer in pairs)
    if desk.width >= WIDE:
        pairs += [((), ())] * (len(pairs) % 2)
        half = len(pairs) // 2
        rows = [(*a, *b) for a, b in zip(pairs[:half], pairs[half:], strict=True)]
        yield Table((), tuple(rows), (0.16, 0.38, 0.16, 0.3), to_write=open_)
    else:
        yield Table((), tuple(pairs), (0.35, 0.65), to_write=open_)


def find_as_read(desk: Desk) -> Iterator[Block]:
    """Everything that was read off the find, what is uncertain, what cannot be known."""
    words, find = desk.words("find"), desk.plan.project.find
    yield Heading(words.heading)
    if find is None:
        yield Para(words.runs("no find"))
        return
    if find.invented:
        yield Para(words.runs("invented"))
    rows = [(words.runs("name"), plain(find.name, bold=True))]
    for key in ("dated", "kept", "reference", "read from"):
        text = getattr(find, key.replace(" ", "_"))
        rows.append((words.runs(key), plain(text) if text else words.runs("not stated")))
    unknown = list(find.not_known)
    for key in ("thickness", "width", "length"):
        value = getattr(find, key)
        if isinstance(value, Reading):
            rows.append((words.runs(key), plain(_reading(desk, words, value))))
        elif value is not None:
            unknown.append(words.text(key))
    for key in ("beads", "tablets", "fibre", "colours"):
        if text := getattr(find, key):
            rows.append((words.runs(key), plain(text)))
    if find.uncertain:
        rows.append((words.runs("uncertain"), plain("; ".join(find.uncertain))))
    if unknown:
        rows.append((words.runs("not known"), plain("; ".join(unknown))))
    yield Table((), tuple(rows), (0.24, 0.76))


def _reading(desk: Desk, words: Words, reading: Reading) -> str:
    if reading.sure:
        return desk.length(reading.value)
    low, high = desk.length(reading.low), desk.length(reading.high)
    return words.text("unsure", value=desk.length(reading.value), low=low, high=high)


def departures(desk: Desk) -> Iterator[Block]:
    """Departures as described, those that follow from plan and making, and room for more."""
    words, project = desk.words("departures"), desk.plan.project
    rows: list[tuple[Runs, ...]] = [
        (
            plain(departure.what),
            plain(departure.reason or ""),
            words.runs(f"by {departure.by}") if departure.by else words.runs("by which"),
        )
        for departure in project.departures
    ]
    rows += [
        (_carried(desk, words, found), plain(found.why), words.runs("by which"))
        for found in carried_over(desk.plan)
    ]
    blanks = BLANKS if project.made is None else 0 if rows else 1
    rows += [((), (), words.runs("by which"))] * blanks
    heads = tuple(words.runs(f"head {head}") for head in ("what", "reason", "by"))
    open_ = any(not reason or not reason[0].text for _, reason, _ in rows)
    yield Heading(words.heading)
    yield Table(heads, tuple(rows), (0.42, 0.34, 0.24), to_write=open_)
    tools = [runs for _, runs in words.lines("tools")]
    if tools:
        head = (words.runs("head tools"),)
        table = Table(head, tuple((runs,) for runs in tools), (1.0,), ticked=True)
        yield Together((table,))


def _carried(desk: Desk, words: Words, found: CarriedOver) -> Runs:
    if found.kind in ("thickness", "width"):
        row = next(row for row in compare(desk.plan) if row.key == found.kind)
        ours = row.made or row.plan
        assert ours is not None, "carried over only where there is a size"
        assert isinstance(row.find, Told), "and one of the find"
        key = f"{found.kind} {'made' if row.made else 'planned'}"
        return words.runs(key, ours=desk.length(ours.value), theirs=desk.length(row.find.value))
    return words.runs(found.kind, ours=found.ours, theirs=found.theirs)


def of_what(desk: Desk) -> Iterator[Block]:
    """Yarns and beads with what they are and where they come from."""
    words, plan = desk.words("materials"), desk.plan
    yield Heading(words.heading)
    rows: list[tuple[Runs, ...]] = []
    for use in plan.yarns:
        yarn = use.figures.yarn
        what = [yarn.colour and yarn.colour.split("#")[0].strip()]
        what += [words.text(f"yarn {w}") for w in (yarn.fibre, yarn.preparation) if w]
        what += [yarn.count.text if yarn.count else None]
        what += [words.text("spun", hand=yarn.spin) if yarn.spin else None]
        what += [words.text("across", size=desk.length(use.figures.diameter.value))]
        rows.append((plain(use.name, bold=True), _list(what), plain(yarn.source or "")))
    for kind in plan.string.kinds if plan.string else ():
        along, across = desk.length(bead_length(kind)), desk.length(kind.diameter)
        size = words.text("across", size=across)
        if along != across:
            size = words.text("bead sizes", length=along, diameter=across)
        what = [kind.colour, kind.material, words.text(f"bead {kind.shape}"), size]
        rows.append((words.runs("bead", name=kind.name), _list(what), ()))
    if plan.string and (finial := plan.string.finial):
        rows.append((words.runs("finial"), _list([finial.name, finial.material]), ()))
    if aglets := plan.project.aglets:
        size = desk.length(aglets.length)
        material = desk.fields["aglet_material"]
        rows.append((words.runs("aglets"), _list([material, size]), ()))
    rows += _unplanned(desk, words)
    heads = tuple(words.runs(f"head {head}") for head in ("name", "what", "source"))
    open_ = any(not source or not source[0].text for _, _, source in rows)
    yield Table(heads, tuple(rows), (0.2, 0.46, 0.34), to_write=open_)


def _unplanned(desk: Desk, words: Words) -> Iterator[tuple[Runs, ...]]:
    """What was used without having been planned: its name is all that is known of it."""
    made, plan = desk.plan.project.made, desk.plan
    if made is None:
        return
    beads = {kind.name for kind in plan.string.kinds} if plan.string else set()
    yarns = {use.name for use in plan.yarns}
    for yarn in made.yarns_used:
        if yarn.name not in yarns:
            yield plain(yarn.name, bold=True), words.runs("unplanned"), ()
    for bead in made.beads_used:
        if bead.name not in beads:
            yield words.runs("bead", name=bead.name), words.runs("unplanned"), ()


def _list(texts: list[str | None]) -> Runs:
    return plain(", ".join(text for text in texts if text))
