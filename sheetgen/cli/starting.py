"""A new description: takes a form and answers, gives the starting text with the answers in it.

The starting texts are descriptions themselves, ``templates/new/FORM.yaml``, so that a guild may
edit them; an answer goes to where its key stands, and the remarks stay.
"""

from __future__ import annotations

import json
import re

from sheetgen.diagnostics import Diagnostic, Path
from sheetgen.read import read_description
from sheetgen.read.findings import Findings
from sheetgen.read.nodes import parse
from sheetgen.read.tree import Pairs, Text


def default(text: str, path: Path) -> str:
    """What stands at a path of a starting text; empty where its line is a remark."""
    node = parse(text.encode("utf-8", "replace"), Findings())
    for key in path:
        pairs = node.pairs if isinstance(node, Pairs) else ()
        node = next((value for k, value in pairs if k.value == key), None)
    return node.value if isinstance(node, Text) else ""


def put(text: str, path: Path, answer: str, instead: Path = ()) -> str:
    """The text with an answer at ``path``; at the line of ``instead`` where another key is meant.

    A line that was a remark becomes a line of its own. ValueError if there is no such line (a bug).
    """
    number, line = _line(text, instead or path)
    key = str(path[-1])
    margin = line[: len(line) - len(line.lstrip())]
    lines = text.split("\n")
    for written in (answer, json.dumps(answer, ensure_ascii=False)):
        lines[number] = f"{margin}{key}: {written}"
        filled = "\n".join(lines)
        if default(filled, path) == answer:
            break
    return filled


def _line(text: str, path: Path) -> tuple[int, str]:
    """The number and the text of the line of a path; a remark's line without its mark."""
    lines = text.split("\n")
    read = read_description(text.encode("utf-8", "replace"))
    if span := read.spans.get(path):
        return span.line - 1, lines[span.line - 1]
    for number, line in enumerate(lines):
        if match := re.fullmatch(rf"(\s*)# ({re.escape(str(path[-1]))}: \S.*)", line):
            return number, match[1] + match[2]
    raise ValueError(f"no line for {path}")


def faults(text: str, path: Path) -> tuple[Diagnostic, ...]:
    """The mistakes that the reader finds at a path or below it: those of an answer."""
    read = read_description(text.encode("utf-8", "replace"))
    line = read.spans[path].line if path in read.spans else 0
    return tuple(
        d
        for d in read.diagnostics
        if d.is_error and (d.path[: len(path)] == path or (d.span and d.span.line == line))
    )
