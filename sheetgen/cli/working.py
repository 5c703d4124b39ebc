"""How a figure was worked out: takes a plan and a figure's name, gives lines or JSON."""

from __future__ import annotations

from typing import Any

from sheetgen.cli.figures import between, value_of
from sheetgen.cli.run import file_error
from sheetgen.cli.terminal import BLUE, BOLD, Paint, seen, wrapped
from sheetgen.diagnostics import Diagnostic
from sheetgen.plan.equations import equation_of, rests_on, source_of
from sheetgen.plan.figure import Figure
from sheetgen.plan.plan import Plan
from sheetgen.read.findings import did_you_mean

ALL = "all"
_LABEL = 9


def named(plan: Plan, wanted: str) -> list[Figure] | Diagnostic:
    """The figures of that key or name, all yarns' where none is said; or what may be meant."""
    if wanted == ALL:
        return list(plan.figures.values())
    asked = wanted.strip().casefold()
    plain = asked.replace(" ", "_").replace("-", "_")
    found = [
        f
        for key, f in plan.figures.items()
        if key.casefold() in (asked, plain)
        or key.partition(":")[0] in (asked, plain)
        or f.name.casefold() == asked
    ]
    if found:
        return found
    known = [*dict.fromkeys(key.partition(":")[0] for key in plan.figures)]
    return file_error(
        "no-such-figure",
        "this plan has no such figure",
        given=wanted,
        allowed=", ".join((*known, ALL)),
        hint=did_you_mean(asked, [*plan.figures, *known], "“sheetgen plan” lists all figures"),
    )


def shown(plan: Plan, figure: Figure, paint: Paint, width: int) -> str:
    """Formula, numbers, result, range, origin, source, and the figures that it rests on."""
    units = plan.project.units
    facts = [
        ("formula", equation_of(figure).formula),
        ("numbers", figure.working),
        ("result", value_of(figure, units)),
        ("range", between(figure, units)),
        ("origin", origin_of(figure)),
        ("source", source_of(figure)),
    ]
    for symbol, root in rests_on(figure, plan.figures):
        facts.append(("where", _meaning(symbol[:2], root, units)))
    facts.append(("surer", figure.next_measure))
    out = [f"{paint(seen(figure.key), BOLD)}: {seen(figure.name)}"]
    last = ""
    for label, text in facts:
        if text:
            first, *rest = wrapped(seen(text), max(20, width - _LABEL - 2))
            out.append(f"  {paint(('' if label == last else label).ljust(_LABEL), BLUE)}{first}")
            out += [" " * (_LABEL + 2) + line for line in rest]
            last = label
    return "\n".join(line.rstrip() for line in out)


def _meaning(symbol: tuple[str, str], root: Figure | None, units: str) -> str:
    """A symbol with its meaning, and its value where it is a figure of the plan."""
    letter, meaning = symbol
    said = f"{letter} is {meaning}" if meaning else letter
    if root is None:
        return said
    return f"{said}: {value_of(root, units)}, {origin_of(root)} ({root.key})"


def origin_of(figure: Figure) -> str:
    """Where a figure came from, and whether it rests on a rule of thumb."""
    return f"{figure.origin}, resting on a rule of thumb" if figure.rests_on_rule else figure.origin


def as_json(plan: Plan, figure: Figure) -> dict[str, Any]:
    """What a program is told beyond the figure itself."""
    return {
        "formula": equation_of(figure).formula,
        "rests_on_rule": figure.rests_on_rule,
        "rests_on": [
            {"symbol": symbol, "meaning": meaning, "figure": root.key if root else None}
            for (symbol, meaning, _), root in rests_on(figure, plan.figures)
        ],
    }
