"""The register: takes the rows of all pieces, its template and the paper, gives a Document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from sheetgen import amounts
from sheetgen.layout.blocks import Block, Document, Heading, Para, Runs, Table
from sheetgen.layout.fields import whole
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.sheet import AS_IT_IS
from sheetgen.layout.words import Words, filled, plain, writing_of
from sheetgen.model.template import Template
from sheetgen.plan.rows import Row, in_order

WIDTHS = (0.13, 0.27, 0.15, 0.19, 0.26)
NARROW = (0.2, 0.35, 0.23, 0.22)
INDEX = (0.4, 0.6)
"""Columns of the pieces, of those on narrow paper and of an index, shares of the width."""
WIDE_ENOUGH = 150.0
"""Room in which the files have a column of their own, else they stand behind the piece, mm."""
IN_ONE_TABLE = 200
"""Rows of one table: a longer one is parted, as setting it takes the square of its rows."""
IN_ONE_CELL = 60
"""Numbers in one cell of an index, so that a row is never higher than a page."""


def register_sheet(
    rows: Sequence[Row],
    twice: Mapping[str, Sequence[str]],
    unread: Iterable[tuple[str, str]],
    template: Template,
    paper: Paper,
    setting: Setting = AS_IT_IS,
    *,
    folder: str = "",
    all_seen: bool = True,
) -> Document:
    """Pieces by number; an index by find, yarn and year; what has to be looked into.

    ``folder`` is the name of the folder that was read, for the head of the page.
    ``twice`` has the files of each number that several records have, ``unread`` files and why.
    """
    words = template.words
    paper = setting.on(paper)
    count = filled(words["piece" if len(rows) == 1 else "pieces"], {"n": str(len(rows))})
    parts = {part.name: Words(part, {}, frozenset()) for part in template.parts}
    blocks: list[Block] = []
    for name, part in parts.items():
        if name == "register":
            blocks += _pieces(rows, part, template, paper.frame_width >= WIDE_ENOUGH)
        elif name == "faults":
            blocks += _faults(part, twice, unread, all_seen)
        else:
            blocks += _index(name, rows, part, template)
    return Document(
        title=f"{words['title']} · {count}",
        sheet=words["title"],
        header=folder or words["title"],
        version=filled(words["version"], {"pieces": count}),
        paper=paper,
        blocks=tuple(blocks),
        page_of=words["page of"],
        scale_sentence=words["scale"],
        print_sentence=filled(words["print"], {"paper": paper.name}),
        subject=words["subject"],
        language=template.language,
        date=max((row.date for row in rows if row.date), default=None),
        text_size=setting.text_size,
    )


def _pieces(rows: Sequence[Row], part: Words, template: Template, wide: bool) -> Iterator[Block]:
    yield Heading(part.heading)
    if not rows:
        yield Para(part.runs("none"))
        return
    yield Para((*_span(rows, part), *part.runs("measured")), small=True)
    piece = "piece" if wide else "piece and file"
    names = ("number", piece, "dates", "size", *(("file",) if wide else ()))
    heads = [plain(part.text(f"head {name}")) for name in names]
    cells = []
    for row in rows:
        what = f"{row.piece} ({template.words[row.form]})"
        find = f"; {part.text('based on', find=row.find)}" if row.find else ""
        by_plan = row.planned and not (row.begun or row.finished)
        cell = (
            plain(row.number, bold=True),
            plain(what + find + ("" if wide else f"; {row.file}")),
            plain(f"{row.date} {template.words['planned']}" if by_plan else row.date),
            plain(_size(row, template)),
        )
        cells.append((*cell, plain(row.file)) if wide else cell)
    yield from _tables(heads, cells, WIDTHS if wide else NARROW)


def _span(rows: Sequence[Row], part: Words) -> Runs:
    """First and last day, by which a reader sees how far the register goes."""
    days = sorted(row.date for row in rows if row.date)
    return (*part.runs("span", first=days[0], last=days[-1]), *plain(" ")) if days else ()


def _size(row: Row, template: Template) -> str:
    """Thickness, or width of a band, length and picks, each with whether it is only planned."""
    words, writing = template.words, writing_of(template)

    def long(mm: float) -> str:
        return whole(amounts.length(mm, "mm", writing))

    what = "width" if row.width is not None else "thickness"
    across = getattr(row, what)
    said = {
        what: filled(words["wide" if what == "width" else "thick"], {"length": long(across)})
        if across is not None
        else "",
        "length": filled(words["long"], {"length": long(row.length)}) if row.length else "",
        "picks": whole(filled(words["picks"], {"n": f"{row.picks:.0f}"})) if row.picks else "",
    }
    measured = [text for name, text in said.items() if text and name in row.made]
    planned = [text for name, text in said.items() if text and name not in row.made]
    if planned:
        planned[-1] += f" ({words['by plan']})"
    return ", ".join(measured + planned)


def _tables(
    heads: Sequence[Runs], cells: Sequence[tuple[Runs, ...]], widths: tuple[float, ...]
) -> Iterator[Block]:
    """The rows in tables short enough to be set quickly."""
    for start in range(0, len(cells), IN_ONE_TABLE):
        yield Table(tuple(heads), tuple(cells[start : start + IN_ONE_TABLE]), widths)


def _index(name: str, rows: Sequence[Row], part: Words, template: Template) -> Iterator[Block]:
    """Find, yarn or year -> the numbers of the pieces, in alphabetical order, 2 before 10."""
    found: dict[str, list[str]] = {}
    for row in rows:
        keys = {"by find": (row.find,), "by yarn": row.yarns, "by year": (row.year,)}[name]
        label = row.number or filled(template.words["no number"], {"file": row.file})
        for key in keys or ("",):
            found.setdefault(key, []).append(label)
    if not found:
        return
    yield Heading(part.heading)
    heads = [plain(part.text("head")), plain(template.words["numbers"])]
    cells = []
    for key in sorted(found, key=lambda key: (not key, in_order(key))):
        labels, name = found[key], key or part.text("none")
        for start in range(0, len(labels), IN_ONE_CELL):
            cells.append((plain(name), plain(", ".join(labels[start : start + IN_ONE_CELL]))))
    yield from _tables(heads, cells, INDEX)


def _faults(
    part: Words,
    twice: Mapping[str, Sequence[str]],
    unread: Iterable[tuple[str, str]],
    all_seen: bool,
) -> Iterator[Block]:
    """Numbers that stand twice and files that cannot be read; nothing where there are none."""
    said = [part.runs("twice", number=n, files=", ".join(files)) for n, files in twice.items()]
    said += [part.runs("unread", file=file, why=why) for file, why in unread]
    if not all_seen:
        said.append(part.runs("more"))
    if said:
        yield Heading(part.heading)
        yield from (Para(runs) for runs in said)
