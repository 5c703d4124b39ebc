"""Bytes to text: takes the bytes of a file, gives text, or says what is wrong."""

from __future__ import annotations

import codecs
import re
import unicodedata

from sheetgen.diagnostics import Span
from sheetgen.read.findings import Findings

MOST_BYTES = 2_000_000

INVISIBLE = re.compile(
    r"[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
"""What does not belong in a text; U+2028 and U+2029 would count as line ends, U+FEFF hides."""

_MOST_TOLD = 10
_LONGEST_COMPOSED = 1000


def decoded(data: bytes, findings: Findings) -> str | None:
    """The text, with plain line ends; None, with an error found, when it cannot be read.

    Control characters are told and replaced, so that the rest can still be looked through.
    """
    if len(data) > MOST_BYTES:
        findings.error(
            "too-large",
            "the file is far larger than a description can be",
            span=Span(1, 1),
            given=f"{len(data)} bytes",
            allowed=f"up to {MOST_BYTES} bytes",
            hint="is it the right file?",
        )
        return None
    if name := _wide_encoding(data):
        _wrong_encoding(findings, f"the file is {name}, not UTF-8", Span(1, 1))
        return None
    data = data.removeprefix(codecs.BOM_UTF8).replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as problem:
        before = data[: problem.start].decode("utf-8")
        _wrong_encoding(
            findings,
            "the file is not UTF-8: a character cannot be read",
            Span(before.count("\n") + 1, len(before) - before.rfind("\n")),
        )
        return None
    return _without_invisible(text, findings)


def composed(text: str) -> str:
    """The text with é as one character, so that a name is found however it was typed.

    Long texts are no names, and normalising can take the square of their length.
    """
    if text.isascii() or len(text) > _LONGEST_COMPOSED:
        return text
    return unicodedata.normalize("NFC", text)


def _wide_encoding(data: bytes) -> str | None:
    """The name of an encoding with more than one byte for every letter, if it is one."""
    if data.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        return "UTF-32"
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "UTF-16"
    # without a mark: every other byte of plain letters is nought
    evens, odds = data[0:40:2], data[1:40:2]
    if len(odds) > 1 and (not any(odds) or not any(evens)) and any(data[:40]):
        return "UTF-16"
    return None


def _wrong_encoding(findings: Findings, message: str, span: Span) -> None:
    findings.error(
        "encoding", message, span=span, allowed="UTF-8", hint="save it again, with encoding UTF-8"
    )


def _without_invisible(text: str, findings: Findings) -> str:
    for told, found in enumerate(INVISIBLE.finditer(text)):
        if told == _MOST_TOLD:
            break
        line = text.count("\n", 0, found.start()) + 1
        column = found.start() - text.rfind("\n", 0, found.start())
        findings.error(
            "control-character",
            f"a character that cannot be seen or printed (U+{ord(found[0]):04X})",
            span=Span(line, column),
            hint="delete it: it may have come along when copying",
        )
    return INVISIBLE.sub("\ufffd", text)
