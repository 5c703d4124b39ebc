"""The keys of a description: takes the model's entries, gives the tables that stand in the README.

``python -m sheetgen.cli.guide`` prints them; a test compares the README with them.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from sheetgen.model.project import Project
from sheetgen.model.scale import PictureScale
from sheetgen.model.schema import Entry, Kind, entries, shorthand
from sheetgen.model.stash import Stash
from sheetgen.model.turning import MOTIONS

TITLES = {
    "Project": "The piece",
    "Find": "Under `find`",
    "Yarn": "Each yarn under `yarns`",
    "Tablets": "Under `tablets`",
    "Exceptional": "Each entry of `except`, under `tablets`",
    "Twist": "Under `twist`",
    "Weft": "Under `weft`",
    "Sample": "Under `sample`",
    "Allowance": "Under `allowance`",
    "Warping": "Under `warping`",
    "Beads": "Under `beads`",
    "BeadKind": "Each kind under `kinds`, under `beads`",
    "StandsFor": "Under `stands for`, of a kind of bead",
    "Finial": "Under `finial`, under `beads`",
    "KnotSize": "Under `knots`, under `beads`",
    "Tassels": "Under `tassels`",
    "Aglets": "Under `aglets`",
    "Kit": "Under `kit`",
    "Cards": "Under `cards`, under `kit`",
    "Thing": "Each thing under `things`, under `kit`",
    "Event": "Under `event`",
    "Session": "Each session under `sessions`",
    "Departure": "Each entry of `departures`",
    "Made": "Under `made`",
    "DoneAtPick": "Each entry of `interventions`, under `made`",
    "BeadsUsed": "Each kind under `beads used`, under `made`",
    "YarnUsed": "Each yarn under `yarns used`, under `made`",
    "TimeTaken": "Each session under `time` and each task under `other time`, under `made`",
    "Photograph": "Each entry of `photographs`, under `made`",
    "PictureScale": "A size of a find read off a picture with a scale",
    "Stash": "The stash, a file of its own",
    "StashYarn": "Each yarn of a stash, under `yarns`",
    "StashBead": "Each kind of bead of a stash, under `beads`",
    "Tool": "Each tool of a stash, under `tools`",
    "Booking": "Each piece under `booked`, in a stash",
}

WRITTEN: dict[Kind, str] = {
    "text": "text",
    "texts": "text, or a list of texts",
    "whole": "whole number",
    "number": "number",
    "percent": "per cent",
    "yes-no": "yes or no",
    "date": "year-month-day",
    "file": "name of a file",
    "folder": "name or folder",
    "length": "length",
    "mass": "mass",
    "time": "time",
    "amount": "mass or length",
    "reading": "length, sure or not",
    "rate": "number per length",
    "yarn": "name of a yarn",
    "part": "keys of its own",
    "parts": "list, each with keys of its own",
    "named parts": "names, each with keys of its own",
    "count": "yarn count",
    "put-up": "mass, length",
    "picks": "picks in a length",
    "colours": "yarns by hole",
    "letters": "S and Z",
    "selection": "tablet numbers",
    "selections": "names with tablet numbers",
    "draft": "list, a line a tablet",
    "turning": "list of turning steps",
    "order": "list of beads",
    "price": "price",
    "differences": "keys of this description",
}

NOTATIONS: tuple[tuple[Kind, str, tuple[str, ...]], ...] = (
    (
        "length",
        "A number and mm, cm, m, in, ft or yd. A number without a unit is never guessed.",
        ("28 cm", "1.2 m", "1 m 20 cm", "3/8 in", "1½ in", "1 ft 2 in"),
    ),
    ("mass", "A number and g, kg, oz or lb.", ("50 g", "1.5 oz")),
    ("time", "A number and min or h.", ("90 min", "2 h", "2 h 30 min")),
    (
        "reading",
        "A length read off something: plain if it is sure; “about” (or “ca.”, “c.”, “~”) means "
        "10 % either way; a range; "
        "give or take; and for a find “unknown”, when it cannot be known, or the keys of a "
        "picture with a scale.",
        ("3 mm", "about 3 mm", "2.7 to 3.3 mm", "3 mm ± 0.2 mm", "unknown"),
    ),
    ("rate", "A number per length.", ("16 per cm", "16/cm", "40 per m", "30 per in")),
    (
        "count",
        "Always with its system: tex, dtex, den, Nm, NeC (cotton), NeW (worsted) or NeL (linen "
        "lea). With a stroke, the smaller whole number is the plies, whichever stands first. R "
        "means the whole plied yarn, x so many plies of one; in tex, dtex and den one of these "
        "must be said. Spun silk is counted by the whole yarn. Length per mass also does.",
        (
            "20/2 Nm",
            "2/20 NeW",
            "30/2 NeC spun silk",
            "60 tex",
            "R 60 tex/2",
            "30 tex x 2",
            "400 m per 100 g",
            "3360 yd/lb",
        ),
    ),
    (
        "put-up",
        "Mass and length of a ball, hank or cone as sold. Inside braces the comma needs quotes.",
        ("50 g, 210 m", "210 m per 50 g"),
    ),
    ("amount", "What is left of a yarn, by mass or by length.", ("35 g", "60 m")),
    ("picks", "Picks counted over a length.", ("32 in 5 cm", "16 per cm")),
    ("percent", "A number and %.", ("10 %",)),
    (
        "letters",
        "Threading: S or Z for every tablet, or a run that repeats along the pack. S means that "
        "the thread seen from above runs from near right to far left, as in the drawing on the "
        "sheet; capitals only.",
        ("S", "S Z", "4S 4Z"),
    ),
    (
        "colours",
        "One yarn for all holes, one for each hole in order A, B, C…, or by hole letter; “empty” "
        "for a hole without a thread.",
        ("red", "[red, red, white, empty]", "{AB: red, CD: white}"),
    ),
    (
        "selection",
        "Tablet numbers from 1, counted as on the threading chart.",
        ("1-2, 19-20", "3 to 18", "odd", "even", "all"),
    ),
    (
        "selections",
        "Names for groups of tablets that turn together; a tablet is in one group at most.",
        ("{border: '1-2, 19-20', middle: 3-18}",),
    ),
    (
        "draft",
        "A line for each tablet, repeated along the pack: S or Z where it differs, then the yarns "
        "hole by hole.",
        ("[S red red white white, Z white white red red]",),
    ),
    (
        "turning",
        f"Steps, done again and again: {', '.join(MOTIONS)} with a number of picks; flip (of the "
        "pack, or of named groups or tablets; no pick); what each group, or tablet by its number, "
        "does in the same picks, “rest” for all others; and repeats.",
        (
            "[forward 4, backward 4]",
            "[{border: forward 4, 7: idle 4, rest: backward 4}, flip border]",
            "[{repeat: 6, steps: [forward 2, idle 1]}]",
        ),
    ),
    (
        "order",
        "The beads along the cord: a number and a kind, a kind alone, a gap of bare cord, a knot, "
        "and repeats.",
        ("[10 small, large]", "[small, gap 3 mm, knot]", "[{repeat: 5, of: [10 small, large]}]"),
    ),
    (
        "price",
        "A number and a currency in one word: a code of three letters, or any word. One currency "
        "in a description.",
        ("3.20 EUR", "450 JPY"),
    ),
    (
        "differences",
        "Keys of the whole description, for the kit. What is given as a set of keys is merged with "
        "that of the piece, key by key and name by name; a lone value or a list replaces what "
        "stood there; “none” takes a key or a name out. All is planned anew.",
        ("{length: 25 cm, tassels: none, yarns: {red: {wraps: 9 per cm, count: none}}}",),
    ),
    ("date", "Year, month, day.", ("2026-05-01",)),
)
"""What is written where a plain word or number will not do, with examples that can be read."""


def guide() -> str:
    """The tables in Markdown: notations first, then the keys part by part."""
    lines = ["### How values are written", "", "| value | written |", "| --- | --- |"]
    for kind, words, examples in NOTATIONS:
        shown = " · ".join(f"`{example}`" for example in examples)
        lines.append(f"| {WRITTEN[kind]} | {words} {shown} |")
    for part in parts():
        lines += ["", *_part(part)]
    return "\n".join(lines) + "\n"


def parts() -> list[type]:
    """The classes of the model that have keys, each after the one that it stands in."""
    found: list[type] = []
    waiting: list[type] = [Project, PictureScale, Stash]
    while waiting:
        part = waiting.pop(0)
        if part not in found:
            found.append(part)
            waiting[:0] = [e.part for _, e in entries(part).values() if e.part is not None]
    return found


def _part(part: type) -> Iterator[str]:
    yield f"### {TITLES[part.__name__]}"
    yield ""
    if (short := shorthand(part)) is not None:
        yield f"A lone value stands for `{short}`."
        yield ""
    base = next((b for b in part.__mro__[1:] if b is not object), None)
    inherited = entries(base) if base else {}
    if base:
        yield f"All that stands {_title_within(base)}, and:"
        yield ""
    yield "| key | value | what it says |"
    yield "| --- | --- | --- |"
    for key, (field, entry) in entries(part).items():
        if key in inherited:
            continue
        name = f"**`{key}`**" if field.default is dataclasses.MISSING else f"`{key}`"
        yield f"| {name} | {_value(entry)} | {_says(field, entry)} |"


def _title_within(part: type) -> str:
    title = TITLES[part.__name__]
    return f"of “{title}”"


def _value(entry: Entry) -> str:
    if entry.kind == "choice":
        return ", ".join(f"`{choice}`" for choice in entry.choices)
    return WRITTEN[entry.kind]


def _says(field: dataclasses.Field[object], entry: Entry) -> str:
    words = entry.doc
    if (usual := _usual(field, entry)) is not None:
        words += f" Usually {usual}."
    if entry.example:
        words += f" `{entry.example}`"
    return words


def _usual(field: dataclasses.Field[object], entry: Entry) -> str | None:
    """The value that is taken when the key is left out, where it can be said in a word."""
    value = field.default
    if value in (None, (), dataclasses.MISSING) or entry.part is not None:
        return None
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(map(str, value))
    unit = {"length": " mm", "percent": " %", "time": " min"}.get(entry.kind, "")
    return f"{value:g}{unit}" if isinstance(value, int | float) else str(value)


if __name__ == "__main__":
    print(guide(), end="")
