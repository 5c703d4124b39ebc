"""What the tests of keeping share: sheets printed with a description inside. All is invented."""

from __future__ import annotations

from typing import Any

import pytest

from sheetgen.archive.booklet import fold
from sheetgen.draw.archival import Attachment
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document, Figure, Heading, PageBreak, Para, Run
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import Picture

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


@pytest.fixture(scope="session", params=["sheet", "booklet"])
def kept(request: pytest.FixtureRequest, sheets: dict[str, bytes]) -> bytes:
    """Each of them in turn."""
    found: bytes = sheets[request.param]
    return found
