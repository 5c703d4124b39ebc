"""Files to be kept: takes a document about to be written, gives it what ISO 19005-3 asks for.

That is PDF/A-3, conformance B. The numbers of clauses are those of ISO 19005-3:2012 (from memory).
reportlab writes the rest: embedded fonts, no encryption, nothing outside the file.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import md5
from typing import Any

from reportlab.pdfbase.pdfdoc import (
    NoEncryption,
    PDFArray,
    PDFCatalog,
    PDFDictionary,
    PDFName,
    PDFObject,
    PDFStream,
    PDFString,
    PDFZCompress,
    pdfdocEnc,
)

from sheetgen.draw.fonts import one_line
from sheetgen.draw.metadata import SheetInfo, moment_of, xmp_stream
from sheetgen.draw.profile import NAME, srgb

_KEYS = ("OutputIntents", "AF")
"""What the catalog has to know beyond reportlab's own keys."""


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file to travel inside the PDF: its bytes are what the sheet was made from."""

    name: str
    data: bytes
    media_type: str = "application/yaml"
    """RFC 9512."""


def make_archival(document: Any, attachments: tuple[Attachment, ...]) -> None:
    """Add all that is missing to reportlab's ``document``, just before it is written."""
    document.encrypt = _Streams(document.signature)
    document.info = SheetInfo(document.info)
    catalog = document.Catalog
    catalog.__NoDefault__ = (*PDFCatalog.__NoDefault__, *_KEYS)
    catalog.Metadata = xmp_stream(document, document.info)  # 6.6.2
    catalog.OutputIntents = PDFArray([_output_intent(document)])  # 6.2.3
    if not attachments:
        return
    # 6.8: a file inside is named by the catalog's tree of names and by its list of relations.
    made = {each.name: document.Reference(_specification(document, each)) for each in attachments}
    names = list[Any]()
    for name in sorted(made, key=_key):
        names += [PDFString(_key(name), enc="raw"), made[name]]
    catalog.Names = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": PDFArray(names)})})
    catalog.AF = PDFArray(list(made.values()))


class _Streams(NoEncryption):  # type: ignore[misc]
    """Sees the bytes of every stream on their way into the file, where others would encrypt.

    The line end before ``endstream`` stands outside the length (6.1.7.1), which reportlab leaves
    out; and the file's identity (6.1.3) is a digest of all that is in it.
    """

    def __init__(self, signature: Any) -> None:
        self._signature = signature

    def encode(self, content: bytes | str) -> _Stream:
        """The same bytes, and the line end."""
        data: bytes = pdfdocEnc(content)
        self._signature.update(data)
        return _Stream(data)


class _Stream(PDFObject):  # type: ignore[misc]
    def __init__(self, data: bytes) -> None:
        self._data = data

    def __len__(self) -> int:
        return len(self._data)

    def format(self, document: Any) -> bytes:
        return self._data + b"\n"


def _output_intent(document: Any) -> PDFDictionary:
    """What the colours of the file are meant to look like: sRGB."""
    profile = PDFStream(PDFDictionary({"N": 3}), srgb(), [PDFZCompress])
    return PDFDictionary(
        {
            "Type": PDFName("OutputIntent"),
            "S": PDFName("GTS_PDFA1"),
            "OutputConditionIdentifier": PDFString(NAME),
            "Info": PDFString(NAME),
            "DestOutputProfile": document.Reference(profile),
        }
    )


def _specification(document: Any, attachment: Attachment) -> PDFDictionary:
    """A file inside: its bytes, and that they are the source of the sheet."""
    data = attachment.data
    checksum = md5(data, usedforsecurity=False).hexdigest()  # ISO 32000-1, table 46: MD5
    told = {
        "Size": len(data),
        "CheckSum": f"<{checksum}>",
        "ModDate": PDFString(moment_of(document)),
    }
    kind = {
        "Type": PDFName("EmbeddedFile"),
        "Subtype": "/" + attachment.media_type.replace("/", "#2F"),
        "Params": PDFDictionary(told),
    }
    stream = document.Reference(PDFStream(PDFDictionary(kind), data, [PDFZCompress]))
    name = one_line(attachment.name)
    return PDFDictionary(
        {
            "Type": PDFName("Filespec"),
            "F": PDFString(name),
            "UF": PDFString(name),
            "AFRelationship": PDFName("Source"),
            "EF": PDFDictionary({"F": stream, "UF": stream}),
        }
    )


def _key(name: str) -> bytes:
    """The name in the tree of names, which is sorted by bytes."""
    return b"\xfe\xff" + one_line(name).encode("utf-16-be")
