"""What the tests of keeping share: sheets printed with a description inside. All is invented."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from sheetgen.archive.booklet import fold
from sheetgen.cli.main import main
from sheetgen.draw.archival import Attachment
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document, Figure, Heading, PageBreak, Para, Run
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import Picture

EXAMPLES = Path(__file__).parents[2] / "example_projects"
MADE_UP = ("sheet", "booklet")
BY_COMMAND = (
    "ferry-cross-string-loom.pdf", "ferry-cross-string-record.pdf", "town-day-workshop-kit.pdf",
    "ferry-cross-string-cutouts.pdf", "town-day-workshop-organiser.pdf",
    "ferry-cross-string-choice.pdf", "SW-015.pdf", "register.pdf",
)  # fmt: skip
TITLE = "Laces & <cords> ā (Зимний)"
DESCRIPTION = "piece: Läce № 7\r\n# (kept) as written\n".encode()
TEMPLATE = b"words:\n  title: Mine\n"


def printed(**fields: Any) -> bytes:
    bar = Figure(Picture(20.0, 20.0, (), true_scale=True))
    blocks = [
        block
        for n in range(3)
        for block in (PageBreak(), Heading(f"Part {n}"), Para((Run("ā thread"),)), bar)
    ]
    given: dict[str, Any] = {
        "author": "A. Maker & daughter",
        "subject": "Sheets",
        "keywords": ("lace", "cord"),
        "language": "de-DE",
        "date": "2024-05-01",
    }
    document = Document(
        TITLE, "s", "h", "v", PAPERS["A5"], tuple(blocks), "{page}/{pages}", "x", "y",
        **(given | fields),
    )  # fmt: skip
    inside = (Attachment("Läce (7).yaml", DESCRIPTION), Attachment("loom.yaml", TEMPLATE))
    return render(document, inside)


@pytest.fixture(scope="session")
def sheets() -> dict[str, bytes]:
    """A sheet as it is printed and as a booklet, each with a description and a template inside."""
    plain = printed()
    return {"sheet": plain, "booklet": fold(plain)}


@pytest.fixture(scope="session")
def printed_by_command(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Every kind of PDF that a command writes, of descriptions whose finds are invented."""
    folder = tmp_path_factory.mktemp("by-command")
    pieces = folder / "pieces"
    shutil.copytree(EXAMPLES, pieces)
    filled, kit = pieces / "ferry-cross-string.yaml", pieces / "town-day-workshop.yaml"

    def run(*arguments: object) -> None:
        done = CliRunner().invoke(main, [str(each) for each in arguments])
        assert done.exit_code == 0, done.output

    for sheet in ("loom", "record", "kit", "cutouts"):
        run("print", kit if sheet == "kit" else filled, "--sheet", sheet, "--out", folder)
    run("kits", kit, "--out", folder)
    stash = pieces / "sedgewater-stash.yaml"
    run("print", filled, "--sheet", "choice", "--stash", stash, "--for", "red", "--out", folder)
    run("file", filled, "--in", folder / "filed")
    run("register", folder / "filed", "--out", folder / "register.pdf")
    return {path.name: path.read_bytes() for path in sorted(folder.rglob("*.pdf"))}


@pytest.fixture(scope="session", params=MADE_UP)
def sample(request: pytest.FixtureRequest, sheets: dict[str, bytes]) -> bytes:
    """The sheet and the booklet in turn, of which every word is known."""
    found: bytes = sheets[request.param]
    return found


@pytest.fixture(scope="session", params=[*MADE_UP, *BY_COMMAND])
def kept(request: pytest.FixtureRequest, sheets: dict[str, bytes]) -> bytes:
    """These and every kind of PDF that a command writes, in turn."""
    if request.param in MADE_UP:
        return sheets[request.param]
    found: bytes = request.getfixturevalue("printed_by_command")[request.param]
    return found
