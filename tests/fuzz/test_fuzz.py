"""Descriptions made at random: no traceback, no refusal without a reason, what is accepted prints.

By hand, many: ``SHEETGEN_FUZZ=10000 python -m pytest -s tests/fuzz`` (each test so many).
"""

from __future__ import annotations

import datetime
import os
import random
import re
from dataclasses import MISSING

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sheetgen.model.project import Project
from sheetgen.model.schema import entries, shorthand
from sheetgen.model.yarn import Yarn

CASES = int(os.environ.get("SHEETGEN_FUZZ", "0"))
MANY = settings(
    max_examples=CASES or 60, deadline=None, database=None, suppress_health_check=list(HealthCheck)
)

WILD = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
TAME = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=12)
TEXT = st.integers(0, 40).flatmap(lambda n: TAME if n else WILD)
ODDS = r"""no 12:30 010 0x10 1e3 .inf nan ~ null -1 0 1 2 3 7 300 99999999999 0.5 1/2 ½ 1/0 [] {}
'' [[]] {a:b} {a:b - : # & * ! @ % " ' | > ? unknown about red S Z yes"""
ODD = st.sampled_from(ODDS.split())
NUMBER = st.one_of(st.integers(0, 12), st.integers(-5, 10**6), st.floats(0.01, 100).map(str))


def quantity(*units):
    return st.builds(lambda n, u: f"{n} {u}", NUMBER, st.sampled_from(units))


LENGTH = quantity("mm", "cm", "m", "in", "ft")
READING = st.one_of(
    LENGTH,
    LENGTH.map(lambda text: f"about {text}"),
    st.builds(lambda one, other: f"{one} to {other}", LENGTH, LENGTH),
    st.just("unknown"),
)
MOVE = st.builds(
    lambda word, n: f"{word} {n}", st.sampled_from(["forward", "backward", "idle"]),
    st.integers(1, 9),
)  # fmt: skip
STEP = st.one_of(
    MOVE,
    st.just("flip"),
    st.builds(lambda a, b: f"{{edge: {a}, rest: {b}}}", MOVE, MOVE),
    st.builds(lambda n, a, b: f"{{repeat: {n}, steps: [{a}, {b}]}}", NUMBER, MOVE, MOVE),
)
BEAD = st.one_of(
    st.sampled_from(["small", "large", "knot", "gap 3 mm"]),
    st.builds(lambda n, k: f"{n} {k}", st.integers(1, 30), st.sampled_from(["small", "large"])),
    st.builds(lambda n: f"{{repeat: {n}, of: [3 small, large]}}", st.integers(1, 9)),
)
YARN = st.sampled_from(["red", "white", "blue"])


def listed(items, most=4):
    return st.lists(items, min_size=1, max_size=most).map(lambda parts: f"[{', '.join(parts)}]")


DIFFERENCES = [
    "{length: 25 cm}", "{tablets: {number: 4}}", "{tassels: none, find: none}", "{form: band}",
    "{yarns: {red: {wraps: 9 per cm, diameter: none}}}", "{beads: none, form: cord, length: 1 m}",
    "{beads: {order: [2 small]}}", "{yarns: {red: none}}", "{weft: none}", "{pieces: 1000000000}",
]  # fmt: skip
VALUES = {
    "whole": st.integers(0, 12).map(str),
    "number": st.floats(0.1, 60).map(lambda n: f"{n:.2f}"),
    "percent": quantity("%"),
    "yes-no": st.sampled_from(["yes", "no"]),
    "date": st.dates(min_value=datetime.date(1000, 1, 1)).map(str),
    "length": LENGTH,
    "mass": quantity("g", "oz"),
    "time": quantity("h", "min"),
    "amount": quantity("g", "m"),
    "reading": READING,
    "rate": st.builds(lambda n: f"{n} per cm", st.integers(5, 40)),
    "yarn": YARN,
    "count": quantity("Nm", "NeC", "tex").map(lambda text: text.replace(" ", "/2 ")),
    "put-up": st.builds(lambda g, m: f'"{g} g, {m} m"', NUMBER, NUMBER),
    "picks": st.builds(lambda n, mm: f"{n} in {mm}", NUMBER, LENGTH),
    "colours": listed(YARN, 4),
    "letters": st.sampled_from(["S", "Z", "S Z", "2S 2Z", "S S Z"]),
    "selection": st.sampled_from(["1", "1-2", "odd", "all", '"1, 3"']),
    "selections": st.sampled_from(["{edge: 1-2}", "{edge: odd}", "{edge: 1, middle: 2-3}"]),
    "draft": listed(st.sampled_from(["S red red white white", "Z red", "white red"]), 3),
    "turning": listed(STEP),
    "order": listed(BEAD),
    "price": st.builds(lambda n, c: f"{n} {c}", NUMBER, st.sampled_from(["EUR", "EUR", "pence"])),
    "file": st.sampled_from(["a.jpg", "b/c.png", "stash.yaml"]),
    "folder": st.sampled_from(["mine", "mine/too"]),
    "differences": st.sampled_from(DIFFERENCES),
}
TEXTS = TEXT.map(lambda text: "'" + re.sub(r"\s", " ", text).replace("'", "''") + "'")


SAY = {
    "whole": "{:.0f}", "number": "{:.2f}", "percent": "{:.0f} %", "length": "{:.2f} mm",
    "reading": "about {:.2f} mm", "mass": "{:.2f} g", "time": "{:.0f} min",
}  # fmt: skip


