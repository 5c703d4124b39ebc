"""What one would reach for instead: an HTML table through WeasyPrint, a spreadsheet through
LibreOffice. Both get the texts of the loom sheet and no drawing at all, so less work than we do.

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

from pieces import different
from timing import LOOP, PROGRAM, process, seconds, side_by_side, table

BATCH = 200
GOAL_SINGLE, GOAL_BATCH = 1.0, 10.0
"""At least so many times as quick."""
WEASY = """
import sys
from weasyprint import HTML
for name in sys.argv[1:]:
    HTML(name).write_pdf(name + ".pdf")
"""


def rows_of(file: Path) -> list[list[str]]:
    """The texts of the loom sheet, a list of cells for each line."""
    from sheetgen.cli.press import AS_DESCRIBED
    from sheetgen.cli.run import plan_file
    from sheetgen.cli.sets import choose
    from sheetgen.draw.fonts import text_width
    from sheetgen.layout.loom import loom_sheet

    outcome = plan_file(file)
    template = choose(outcome, "loom").template
    paper, setting = AS_DESCRIBED.choose(outcome.plan.project)
    document = loom_sheet(outcome.plan, template, paper, text_width, setting)
    return list(_texts(document.blocks))


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


def as_sheet(rows: list[list[str]], file: Path) -> Path:
    """The rows as a spreadsheet."""
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return file


def main() -> None:
    """Print how many times as quick we are."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        ours = different(folder, BATCH)
        rows = [rows_of(file) for file in ours[:4]]
        web = [as_html(rows[n % 4], folder / f"{n}.html") for n in range(BATCH)]
        calc = [as_sheet(rows[n % 4], folder / f"{n}.csv") for n in range(BATCH)]
        office = ["soffice", "--headless", "--convert-to", "pdf", "--outdir", folder]
        peers = {"WeasyPrint": ([sys.executable, "-c", WEASY], web), "LibreOffice": (office, calc)}
        missing = [
            peer
            for peer, there in (
                ("WeasyPrint", importlib.util.find_spec("weasyprint")),
                ("LibreOffice", shutil.which("soffice")),
            )
            if not there
        ]
        for peer in missing:
            print(f"{peer} is not installed: left out\n")
            del peers[peer]
        single = side_by_side(
            {
                "sheetgen": process([*PROGRAM, "print", LOOP, "--out", folder / "one.pdf"]),
                **{peer: process([*words, files[0]]) for peer, (words, files) in peers.items()},
            },
            5,
        )
        batch = {
            "sheetgen": seconds(process([*PROGRAM, "print", *ours, "--out", folder])) / BATCH,
            **{
                peer: seconds(process([*words, *files])) / BATCH
                for peer, (words, files) in peers.items()
            },
        }
    for what, found, goal in (
        ("one sheet as a process", single, GOAL_SINGLE),
        (f"a sheet of {BATCH}", batch, GOAL_BATCH),
    ):
        rows_ = [(peer, 1000 * s, s / found["sheetgen"], goal) for peer, s in found.items()]
        table((what, "ms", "times ours", "goal"), rows_)


if __name__ == "__main__":
    main()
