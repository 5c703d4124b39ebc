"""Each notation read alone, through the entry of the model that it belongs to.

Beside each value stands where it comes from: *published*, *geometry* (here: arithmetic of the
definition), *common practice*, *from memory*.
"""

from __future__ import annotations

from typing import Any

import pytest

from sheetgen.diagnostics import Diagnostic
from sheetgen.model.beads import BeadRepeat, Beads, Gap, Knot, Strung
from sheetgen.model.pack import Exceptional, HoleColour, Tablets
from sheetgen.model.project import Find, Project, Sample, Session
from sheetgen.model.schema import entries
from sheetgen.model.turning import Flip, Move, Repeat, Turns, Twist
from sheetgen.model.values import UNKNOWN, Amount, PicksOver, PutUp, Reading
from sheetgen.model.yarn import Yarn
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.parts import read_value
from sheetgen.read.tree import Pairs
from sheetgen.read.walk import UNREAD, Walk


def parts_of(part: type) -> set[type]:
    """A model class and all classes inside it."""
    inside = (entry.part for _, entry in entries(part).values() if entry.part is not None)
    return {part}.union(*(parts_of(other) for other in inside))


PARTS = sorted(parts_of(Project), key=lambda part: part.__name__)


def read(part: type, key: str, written: str, **known: Any) -> tuple[Any, list[Diagnostic]]:
    """The value of a key of a part; ``known`` are keys of the pack that were read before."""
    findings = Findings()
    tree = parse(f"x: {written}\n".encode(), findings)
    assert isinstance(tree, Pairs), findings.diagnostics
    walk = Walk(findings, {("tablets", name): value for name, value in known.items()})
    value = read_value(walk, tree.pairs[0][1], ("x",), entries(part)[key][1])
    return value, findings.diagnostics


def value(part: type, key: str, written: str, **known: Any) -> Any:
    found, diagnostics = read(part, key, written, **known)
    assert not diagnostics
    return found


def code(part: type, key: str, written: str, **known: Any) -> str:
    found, diagnostics = read(part, key, written, **known)
    assert found is UNREAD
    return diagnostics[0].code


EXAMPLES = [
    (part, key, entry.example)
    for part in PARTS
    for key, (_, entry) in entries(part).items()
    if entry.example
]


@pytest.mark.parametrize(("part", "key", "example"), EXAMPLES)
def test_every_example_of_the_model_can_be_read(part: type, key: str, example: str) -> None:
    found, diagnostics = read(part, key, example)
    assert not diagnostics
    assert found is not UNREAD


@pytest.mark.parametrize(
    ("written", "tex", "plies"),
    [
        ("20/2 Nm", 100, 2),  # published: Nm 10 resultant, tex * Nm = 1000 (ASTM D2260 table 1)
        ("2/20 Nm", 100, 2),  # the same yarn, written the other way about
        ("8/2 NeC", 590.541 / 4, 2),  # published: tex * NeC = 590.541 (D2260); 8/2 wraps as 4
        ("2/80 NeC", 590.541 / 40, 2),  # published: 2/80s wraps 40 (Brooks, Cotton Manufacturing)
        ("2/30 NeC", 590.541 / 15, 2),  # published: cotton 2/30s wraps 15 (Brooks)
        ("30/2 NeC spun silk", 590.541 / 30, 2),  # published: spun silk 30/2 wraps 30 (Brooks)
        ("2/20 NeW", 885.812 / 10, 2),  # published: tex * NeW = 885.812 (D2260)
        ("10 NeC", 885.812 / 15, 1),  # published: cotton 10 = worsted 15 (D2260's example)
        ("20 NeC", 885.812 / 30, 1),  # published: 20s cotton = 30s worsted (Brooks)
        ("40/2 NeL", 1653.52 / 20, 2),  # published: tex * lea = 1653.52 (D2260)
        ("19.7 NeC", 30, 1),  # published: 30 tex = cotton 19.7 (D2260's example)
        ("9 den", 1, 1),  # published: denier = 9 tex (D2260)
        ("300 dtex", 30, 1),  # geometry: a decitex is a tenth of a tex
        ("60 tex", 60, 1),
        ("R 60 tex/2", 60, 2),  # published: R marks the resultant (ISO 1139, from memory)
        ("60 tex x 2", 120, 2),  # geometry: two plies of 60 tex
        ("60 tex × 2", 120, 2),
        ("400 m per 100 g", 250, 1),  # published: m per 100 g = 100 Nm (D2260), so Nm 4
        ("496054.65 yd per lb", 1, 1),  # published: tex * (yd/lb) = 496 054.65 (D2260)
        ("7.5/2 Nm", 1000 / 3.75, 2),  # geometry
        ("2/2 Nm", 1000, 2),  # geometry
        ("20/2Nm", 100, 2),
    ],
)
def test_yarn_counts(written: str, tex: float, plies: int) -> None:
    count = value(Yarn, "count", written)
    # the published constants are rounded to six figures, 19.7 to three
    assert count.tex == pytest.approx(tex, rel=2e-3 if "19.7" in written else 5e-6)
    assert (count.plies, count.text) == (plies, written)


