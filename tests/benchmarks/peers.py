"""What one would reach for instead: an HTML table through WeasyPrint, a spreadsheet through
LibreOffice. Both get the texts of our sheet and no drawing at all, so less work than we do: those
of a loom sheet for a single one, those of the kit sheet, each with a bag's number, for the batch.

Neither is needed for anything else: ``pip install weasyprint`` (with the system's pango) and
``soffice``; what is not there is left out, and said so.
"""

from __future__ import annotations

import csv
import html
import importlib.util
import shutil
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from timing import EXAMPLES, LOOP, PROGRAM, process, seconds, side_by_side, table

WORKSHOP = EXAMPLES / "town-day-workshop.yaml"
BATCH = 200
GOAL_SINGLE, GOAL_BATCH = 1.0, 10.0
"""At least so many times as quick."""
WEASY = """
import sys
from weasyprint import HTML
for name in sys.argv[1:]:
    HTML(name).write_pdf(name + ".pdf")
"""


def rows_of(file: Path, sheet: str) -> list[list[str]]:
    """The texts of a sheet, a list of cells for each line."""
    from sheetgen.cli import printing
    from sheetgen.cli.run import plan_file
    from sheetgen.draw import pdf

    seen, render = [], pdf.render

    def keep(document, *more, **named):
        seen.append(document)
        return render(document, *more, **named)

    pdf.render = keep
    try:
        printing.make_sheet(plan_file(file), sheet)
    finally:
        pdf.render = render
    return list(_texts(seen[0].blocks))


def _texts(blocks: Sequence[object]) -> Iterator[list[str]]:
    for block in blocks:
        if rows := getattr(block, "rows", None):
            yield from (["".join(run.text for run in cell) for cell in row] for row in rows)
        elif runs := getattr(block, "runs", None):
            yield ["☐", "".join(run.text for run in runs)]
        elif isinstance(text := getattr(block, "text", None), str):
            yield [text]
        yield from _texts(getattr(block, "blocks", ()))


def as_html(rows: list[list[str]], file: Path) -> Path:
    """The rows as an HTML table."""
    lines = ("".join(f"<td>{html.escape(cell)}</td>" for cell in row) for row in rows)
    body = "".join(f"<tr>{line}</tr>" for line in lines)
    file.write_text(f"<meta charset=utf-8><table border=1>{body}</table>", encoding="utf-8")
    return file


def as_table(rows: list[list[str]], file: Path) -> Path:
    """The rows as a spreadsheet."""
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return file


def main() -> None:
    """Print how many times as quick we are."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        loom, kit = rows_of(LOOP, "loom"), rows_of(WORKSHOP, "kit")
        sheets = [[[f"Bag {n + 1}"], *kit] for n in range(BATCH)]
        office = ["soffice", "--headless", "--convert-to", "pdf", "--outdir", folder]
        peers = {
            "WeasyPrint": ([sys.executable, "-c", WEASY], as_html, ".html"),
            "LibreOffice": (office, as_table, ".csv"),
        }
        for peer in _missing():
            print(f"{peer} is not installed: left out\n")
            del peers[peer]
        out = folder / "one.pdf"
        single = {"sheetgen": process([*PROGRAM, "print", LOOP, "--out", out])}
        kits = [*PROGRAM, "kits", WORKSHOP, "--people", BATCH, "--spares", 0, "--numbered"]
        batch = {"sheetgen": process([*kits, "--out", folder])}
        for peer, (words, write, ending) in peers.items():
            single[peer] = process([*words, write(loom, folder / f"loom{ending}")])
            files = [write(rows, folder / f"{n}{ending}") for n, rows in enumerate(sheets)]
            batch[peer] = process([*words, *files])
        alone = side_by_side(single, 5)
        each = {peer: seconds(work) / BATCH for peer, work in batch.items()}
    for what, found, goal in (
        ("one loom sheet as a process", alone, GOAL_SINGLE),
        (f"a kit sheet of {BATCH}", each, GOAL_BATCH),
    ):
        rows = [(peer, 1000 * s, s / found["sheetgen"], goal) for peer, s in found.items()]
        table((what, "ms", "times ours", "goal"), rows)


def _missing() -> list[str]:
    """The peers that are not installed here."""
    there = {
        "WeasyPrint": importlib.util.find_spec("weasyprint"),
        "LibreOffice": shutil.which("soffice"),
    }
    return [peer for peer, found in there.items() if not found]


if __name__ == "__main__":
    main()
