"""Where a mistake was made: takes the parser's complaint and the lines, gives words and place.

The parser says where it broke off; an unclosed quote or bracket was opened long before, a colon
without its space joins two lines. What a line shows of that is looked for here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import NamedTuple

import yaml

from sheetgen.diagnostics import Span
from sheetgen.read import syntax
from sheetgen.read.frames import Mark
from sheetgen.read.syntax import Plain, in_plain_words

_KEY = re.compile(r"\s*(?:- +)?[^\W\d][\w -]*:(?:\s|$)")
_NO_SPACE = re.compile(r"\s*(?:- +)?(?P<whole>(?P<key>[^\W\d][\w -]*):(?![/:])(?P<value>\S.*))")
_HASHED = re.compile(r"#\S*?(?=[\s,}\]]|$)")


class Cause(NamedTuple):
    """What is wrong, in plain words, and where to look."""

    plain: Plain
    span: Span


def causes(problem: yaml.MarkedYAMLError, lines: Sequence[str], opened: Mark | None) -> list[Cause]:
    """The mistakes behind a complaint of the parser; one, unless several lines share it.

    ``opened`` is where the innermost list or mapping that is still open began.
    """
    plain = in_plain_words(problem.context or "", problem.problem or "")
    broke = problem.problem_mark or problem.context_mark
    if broke is None:
        return [Cause(plain, Span(1, 1))]
    begun: Mark = problem.context_mark or broke
    if opened is not None and "found '<stream end>'" in (problem.problem or ""):
        plain, begun = syntax.BRACKET, opened
    if quote := _open_quote(lines, broke.line):
        return [Cause(syntax.QUOTE, quote)]
    if plain.code in ("second-colon", "no-colon"):
        last = begun.line if plain.code == "no-colon" else broke.line - 1
        if found := _without_space(lines, last):
            return found
    if plain.code == "second-colon" and (deeper := _set_in_deeper(lines, broke)):
        return [Cause(syntax.SET_IN_DEEPER, deeper)]
    if plain.code == "bracket" and (remark := _closing_remark(lines, begun.line, broke.line)):
        return [Cause(syntax.LOST_END, remark)]
    if plain.code == "indentation":
        for mark in (broke, begun):
            if _line(lines, mark.line).lstrip().startswith("- "):
                return [Cause(syntax.DASH_AMONG_KEYS, Span(mark.line + 1, mark.column + 1))]
    mark = begun if plain.at_start else broke
    return [Cause(plain, Span(mark.line + 1, mark.column + 1))]


def no_space(text: str) -> tuple[str, str] | None:
    """Key and value of ``fibre:wool``, where a space is wanting after the colon.

    >>> no_space("fibre:wool"), no_space("12:30")
    (('fibre', 'wool'), None)
    """
    match = _NO_SPACE.fullmatch(text)
    return (match["key"], match["value"]) if match else None


def told_no_space(key: str, value: str) -> Plain:
    """The plain words for ``fibre:wool``."""
    word = value.split(",")[0][:40].strip()
    return syntax.NO_SPACE._replace(hint=f"put a space after the colon: {key}: {word}")


def _without_space(lines: Sequence[str], last: int) -> list[Cause]:
    """The lines, up to ``last``, that lack the space after their colon and so run together."""
    while last > 0 and not _line(lines, last).strip():
        last -= 1
    back = ((i, _NO_SPACE.fullmatch(_line(lines, i).rstrip())) for i in range(last, -1, -1))
    found = []
    for i, match in takewhile(lambda pair: pair[1] is not None, back):
        if match is None or ": " in match["value"]:
            break
        plain = told_no_space(match["key"], match["value"])
        found.append(Cause(plain, Span(i + 1, match.start("whole") + 1, len(match["whole"]))))
    return found


def _set_in_deeper(lines: Sequence[str], broke: Mark) -> Span | None:
    """A line with a key, set in below a line that has key and value."""
    line = _line(lines, broke.line)
    before = next((text for text in reversed(lines[: broke.line]) if text.strip()), "")
    key, above = _KEY.match(line), _KEY.match(before)
    margin = len(line) - len(line.lstrip())
    if not (key and above) or key.end() != broke.column + 2:
        return None
    deeper = margin > len(before) - len(before.lstrip()) and before[above.end() :].strip()
    return Span(broke.line + 1, margin + 1) if deeper else None


def _open_quote(lines: Sequence[str], broke: int) -> Span | None:
    """A quote that was opened and runs over lines with keys, to where the reading broke off."""
    number = 0
    while number <= min(broke, len(lines) - 1):
        column = _parted(lines[number]).quote
        if column is None:
            number += 1
            continue
        mark = lines[number][column]
        rest = range(number + 1, len(lines))
        closing = next((i for i in rest if mark in lines[i]), None)
        over = lines[number + 1 : closing + 1 if closing is not None else len(lines)]
        if closing in (None, broke) and (closing is None or any(map(_KEY.match, over))):
            return Span(number + 1, column + 1)
        number = len(lines) if closing is None else closing + 1
    return None


def _closing_remark(lines: Sequence[str], first: int, last: int) -> Span | None:
    """A ``#`` whose remark swallows the closing bracket."""
    for number in range(first, min(last, len(lines) - 1) + 1):
        column = _parted(lines[number]).remark
        if column is not None and re.search(r"[}\]]", lines[number][column:]):
            word = _HASHED.match(lines[number], column)
            return Span(number + 1, column + 1, len(word[0]) if word else 1)
    return None


class _Parted(NamedTuple):
    """Columns, from 0, at which a remark begins and at which a quote opens that stays open."""

    remark: int | None = None
    quote: int | None = None


def _parted(line: str) -> _Parted:
    starts = True  # a value may begin here
    skip = 0
    for i, character in enumerate(line):
        if i < skip or character in " \t":
            continue
        if character == "#" and (i == 0 or line[i - 1] in " \t"):
            return _Parted(remark=i)
        if starts and character in "\"'":
            end = next(_closings(line, i), None)
            if end is None:
                return _Parted(quote=i)
            skip, starts = end + 1, False
            continue
        before_space = line[i + 1 : i + 2] in ("", " ", "\t")
        starts = character in "[{," or (character in ":-" and before_space)
    return _Parted()


def _closings(line: str, opened: int) -> Iterator[int]:
    """Where the quote opened at a column may close: not at a doubled or an escaped mark."""
    mark = line[opened]
    pattern = r"(?:[^\\\"]|\\.)*\"" if mark == '"' else r"(?:[^']|'')*'(?!')"
    if match := re.compile(pattern).match(line, opened + 1):
        yield match.end() - 1


def _line(lines: Sequence[str], number: int) -> str:
    return lines[number] if 0 <= number < len(lines) else ""
