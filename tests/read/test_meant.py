"""Slips of ten newcomers with their mendings: what the hint says to write is read.

The slips are common practice, no source: they were made by writing descriptions from the guide.
"""

from __future__ import annotations

import pytest

from sheetgen.cli.guide import parts
from sheetgen.model.schema import entries
from sheetgen.read import meant, read_description

HEAD = "piece: Slip\n"
REST = {
    "form": "form: cord",
    "length": "length: 40 cm",
    "yarns": "yarns: {red: {fibre: wool, count: 20/2 Nm}}",
    "tablets": "tablets: 6",
}
BEADS = "form: straight\nbeads: {kinds: {olive: %s}, order: [20 olive]}"
SLIPS = [
    ("yarns: {red: {fibre: wool, wpi: 18}}", "yarns: {red: {fibre: wool, wraps: 18 per in}}"),
    ("yarns: {red: {count: 18 wpi}}", "yarns: {red: {wraps: 18 per in}}"),
    ("yarns: {red: 20/2 Nm}", "yarns: {red: {fibre: wool, preparation: worsted, count: 20/2 Nm}}"),
    ("yarns: wool", "yarns: {red: {fibre: wool, count: 20/2 Nm}}"),
    ("yarns: {red: {fibre: flax, count: 20 NeL}}", "yarns: {red: {fibre: linen, count: 20 NeL}}"),
    ("holes: 6", "tablets: {number: 6, holes: 6}"),
    ("tablets: 8 six-hole", "tablets: 8"),
    ("turning: spiral", "turning: forward"),
    ("twist: spiral", "twist: let out"),
    ("length: 1m20", "length: 1 m 20 cm"),
    (BEADS % "{diameter: 6 x 9 mm}", BEADS % "{diameter: 6 mm, length: 9 mm}"),
    (BEADS % "{diameter: 6 mm, shape: oval}", BEADS % "{diameter: 6 mm, shape: round}"),
    (BEADS % "{width: 6 mm}", BEADS % "{diameter: 6 mm}"),
    ("units: US", "units: inches"),
    ("paper: US Letter", "paper: Letter"),
    ("language: german", "templates: german"),
    ("sample: {thickness: 3 mm}", "sample: {diameter: 3 mm}"),
    ("sample: 88 in 10 cm", "sample: {picks: 32 in 5 cm, take-up: 1.08}"),
    ("kit: {children: 12}", "kit: {people: 12}"),
    ("kit: {people: 12 children}", "kit: {people: 12}"),
    ("kit: {length: 20 cm}", "kit: {differs: {length: 20 cm}}"),
    ("kit: {sessions: 90 min}", "kit: {sessions: {morning: 90 min}}"),
]

SAID = {
    "tablets: 8 six-hole": "write 8 alone",
    "kit: {people: 12 children}": "write 12 alone",
    "paper: US Letter": "write “Letter”",
}
"""What is said where no word of the mended line is new."""


def with_lines(lines: str) -> bytes:
    """The lines in a description that is otherwise whole."""
    rest = [line for key, line in REST.items() if not lines.startswith(f"{key}:")]
    return (HEAD + lines + "\n" + "\n".join(rest) + "\n").encode()


@pytest.mark.parametrize(("slip", "mended"), SLIPS, ids=lambda text: text[:40])
def test_the_hint_for_a_slip_names_what_is_read(slip: str, mended: str):
    told = read_description(with_lines(slip)).diagnostics
    assert [d for d in told if d.is_error], "the slip is read after all"
    hints = " ".join(d.hint or "" for d in told)
    new = {word.strip("{}[],:") for word in mended.split()} - set(slip.split())
    assert SAID.get(slip, "") in hints
    assert slip in SAID or any(word in hints for word in new), hints
    assert not read_description(with_lines(mended)).diagnostics


@pytest.mark.parametrize("feet", ["4'6\"", "4 ft 6 in", "4′6″"])
def test_feet_and_inches_may_stand_together(feet: str):
    """1 in = 25.4 mm exactly (international yard and pound agreement, 1959): 54 in."""
    project = read_description(with_lines(f"length: {feet}")).project
    assert project is not None
    assert project.length == pytest.approx(54 * 25.4)


def test_length_per_mass_may_be_written_with_a_stroke():
    """1 lb = 453.59237 g, 1 yd = 0.9144 m exactly: 3360 yd/lb, 8/2 cotton (ASTM D2260)."""
    project = read_description(
        with_lines("yarns: {red: {fibre: cotton, count: 3360 yd/lb}}")
    ).project
    assert project is not None
    assert project.yarns[0].count is not None
    assert project.yarns[0].count.tex == pytest.approx(453.59237 / (3360 * 0.9144) * 1000)


def test_what_the_hints_point_to_is_there():
    keys = {key for part in parts() for key in entries(part)}
    choices = {c for part in parts() for _, e in entries(part).values() for c in e.choices}
    assert {key for key, _ in meant._KEYS.values()} <= keys
    assert {choice for choice, _ in meant._CHOICES.values()} <= choices
    assert not set(meant._CHOICES) & choices, "a choice needs no hint"
