"""Materials: takes the plan, gives everything to lay out, each with a box, and the tools."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.layout.blocks import Block, Heading, Para, Runs, SideBySide, Step, Table, Together
from sheetgen.layout.desk import Desk
from sheetgen.layout.outline import bead_outline
from sheetgen.layout.shapes import Picture, Rect, Shape
from sheetgen.layout.swatch import swatch
from sheetgen.layout.words import Words, plain
from sheetgen.model.beads import BeadKind
from sheetgen.plan.beads import bead_length
from sheetgen.plan.materials import YarnUse
from sheetgen.plan.plan import HoleFit

PART = "materials"
BOX = 5.0


def materials(desk: Desk) -> Iterator[Block]:
    """Yarns, beads, finishing and tools, each to tick."""
    words = desk.words(PART)
    yield Heading(words.heading)
    yield Heading(words.text("yarns"), 2)
    for use in desk.plan.yarns:
        yield _yarn(desk, words, use)
    if desk.plan.string:
        yield Heading(words.text("beads"), 2)
        for kind in desk.plan.string.kinds:
            if kind.name in desk.plan.string.string.counts:
                yield _beads(desk, words, kind)
        yield from _finial(desk, words)
    finishing = tuple(Step(runs) for _, runs in words.lines("finishing"))
    if finishing:
        yield Together((Heading(words.text("finishing"), 2), *finishing))
    if tools := tuple(_tools(desk, words)):
        yield Heading(words.text("tools"), 2)
        heads = ("head tool", "head period", "head household")
        columns = (0.36, 0.32, 0.32)
        yield Table(tuple(words.runs(h) for h in heads), tools, columns, ticked=True)


def tool_rows(words: Words) -> Iterator[tuple[Runs, ...]]:
    """The template's tools: tool, period form, household stand-in."""
    for _, runs in words.lines("tools"):
        cells = "".join(run.text for run in runs).split("|")
        yield tuple(plain(cell.strip()) for cell in (*cells, "", "")[:3])


def stand_in(words: Words, key: str) -> str:
    """The household stand-in of a tool; a dash if the template has no such tool."""
    cells = (words.line("tools", key) or "").split("|")
    return (cells[2].strip() if len(cells) > 2 else "") or "–"


def _tools(desk: Desk, words: Words) -> Iterator[tuple[Runs, ...]]:
    """The template's tools, then the description's."""
    yield from tool_rows(words)
    for tool in desk.plan.project.tools:
        yield plain(tool), (), ()


def _yarn(desk: Desk, words: Words, use: YarnUse) -> Block:
    """Swatch with letter and pattern; name, what it is, length and mass, where it goes."""
    shapes: list[Shape] = [Rect(0, 1.5, BOX, BOX, 0.35), *swatch(use, 9, 0, 16, 10, 14)]
    yarn = use.figures.yarn
    what = [yarn.colour and yarn.colour.split("#")[0].strip()]
    what += [words.text(f"yarn {w}") for w in (yarn.fibre, yarn.preparation) if w]
    if yarn.count:
        what.append(yarn.count.text)
    if yarn.spin:
        what.append(words.text("spun", hand=yarn.spin))
    if yarn.source:
        what.append(yarn.source)
    runs = words.runs(
        "yarn",
        name=use.name,
        length=desk.length(use.wanted),
        mass=desk.mass(use.mass_wanted),
        what=", ".join(w for w in what if w),
    )
    parts = ", ".join(
        f"{words.text(f'use {name}')} {desk.length(length)}" for name, length in use.by_use
    )
    small = [words.text("of which", parts=parts, reserve=desk.fields["reserve"])]
    if use.put_ups is not None and yarn.put_up is not None:
        small.append(
            words.text(
                "put-ups",
                n=str(use.put_ups),
                mass=desk.mass(yarn.put_up.mass),
                length=desk.length(yarn.put_up.length),
            )
        )
    if use.at_hand is not None:
        small.append(words.text("at hand", length=desk.length(use.at_hand)))
    picture = Picture(27, 10.5, tuple(shapes), name=f"swatch {use.name}")
    return SideBySide(picture, (Para(runs), Para(plain(" ".join(small)))), gap=4)


def _beads(desk: Desk, words: Words, kind: BeadKind) -> Block:
    """The bead at its size beside its name, number, sizes and how it goes on."""
    string = desk.plan.string
    assert string is not None, "asked only for strings of beads"
    fit = next(f for f in string.fits if f.name == kind.name)
    size = desk.length(bead_length(kind))
    if abs(kind.diameter - bead_length(kind)) > 0.01:
        size = words.text("bead sizes", length=size, diameter=desk.length(kind.diameter))
    runs = words.runs(
        "bead",
        name=kind.name,
        count=str(string.string.counts[kind.name]),
        size=size,
        what=", ".join(w for w in (kind.colour, kind.material) if w) or words.text("any material"),
    )
    lines = [Para(runs), Para(plain(hole_words(desk, words, fit)))]
    if kind.stands_for:
        lines.append(Para(words.runs("stands for", original=kind.stands_for.name)))
    return _beside_outline(desk, kind.name, kind.shape, bead_length(kind), kind.diameter, lines)


def hole_words(desk: Desk, words: Words, fit: HoleFit) -> str:
    """Whether the cord passes a hole, and how it goes through."""
    smallest = desk.length(fit.smallest)
    if fit.hole is None:
        return words.text("hole not known", smallest=smallest)
    how = "single" if fit.strands == 1 else "both ends" if fit.name == "finial" else "folded"
    return words.text(
        f"hole {fit.verdict}",
        hole=desk.length(fit.hole),
        smallest=smallest,
        how=words.text(f"how {how}"),
    )


def _beside_outline(
    desk: Desk, name: str, shape: str, length: float, diameter: float, lines: list[Para]
) -> Block:
    column = max([18.0, *_outline_lengths(desk)])
    height = max(diameter + 1.0, 9.0)
    shapes = (
        Rect(0, max(0.5, (height - BOX) / 2), BOX, BOX, 0.35),
        bead_outline(shape, 9 + (column - length) / 2, height / 2, length, diameter),
    )
    picture = Picture(9 + column + 0.5, height, shapes, true_scale=True, name=f"bead {name}")
    return SideBySide(picture, tuple(lines), gap=4)


def _outline_lengths(desk: Desk) -> list[float]:
    string = desk.plan.string
    assert string is not None, "asked only for strings of beads"
    lengths = [bead_length(k) for k in string.kinds]
    if string.finial and string.finial.length:
        lengths.append(string.finial.length)
    return [min(length, desk.width / 3) for length in lengths]


def _finial(desk: Desk, words: Words) -> Iterator[Block]:
    string = desk.plan.string
    if string is None or string.finial is None:
        return
    finial = string.finial
    size = ""
    if finial.length:
        across = desk.length(finial.diameter or finial.length)
        size = words.text("finial size", length=desk.length(finial.length), diameter=across)
    what = f"– {finial.material}" if finial.material else ""
    runs = words.runs("finial", name=finial.name, size=size, what=what)
    fit = next(f for f in string.fits if f.name == "finial")
    lines = [Para(runs), Para(plain(hole_words(desk, words, fit)))]
    if finial.length and finial.length <= desk.width / 3:
        diameter = finial.diameter or finial.length
        yield _beside_outline(desk, "finial", finial.shape, finial.length, diameter, lines)
    else:
        yield Step(runs)
