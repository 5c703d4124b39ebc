"""What a PDF carries: takes its bytes, gives the files attached to it by name."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO

from pypdf import PdfReader
from pypdf.errors import PyPdfError

MOST_ATTACHED = 4_000_000
"""An attachment larger than this is no description, bytes."""


def attached(pdf: bytes) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of every attached file, in the order of the PDF. ValueError if it is none."""
    try:
        reader = PdfReader(BytesIO(pdf))
        for file in reader.attachment_list:
            content = bytes(file.content)
            if len(content) <= MOST_ATTACHED:
                yield file.name, content
    except (PyPdfError, OSError, KeyError, TypeError, AttributeError, RecursionError) as problem:
        raise ValueError(str(problem)) from problem
