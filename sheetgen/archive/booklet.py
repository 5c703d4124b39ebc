"""Booklets: takes a PDF of pages, gives one of larger sheets that fold into them.

Pages are placed at 100 %, so what is at true scale stays so. What the file says of itself stays
too: title and date, language, bookmarks, and that no viewer shall scale it.
"""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO
from typing import Any

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    ByteStringObject,
    DecodedStreamObject,
    DictionaryObject,
    NameObject,
    RectangleObject,
)

WIDTH, HEIGHT = 297.0, 210.0
"""The sheet to fold, mm: A4 turned on its side (ISO 216)."""
_POINTS = 72 / 25.4
_KEPT = ("/Lang", "/Metadata", "/OutputIntents", "/Names", "/AF")
"""Entries of the catalog that stay: among them all that draw/archival.py adds."""

Side = tuple[int | None, int | None]


def folding_order(pages: int) -> list[Side]:
    """Which page is at the left and right of each side, from 1; None is a blank.

    The sheets lie in one another and are sewn or stapled through the fold: front and back of the
    outermost first. Turned over the short edge, the back shows what follows the front.

    >>> folding_order(8)
    [(8, 1), (2, 7), (6, 3), (4, 5)]
    >>> folding_order(5)
    [(None, 1), (2, None), (None, 3), (4, 5)]
    """
    most = -(-pages // 4) * 4
    found = []
    for first in range(1, most // 2, 2):
        last = most + 1 - first
        found += [(last, first), (first + 1, last - 1)]
    return [_without_blanks(side, pages) for side in found]


def _without_blanks(side: tuple[int, int], pages: int) -> Side:
    left, right = (page if page <= pages else None for page in side)
    return left, right


def fold(pdf: bytes) -> bytes:
    """Place the pages two by two on sides of A4 for folding; the same bytes give the same."""
    reader, writer = PdfReader(BytesIO(pdf)), PdfWriter()
    writer.pdf_header = "%PDF-1.7"
    forms = [writer._add_object(_form(page, writer)) for page in reader.pages]
    sides = folding_order(len(forms))
    for number, side in enumerate(sides):
        _add_side(writer, reader, forms, side)
        named = " · ".join("–" if page is None else str(page) for page in side)
        writer.set_page_label(number, number, prefix=named)
    _copy_bookmarks(reader, writer, sides)
    _copy_what_it_says(reader, writer)
    identity = ByteStringObject(sha256(pdf).digest()[:16])
    writer._ID = ArrayObject((identity, identity))
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _form(page: PageObject, writer: PdfWriter) -> Any:
    """A page as a drawing that can be placed."""
    content = page.get_contents()
    stream = DecodedStreamObject()
    stream.set_data(b"" if content is None else content.get_data())
    form = stream.flate_encode()
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = RectangleObject(tuple(page.mediabox))
    resources: Any = page["/Resources"].get_object()
    form[NameObject("/Resources")] = resources.clone(writer)
    return form


def _add_side(writer: PdfWriter, reader: PdfReader, forms: list[Any], side: Side) -> None:
    """One side: the left page ends at the fold, the right one starts there."""
    placed, used = [], DictionaryObject()
    for page, name in zip(side, ("/L", "/R"), strict=True):
        if page is None:
            continue
        box = reader.pages[page - 1].mediabox
        across = WIDTH / 2 * _POINTS - (float(box.width) if name == "/L" else 0.0)
        up = (HEIGHT * _POINTS - float(box.height)) / 2
        placed.append(f"q 1 0 0 1 {across:.4f} {up:.4f} cm {name} Do Q")
        used[NameObject(name)] = forms[page - 1]
    content = DecodedStreamObject()
    content.set_data("\n".join(placed).encode("ascii"))
    sheet = writer.add_blank_page(round(WIDTH * _POINTS, 4), round(HEIGHT * _POINTS, 4))
    sheet[NameObject("/Contents")] = writer._add_object(content)
    sheet[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): used})


def _copy_bookmarks(reader: PdfReader, writer: PdfWriter, sides: list[Side]) -> None:
    """The reader's contents lead to the side that has the page."""
    for item in reader.outline:
        if isinstance(item, list):
            continue  # only parts of a sheet have bookmarks, and those stand side by side
        page = reader.get_destination_page_number(item)
        if page is not None and item.title:
            side = next(i for i, pages in enumerate(sides) if page + 1 in pages)
            writer.add_outline_item(title=item.title, page_number=side)


def _copy_what_it_says(reader: PdfReader, writer: PdfWriter) -> None:
    """Title, author, date, language, what makes it fit to be kept, and how to show and print it."""
    writer.metadata = reader.metadata
    root: Any = writer.root_object
    old: Any = reader.trailer["/Root"].get_object()
    for key in _KEPT:
        if key in old:
            root[NameObject(key)] = old.raw_get(key).clone(writer)
    wishes = old.get("/ViewerPreferences", DictionaryObject()).get_object().clone(writer)
    wishes[NameObject("/Duplex")] = NameObject("/DuplexFlipShortEdge")
    root[NameObject("/ViewerPreferences")] = wishes
