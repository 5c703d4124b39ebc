"""The file itself: sound, complete in itself, the same every time."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys

import pypdf
import pytest

from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Boxed, Figure, Heading, PageBreak, Para, Run, Step, Table
from sheetgen.layout.shapes import PATTERNS, Fill, Picture, Rect, Text


@pytest.fixture
def full(sheet):
    runs = (Run("plain "), Run("bold", True), Run(" ā Ω Я ⌀"))
    cells = tuple(
        Rect(6.0 * i, 0.0, 5.0, 5.0, fill=Fill("#ccaa88", p)) for i, p in enumerate(PATTERNS)
    )
    shapes = (*cells, Text(0.0, 12.0, "turned", turn=30.0), Text(30.0, 12.0, "bold", bold=True))
    return sheet(
        Heading("One"),
        Para(runs),
        Step(runs, "1"),
        Heading("One"),
        Table((runs,), ((runs,),), (1.0,), True),
        Boxed((Figure(Picture(80.0, 15.0, shapes, True), runs),), "Title"),
        author="A. Maker",
        subject="Sheets",
        keywords=("band", "cord"),
        language="de-DE",
        date="2024-05-01",
    )


def _fonts(page):
    """Every font that a page or a form on it names."""
    resources = page["/Resources"].get_object()
    yield from (f.get_object() for f in resources.get("/Font", {}).get_object().values())
    for form in resources.get("/XObject", {}).values():
        if "/Resources" in form.get_object():
            yield from _fonts(form.get_object())


def test_every_font_is_in_the_file(full):
    reader = pypdf.PdfReader(io.BytesIO(render(full)))
    fonts = [font for page in reader.pages for font in _fonts(page)]
    everywhere = [o for n in range(1, len(reader.xref[0]) + 1) for o in [reader.get_object(n)] if o]
    fonts += [o for o in everywhere if isinstance(o, dict) and o.get("/Type") == "/Font"]
    assert fonts
    for font in fonts:
        assert "DejaVu" in font["/BaseFont"]
        assert "/FontFile2" in font["/FontDescriptor"].get_object()


def test_the_file_says_what_it_is(full):
    reader = pypdf.PdfReader(io.BytesIO(render(full)))
    info, root = reader.metadata, reader.trailer["/Root"]
    assert reader.pdf_header == "%PDF-1.7"
    assert info.title == full.title
    assert (info.author, info.subject, info["/Keywords"]) == ("A. Maker", "Sheets", "band, cord")
    assert info.creation_date.date().isoformat() == "2024-05-01"
    assert root["/Lang"] == "de-DE"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] == True  # noqa: E712
    assert reader.page_labels == [str(i + 1) for i in range(len(reader.pages))]
    assert [item.title for item in reader.outline] == ["One", "One"]
    tops = [item["/Top"] for item in reader.outline]
    assert tops[0] > tops[1]  # geometry: the second heading stands lower


def test_the_header_counts_all_pages(sheet, read_back):
    pages = read_back(render(sheet(*(Para((Run("word " * 900),)) for _ in range(4)))))
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page.extract_text()


def test_a_long_name_keeps_clear_of_the_page_number(sheet, read_back):
    (page,) = read_back(render(sheet(header="Brocaded band from the bog " * 10, paper="A5")))
    words = page.extract_text_lines()[0]["text"]
    assert "…" in words
    assert words.endswith("page 1 of 1")
    assert "Loom sheet" in words


def test_the_same_document_gives_the_same_bytes(full):
    assert render(full) == render(full)


_SCRIPT = """
import hashlib
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import Document, Figure, Heading, Para, Run
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import PATTERNS, Fill, Picture, Rect
cells = tuple(Rect(6.0 * i, 0, 5, 5, fill=Fill("#ccaa88", p)) for i, p in enumerate(PATTERNS))
blocks = (Heading("H"), Para((Run("a"), Run("b", True))), Figure(Picture(80, 9, cells, True)))
document = Document("t", "s", "h", "v", PAPERS["A4"], blocks, "{page}/{pages}", "x", "y")
print(hashlib.sha256(render(document)).hexdigest())
"""


def _in_another_process(**changes):
    environment = {k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"} | changes
    done = subprocess.run(
        [sys.executable, "-c", _SCRIPT], env=environment, capture_output=True, check=True, text=True
    )
    return done.stdout


def test_the_same_bytes_in_every_process_at_any_time():
    first = _in_another_process(PYTHONHASHSEED="1", TZ="Asia/Tokyo")
    assert first == _in_another_process(PYTHONHASHSEED="2", TZ="America/Lima")


def test_the_date_of_the_build_is_honoured(sheet, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    reader = pypdf.PdfReader(io.BytesIO(render(sheet())))
    # published: the SOURCE_DATE_EPOCH specification counts seconds from 1970-01-01 UTC
    assert reader.metadata.creation_date.date().isoformat() == "1970-01-02"
    dated = pypdf.PdfReader(io.BytesIO(render(sheet(date="2021-03-04"))))
    assert dated.metadata.creation_date.date().isoformat() == "2021-03-04"


@pytest.mark.parametrize("given", ["yesterday", "", "9" * 30, "1e9"])
def test_a_date_of_the_build_that_is_none_does_no_harm(sheet, monkeypatch, given):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    without, dated = render(sheet()), render(sheet(date="2021-03-04"))
    monkeypatch.setenv("SOURCE_DATE_EPOCH", given)
    assert render(sheet()) == without
    assert render(sheet(date="2021-03-04")) == dated
    assert os.environ["SOURCE_DATE_EPOCH"] == given


def test_bookmarks_lead_to_their_pages(sheet):
    parts = [block for i in range(4) for block in (PageBreak(), Heading(f"Part {i}"))]
    reader = pypdf.PdfReader(io.BytesIO(render(sheet(*parts))))
    assert [reader.get_destination_page_number(item) for item in reader.outline] == [0, 1, 2, 3]
    assert [f"Part {i}" in page.extract_text() for i, page in enumerate(reader.pages)] == [True] * 4


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_the_file_is_sound(full, tmp_path):
    path = tmp_path / "sheet.pdf"
    path.write_bytes(render(full))
    done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING" not in done.stdout + done.stderr


def test_a_sheet_of_eight_pages_stays_small(sheet):
    boxes = tuple(Rect(i % 25 * 6.5, i // 25 * 7.0, 5.0, 5.0) for i in range(600))
    numbers = tuple(Text(i % 25 * 6.5, i // 25 * 7.0 + 4.0, str(i), 8.0) for i in range(600))
    page = Figure(Picture(170.0, 175.0, boxes + numbers), (Run("Turning"),))
    assert len(render(sheet(*(page for _ in range(8))))) < 150_000
