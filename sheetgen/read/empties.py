"""Values that are not there: takes the key that waits for one, says what became of the value.

It may have been taken for a remark, or for a key of its own where a comma or a space went wrong.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from sheetgen.diagnostics import Path, Span
from sheetgen.read import syntax
from sheetgen.read.causes import no_space, told_no_space
from sheetgen.read.findings import CURLY, Findings, straight
from sheetgen.read.frames import Open
from sheetgen.read.syntax import Plain
from sheetgen.read.tree import Refused, Text

_COLON = re.compile(r"\s*:")
_VALUE = re.compile(r"[^{}\[\]]*?(?=,\s*[^\W\d][\w -]*:\s|[{}\[\]]|$)")
"""Up to the next key or bracket."""
_REMARK = re.compile(r"[ \t]*#")


def tell_empty(
    frame: Open, span: Span, path: Path, lines: Sequence[str], findings: Findings
) -> None:
    """Note that no value stands at ``span``, where the next value of ``frame`` should."""
    key = frame.key
    line = lines[span.line - 1]
    remark = _REMARK.match(line, span.column - 1) is not None
    if key is None and not frame.is_list:
        _tell(findings, syntax.NO_KEY, span, path)
    elif not isinstance(key, Text):
        _tell(findings, syntax.REMARK_ONLY if remark else syntax.EMPTY, span, path)
    elif span == key.span or remark or _has_colon(key, lines):
        plain = syntax.REMARK_ONLY if remark else syntax.EMPTY
        _tell(findings, _no_value(plain, key), key.span, path)
    else:
        _lone_key(frame, key, path, lines, findings)


def _lone_key(frame: Open, key: Text, path: Path, lines: Sequence[str], findings: Findings) -> None:
    """A lone key in braces that is none: ``fibre:wool``, or the end of ``50 g, 210 m``.

    The key or value to which it belongs is taken as read, so that nothing follows from it.
    """
    if pair := no_space(key.value):
        _tell(findings, told_no_space(*pair), key.span, path)
        if pair[0] not in frame.pairs:
            frame.key = Text(pair[0], key.span)
        return
    before, node = next(reversed(frame.pairs.values()), (key, None))
    if isinstance(node, Text) and (key.value[0].isdigit() or node.value.startswith(CURLY)):
        rest = lines[node.span.line - 1][node.span.column - 1 :]
        whole = match[0].rstrip() if (match := _VALUE.match(rest)) else node.value
        code, message, *_ = syntax.COMMA_UNQUOTED
        findings.error(
            code,
            message,
            (*path[:-1], before.value),
            span=Span(node.span.line, node.span.column, len(whole)),
            given=whole,
            hint=f"put it in straight quotes: {straight(whole)}",
        )
        frame.pairs[before.value] = (before, Refused(node.span))
        frame.cut = True
    elif not frame.cut:
        _tell(findings, _no_value(syntax.COMMA_IN_BRACES, key), key.span, path)


def _no_value(plain: Plain, key: Text) -> Plain:
    return plain._replace(message=f"“{key.value[:60]}” has no value")


def _has_colon(key: Text, lines: Sequence[str]) -> bool:
    after = key.span.column - 1 + key.span.length
    return _COLON.match(lines[key.span.line - 1], after) is not None


def _tell(findings: Findings, plain: Plain, span: Span, path: Path) -> None:
    findings.error(plain.code, plain.message, path, span=span, hint=plain.hint)