@pytest.mark.parametrize("written", ["20/2", "20", "2/20", "R 60/2", "20/2 Ne", "20/2 nm"])
def test_the_system_of_a_count_is_never_guessed(written: str) -> None:
    found, diagnostics = read(Yarn, "count", written)
    assert found is UNREAD
    assert diagnostics[0].code == "no-count-system"
    assert "NeC" in (diagnostics[0].allowed or "")


@pytest.mark.parametrize(
    ("written", "wanted"),
    [
        ("3 mm", Reading(3, 3, 3)),
        ("about 3 mm", Reading(3, 2.7, 3.3, sure=False)),  # common practice: about is 10 % off
        ("2.7 to 3.3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("2.7 mm to 3.3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("2.7 mm to 0.33 cm", Reading(3, 2.7, 3.3, sure=False)),
        ("3 mm +- 0.3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("3 ± 0.3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("3 mm ± 0.3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("1/8 in", Reading(3.175, 3.175, 3.175)),  # geometry: 1 in = 25.4 mm
        ("ca. 3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("c. 3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("circa 3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("~3 mm", Reading(3, 2.7, 3.3, sure=False)),
        ("about ⅛ in", Reading(3.175, 2.8575, 3.4925, sure=False)),  # geometry
    ],
)
def test_readings(written: str, wanted: Reading) -> None:
    found = value(Find, "thickness", written)
    assert (found.value, found.low, found.high) == pytest.approx(
        (wanted.value, wanted.low, wanted.high)
    )
    assert found.sure is wanted.sure


def test_only_a_find_may_be_unknown() -> None:
    assert value(Find, "thickness", "unknown") is UNKNOWN
    assert code(Find, "thickness", "Unknown") == "not-a-quantity"


PUT_UPS = ["50 g, 210 m", "210 m, 50 g", "0.05 kg, 210 m", "50g/210m", "50 g = 210 m"]
PUT_UPS += ["210 m per 50 g", "50 g / 210 metres"]


@pytest.mark.parametrize("written", PUT_UPS)
def test_put_ups(written: str) -> None:
    assert value(Yarn, "put-up", written) == PutUp(50, 210_000)


def test_curly_quotes_are_told() -> None:
    found, (told,) = read(Yarn, "put-up", "“50 g, 210 m”")
    assert found is UNREAD
    assert told.hint == 'write it with straight quotes: "50 g, 210 m"'


def test_amounts() -> None:
    assert value(Yarn, "at hand", "35 g") == Amount(mass=35)
    assert value(Yarn, "at hand", "60 m") == Amount(length=60_000)
    assert value(Yarn, "at hand", "0 g") == Amount(mass=0)


def test_picks() -> None:
    assert value(Sample, "picks", "32 in 5 cm") == PicksOver(32, 50)
    assert value(Sample, "picks", "16 per cm") == PicksOver(16, 10)
    assert value(Sample, "picks", "16/cm") == PicksOver(16, 10)
    assert value(Sample, "picks", "32 picks in 5 cm") == PicksOver(32, 50)
    assert value(Sample, "picks", "32 in 2 in") == PicksOver(32, pytest.approx(50.8))


def test_rates_and_plain_values() -> None:
    assert value(Yarn, "wraps", "16 per cm") == pytest.approx(1.6)
    assert value(Yarn, "wraps", "40 per in") == pytest.approx(40 / 25.4)
    assert value(Twist, "limit", "40 per m") == pytest.approx(0.04)
    assert value(Project, "shrinkage", "5 %") == value(Project, "shrinkage", "5%") == 0.05
    assert value(Project, "one warp", "yes") is True
    assert value(Project, "one warp", "no") is False
    assert value(Session, "lasts", "1.5 h") == 90
    assert value(Project, "notes", "one line") == ("one line",)
    assert value(Project, "notes", "[one, 12:30, no]") == ("one", "12:30", "no")
    assert value(Project, "notes", "|\n  one\n\n  two\n") == ("one", "two")


@pytest.mark.parametrize(
    ("written", "wanted"),
    [("S", "S"), ("S Z", "SZ"), ("SSZZ", "SSZZ"), ("4S 4Z", "SSSSZZZZ"), ("[S, 2Z]", "SZZ")],
)
def test_letters(written: str, wanted: str) -> None:
    assert value(Tablets, "threaded", written) == tuple(wanted)


def test_colours() -> None:
    in_order = tuple(HoleColour(*pair) for pair in (("A", "red"), ("B", "red"), ("C", "empty")))
    assert value(Tablets, "colours", "red") == (HoleColour("*", "red"),)
    assert value(Tablets, "colours", "[red]") == (HoleColour("*", "red"),)
    assert value(Tablets, "colours", "red red empty", holes=3) == in_order
    assert value(Tablets, "colours", "[red, red, empty]", holes=3) == in_order
    by_letter = value(Tablets, "colours", "{A: red, 'B C': white, DE: empty}", holes=6)
    assert [(c.hole, c.yarn) for c in by_letter] == [
        *(("A", "red"), ("B", "white"), ("C", "white"), ("D", "empty"), ("E", "empty"))
    ]


def test_drafts() -> None:
    first, second, third = value(Tablets, "draft", "[S red white, Z white red, red]", holes=2)
    assert (first.threaded, second.threaded, third.threaded) == ("S", "Z", None)
    assert second.colours == (HoleColour("A", "white"), HoleColour("B", "red"))
    assert third.colours == (HoleColour("*", "red"),)


@pytest.mark.parametrize(
    ("written", "wanted"),
    [
        ("1-2, 9-10", (1, 2, 9, 10)),
        ("3 to 5", (3, 4, 5)),
        ("7", (7,)),
        ("[1, 5-6]", (1, 5, 6)),
        ("all", tuple(range(1, 11))),
        ("odd", (1, 3, 5, 7, 9)),
        ("even", (2, 4, 6, 8, 10)),
    ],
)
def test_selections(written: str, wanted: tuple[int, ...]) -> None:
    assert value(Exceptional, "tablets", written, number=10) == wanted


def test_turning_in_one_text_is_a_list() -> None:
    one = value(Project, "turning", "forward 4, backward 4")
    assert one == value(Project, "turning", "[forward 4, backward 4]")
    tablets = (1, 3)
    assert value(Project, "turning", "forward, flip 1, 3, idle 2", number=4)[1:] == (
        Flip((), tablets),
        *value(Project, "turning", "idle 2"),
    )


def test_groups() -> None:
    groups = value(Tablets, "groups", "{border: '1-2, 9-10', middle: 3-8}", number=10)
    assert [(g.name, len(g.tablets)) for g in groups] == [("border", 4), ("middle", 6)]


def test_turning() -> None:
    groups = value(Tablets, "groups", "{border: '1-2'}", number=4)
    steps = value(
        Project,
        "turning",
        "[forward 4, backward, idle 2, flip, flip border, {border: forward 4, rest: idle 4},"
        " {repeat: 6, steps: [forward 2, {repeat: 2, steps: flip}]},"
        " {'3-4': idle 1, rest: forward 1}, flip 4]",
        number=4,
        groups=groups,
    )
    assert steps == (
        Turns(4, (Move("", "forward"),)),
        Turns(1, (Move("", "backward"),)),
        Turns(2, (Move("", "idle"),)),
        Flip(),
        Flip(("border",)),
        Turns(4, (Move("border", "forward"), Move("rest", "idle"))),
        Repeat(6, (Turns(2, (Move("", "forward"),)), Repeat(2, (Flip(),)))),
        Turns(1, (Move("3-4", "idle", (3, 4)), Move("rest", "forward"))),
        Flip((), (4,)),
    )
    assert value(Project, "turning", "forward 4") == (Turns(4, (Move("", "forward"),)),)


def test_picks_are_counted_without_unrolling() -> None:
    # 10 * 100 * 100 = 100 000, the most there may be; one more pick is too many
    most = "[{repeat: 10, steps: [{repeat: 100, steps: [forward 100]}]}]"
    assert len(value(Project, "turning", most)) == 1
    assert code(Project, "turning", most.replace("]}]}]", "]}]}, forward]")) == "picks"


def test_order() -> None:
    assert value(Beads, "order", "[10 small, large, gap 3 mm, knot, {repeat: 5, of: [bone]}]") == (
        Strung("small", 10),
        Strung("large", 1),
        Gap(3),
        Knot(),
        BeadRepeat(5, (Strung("bone", 1),)),
    )
    assert value(Beads, "order", "10 small, large") == (Strung("small", 10), Strung("large", 1))
    # 40 * 50 = 2000 beads, the most there may be
    assert value(Beads, "order", "[{repeat: 40, of: [50 small]}]")
    assert code(Beads, "order", "[{repeat: 40, of: [50 small]}, small]") == "beads"


@pytest.mark.parametrize("written", ["9" * 5000 + " mm", "1/" + "9" * 5000 + " mm", "1e9 mm"])
def test_endless_numbers_are_refused(written: str) -> None:
    assert code(Find, "thickness", written) == "not-a-quantity"
    assert code(Yarn, "count", written) == "not-a-count"
    assert code(Project, "pieces", written.split()[0].replace("/", "")) in (
        "out-of-range",
        "not-whole",
    )


@pytest.mark.parametrize(
    ("key", "written", "allowed"),
    [
        ("length", "60 m", "5 mm to 50 m"),
        ("pieces", "51", "1 to 50"),
        ("reserve", "201 %", "0 % to 200 %"),
        ("pace", "61", "0.1 to 60"),
    ],
)
def test_a_range_is_told_in_the_units_of_the_trade(key: str, written: str, allowed: str) -> None:
    found, diagnostics = read(Project, key, written)
    assert found is UNREAD
    assert (diagnostics[0].given, diagnostics[0].allowed) == (written, allowed)
