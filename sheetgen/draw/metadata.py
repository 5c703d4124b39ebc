"""What a file says of itself: takes the document information, gives the same as XMP.

Both come from the same words and the same moment, so that they cannot differ.
"""

from __future__ import annotations

from html import escape
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFDate, PDFDictionary, PDFInfo, PDFName, PDFStream, PDFString

_XMP = """\
<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
<pdfaid:part>{part}</pdfaid:part>
<pdfaid:conformance>B</pdfaid:conformance>
{properties}
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>
"""
"""ISO 16684-1, 7.3, in a packet that is not to be changed in place (from memory)."""
PART = 3
"""The part of ISO 19005 that the files follow."""
_ALTERNATIVES = '<rdf:Alt><rdf:li xml:lang="x-default">{}</rdf:li></rdf:Alt>'
_SEQUENCE = "<rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq>"
_PROPERTIES = {
    "Title": ("dc:title", _ALTERNATIVES),
    "Author": ("dc:creator", _SEQUENCE),
    "Subject": ("dc:description", _ALTERNATIVES),
    "Keywords": ("pdf:Keywords", "{}"),
    "Creator": ("xmp:CreatorTool", "{}"),
    "Producer": ("pdf:Producer", "{}"),
    "CreationDate": ("xmp:CreateDate", "{}"),
    "ModDate": ("xmp:ModifyDate", "{}"),
}
"""Entry of the document information -> its property in XMP and the form of the value.

The pairs of ISO 19005-1, 6.7.3, table 1; the later parts let the information go unread."""


class SheetInfo(PDFInfo):  # type: ignore[misc]
    """The document information, without the entries that there is nothing to say in."""

    def __init__(self, info: PDFInfo) -> None:
        super().__init__()
        self.__dict__.update(info.__dict__)

    def words(self) -> dict[str, str]:
        """Every entry but the dates that has something to say."""
        said = {
            "Title": self.title,
            "Author": self.author,
            "Subject": self.subject,
            "Keywords": self.keywords,
            "Creator": self.creator,
            "Producer": self.producer,
        }
        return {name: words for name, words in said.items() if words}

    def format(self, document: Any) -> bytes:
        """The dictionary."""
        date = PDFString(moment_of(document))
        entries = {name: PDFString(words) for name, words in self.words().items()}
        entries |= {"CreationDate": date, "ModDate": date}
        formatted: bytes = PDFDictionary(entries).format(document)
        return formatted


def moment_of(document: Any) -> str:
    """The moment that the whole file bears, as ISO 32000-1, 7.9.4 writes it."""
    date = PDFDate(ts=document._timeStamp, dateFormatter=document.info._dateFormatter)
    text: bytes = date.format(document)
    return text[1:-1].decode("ascii")


def xmp_date(moment: str) -> str:
    """A moment of the document information as XMP writes it.

    >>> xmp_date("D:20260501120000+00'00'")
    '2026-05-01T12:00:00+00:00'
    """
    d = moment[2:]
    zone = d[14:].replace("'", ":").rstrip(":")
    return f"{d[:4]}-{d[4:6]}-{d[6:8]}T{d[8:10]}:{d[10:12]}:{d[12:14]}{zone}"


def xmp_stream(document: Any, info: SheetInfo) -> PDFStream:
    """The metadata of a file, in plain bytes so that any tool finds them."""
    date = xmp_date(moment_of(document))
    said = info.words() | {"CreationDate": date, "ModDate": date}
    lines = []
    for name, words in said.items():
        tag, form = _PROPERTIES[name]
        lines.append(f"<{tag}>{form.format(escape(words, quote=False))}</{tag}>")
    packet = _XMP.format(part=PART, properties="\n".join(lines))
    kind = {"Type": PDFName("Metadata"), "Subtype": PDFName("XML")}
    return PDFStream(PDFDictionary(kind), packet.encode("utf-8"))