def within(entry):
    """A number in the range of an entry, small ones as often as large ones; seldom another."""
    low, high = entry.low or 0, min(entry.high, 2000)
    share = st.floats(0, 1).map(lambda x: low + (high - low) * x**3)
    usual = share.map(SAY[entry.kind].format)
    return st.integers(0, 15).flatmap(lambda n: VALUES[entry.kind] if n == 0 else usual)


def value_of(entry, depth):
    """A value that may stand at an entry, in braces; now and then one that may not."""
    if entry.doc.startswith("Letter"):
        usual = st.characters(categories=["Lu"])
    elif entry.choices:
        usual = st.sampled_from(entry.choices)
    elif entry.kind == "part" and depth < 3:
        usual = part_of(entry.part, depth + 1)
    elif entry.kind == "parts" and depth < 3:
        usual = part_of(entry.part, depth + 1).map(lambda part: f"[{part}]")
    elif entry.kind == "named parts" and depth < 3:
        names = YARN if entry.part.__name__ == "Yarn" else st.sampled_from(["small", "large"])
        usual = st.dictionaries(names, part_of(entry.part, depth + 1), min_size=1, max_size=3)
        usual = usual.map(lambda d: "{" + ", ".join(f"{k}: {v}" for k, v in d.items()) + "}")
    elif entry.kind in SAY and entry.high is not None:
        usual = within(entry)
    else:
        usual = VALUES.get(entry.kind, TEXTS)
    return st.integers(0, 80).flatmap(lambda n: ODD if n == 0 else usual)


@st.composite
def part_of(draw, part, depth):
    """A part in braces: what must be there, and some of the rest; or a lone value."""
    known = {key: entry for key, (_, entry) in entries(part).items()}
    if (short := shorthand(part)) and draw(st.integers(0, 4)) == 0:
        return draw(value_of(known[short], depth))
    pairs = [f"{key}: {draw(value_of(known[key], depth))}" for key in draw(keys_of(part))]
    return "{" + ", ".join(pairs) + "}"


def keys_of(part):
    must = [key for key, (field, _) in entries(part).items() if field.default is MISSING]
    if part is Yarn:
        must.append("wraps")
    may = [key for key in entries(part) if key not in must]
    some = st.lists(st.sampled_from(may), unique=True, max_size=5) if may else st.just([])
    return some.map(lambda keys: must + keys)


@st.composite
def descriptions(draw):
    """A whole description, most of its values possible, a line a key."""
    known = {key: entry for key, (_, entry) in entries(Project).items()}
    fixed = {
        "piece": "A piece",
        "yarns": "{red: {wraps: 14 per cm}, white: {wraps: 15 per cm}, blue: 0.6 mm}",
        "tablets": "{number: 6, groups: {edge: 1-2}}",
        "length": "30 cm",
    }
    fixed["yarns"] = fixed["yarns"].replace("blue: 0.6 mm", "blue: {diameter: 0.6 mm}")
    form = draw(st.sampled_from(["cord", "band", "straight", "loop"]))
    if form in ("straight", "loop"):
        fixed["beads"] = "{kinds: {small: 6 mm, large: 9 mm}, order: [3 small, large]}"
        del fixed["length"]
    lines = [f"form: {form}"]
    chosen = draw(keys_of(Project))
    for key in dict.fromkeys([*fixed, *chosen]):
        if key == "form":
            continue
        own = key in fixed and (key not in chosen or draw(st.booleans()))
        lines.append(f"{key}: {fixed[key] if own else draw(value_of(known[key], 0))}")
    return "\n".join(lines) + "\n"


@MANY
@given(text=descriptions())
def test_structure_and_values(judge, text):
    judge.judge(text.encode("utf-8", "surrogatepass"))


PIECES = re.compile(rb"[A-Za-z]+|\d+|\s+|.", re.DOTALL)
STRANGE = [
    b"0", b"-1", b"1e300", b"999999999", b"nan", b"\t", b"\r", b"\0", b"\xff", b"\xef\xbb\xbf",
    b"{", b"}", b"[", b"]", b":", b": ", b"- ", b"#", b"&a", b"*a", b"<<", b"!!", b"'", b'"',
    b"|", b"%", b"\xe2\x80\xa8", b"unknown", b"red", b"mm", b" ", b"\n", b"  ",
]  # fmt: skip


def mutated(data: bytes, chance: random.Random) -> bytes:
    """An example with one to four small changes: pieces of it dropped, doubled, swapped, odd."""
    pieces = PIECES.findall(data)
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(pieces))
        other = chance.randrange(len(pieces))
        match chance.randrange(6):
            case 0:
                del pieces[at]
            case 1:
                pieces.insert(at, pieces[other])
            case 2:
                pieces[at], pieces[other] = pieces[other], pieces[at]
            case 3:
                pieces[at] = chance.choice(STRANGE)
            case 4:
                digits = [i for i, piece in enumerate(pieces) if piece.isdigit()]
                if digits:
                    pieces[chance.choice(digits)] = str(chance.choice([0, 1, 2, 9, 400])).encode()
            case _:
                del pieces[at : at + chance.randint(1, 30)]
        pieces = pieces or [b" "]
    return b"".join(pieces)


def test_changed_examples(judge, examples):
    chance = random.Random(0x5ED6E)  # the same cases each time
    for _ in range(CASES or 100):
        judge.judge(mutated(chance.choice(examples), chance))


def test_changed_stashes(judge, stash):
    chance = random.Random(3)
    for _ in range((CASES or 60) // 4):
        judge.judge_stash(mutated(stash, chance))


def test_bytes_at_random(judge):
    chance = random.Random(1)
    for _ in range((CASES or 150) // 5):
        judge.judge(chance.randbytes(chance.randint(0, 200)))
