"""Bytes to text: takes the bytes of a file, gives text, or says what is wrong."""

from __future__ import annotations

import codecs
import re
import unicodedata

from sheetgen.diagnostics import Span
from sheetgen.read.findings import Findings

MOST_BYTES = 500_000

INVISIBLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")
"""What does not belong in a text; U+2028 and U+2029 would count as line ends, U+FEFF hides."""

_OTHER_FILES = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"RIFF", "a picture or a sound"),
    (b"PK\x03\x04", "a packed file, as word processors and spreadsheets write it"),
    (b"\xd0\xcf\x11\xe0", "a file of a word processor or spreadsheet"),
    (b"{\\rtf", "a file of a word processor (RTF)"),
    (b"\x1f\x8b", "a packed file"),
    (b"\x7fELF", "a program"),
)
"""First bytes of what is likely to lie beside a description."""

_HARD = "\xa0\u1680\u2000-\u200a\u202f\u205f\u3000"
_HARD_SPACE = re.compile(
    rf"^[ \t]*+(?P<margin>[{_HARD}][ {_HARD}]*+)"
    rf"|(?:^|[{{,])[ \t]*+(?:- ++)?[^\W\d][\w -]*+:(?P<colon>[ ]*+[{_HARD}][ {_HARD}]*+)",
    re.MULTILINE,
)
"""Spaces that only look like one, where the place of a space decides what is meant.

Nothing in it goes back (``*+``), so that a long line takes its length and not the square of it.
"""

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
    if what := _other_file(data):
        hint = "a description is a plain text file, as a text editor writes it"
        findings.error("not-a-text", f"this is {what}, not a description", hint=hint)
        return None
    if name := _wide_encoding(data):
        _wrong_encoding(findings, f"the file is {name}, not UTF-8", None)
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
    return _without_hard_spaces(_without_invisible(text, findings), findings)


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


def _other_file(data: bytes) -> str | None:
    """What a file is that is no text, as far as its first bytes tell."""
    for start, what in _OTHER_FILES:
        if data.startswith(start):
            return what
    return None


def _wrong_encoding(findings: Findings, message: str, span: Span | None) -> None:
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


def _without_hard_spaces(text: str, findings: Findings) -> str:
    """Each such space told and taken for a plain one, so that nothing follows from it."""
    for told, found in enumerate(_HARD_SPACE.finditer(text)):
        if told == _MOST_TOLD:
            break
        name = found.lastgroup or "margin"
        where = "indentation" if name == "margin" else "space after the colon"
        start, end = found.span(name)
        column = start - text.rfind("\n", 0, start)
        findings.error(
            "no-break-space",
            f"the {where} is a no-break space, which is not a plain space",
            span=Span(text.count("\n", 0, start) + 1, column, end - start),
            hint="delete it and press the space bar: it may have come along when copying",
        )
    return _HARD_SPACE.sub(_with_plain_spaces, text)


def _with_plain_spaces(found: re.Match[str]) -> str:
    hard = found[found.lastgroup or 0]
    return found[0].replace(hard, " " * len(hard))
