"""What is wrong with a file as YAML, in plain words: takes a complaint, gives sentence and hint."""

from __future__ import annotations

from typing import NamedTuple


class Plain(NamedTuple):
    """One kind of mistake in plain words."""

    code: str
    message: str
    hint: str
    at_start: bool = False
    """True when the place to look at is where the thing began, not where it broke off."""


EMPTY_FILE = Plain("empty-file", "the description is empty", "begin with “piece: ”")
TOO_MANY = Plain(
    "too-large", "far more values than a description can have", "is it the right file?"
)
TOO_DEEP = Plain("too-deep", "brackets or indentation nested far too deep", "take some out")
SECOND_DOCUMENT = Plain(
    "several-documents",
    "a line of dashes begins a second description in this file",
    "one file describes one piece: put the second one in a file of its own",
)
REFERENCE = Plain(
    "reference",
    "words that begin with & or *, and <<, are not used in descriptions",
    "write the value out; put a text that begins with & or * in quotes",
)
TAG = Plain(
    "tag",
    "words that begin with ! are not used in descriptions",
    "take it out; put a text that begins with ! in quotes",
)
UNPRINTABLE = Plain(
    "control-character",
    "a text contains a character that cannot be printed",
    "take out the backslash and what follows it",
)
LOST_COLOUR = Plain(
    "hash-is-remark",
    "a # after a space begins a remark: the colour behind it is not read",
    "put the whole value in quotes: '...'",
)
EMPTY = Plain("empty-value", "no value", "write a value, or take the line out")
REMARK_ONLY = Plain(
    "empty-value", "no value", "a # begins a remark: put a value that starts with # in quotes"
)
COMMA_IN_BRACES = Plain(
    "empty-value",
    "no value",
    "inside { } a comma begins a new key: put a value with a comma in quotes",
)
COMMA_UNQUOTED = Plain(
    "needs-quotes", "inside { } a comma begins a new key", "put the whole value in quotes"
)
NO_SPACE = Plain("no-space", "a colon without a space after it", "put a space after the colon")
LOST_END = Plain(
    "hash-is-remark",
    "a # after a space begins a remark: it swallows the closing bracket too",
    "put the whole value in quotes, e.g. 'dark red #aa1122'",
)
QUOTE = Plain(
    "quote", "a quote is opened and not closed", "close it with the same mark", at_start=True
)
DASH_AMONG_KEYS = Plain(
    "dash",
    "a line that begins with “- ” stands among lines with keys",
    "take the dash away; or begin every line here with one, where a list is wanted",
)
SET_IN_DEEPER = Plain(
    "indentation",
    "this line is set in further than the one above, which has a value already",
    "give lines that belong together the same number of spaces",
)
NO_KEY = Plain("key", "a colon without a key before it", "write “key: value”")
ODD_KEY = Plain("key", "a key must be a word or a line", "write “key: value”")
DUPLICATE = Plain("duplicate-key", "a key is given twice", "keep one of the two")

BRACKET = Plain(
    "bracket",
    "a bracket is opened and not closed, or a comma is missing in it",
    "close it with the same kind of bracket; inside, part the values with commas",
    at_start=True,
)
_STARTS_BADLY = Plain(
    "needs-quotes",
    "a value cannot begin with this character",
    "put the whole value in quotes: '...'",
)
_REFERENCE = Plain(
    "needs-quotes",
    "a value cannot begin with & or *",
    "put the whole value in quotes: '...'",
    at_start=True,
)

_KNOWN: tuple[tuple[str, Plain], ...] = (
    (
        "found character '\\t'",
        Plain("tab", "a tab stands where the indentation is", "indent with spaces only"),
    ),
    (
        "mapping values are not allowed",
        Plain(
            "second-colon",
            "a colon followed by a space stands where none can be",
            "put a value that contains a colon in quotes; check the indentation of this line",
        ),
    ),
    (
        "sequence entries are not allowed",
        Plain(
            "dash",
            "a list cannot begin on this line",
            "put each “- ” on a line of its own below the key, or write [one, two]",
        ),
    ),
    ("expected ',' or", BRACKET),
    ("found unexpected end of stream", QUOTE),
    ("found unexpected document separator", QUOTE),
    (
        "could not find expected ':'",
        Plain("no-colon", "a key without a colon", "write “key: value”", at_start=True),
    ),
    (
        "but found '<scalar>'",
        Plain(
            "after-quote",
            "something stands after the closing quote",
            "put the whole value inside one pair of quotes",
        ),
    ),
    (
        "expected <block end>",
        Plain(
            "indentation",
            "this line stands neither with its neighbours nor inside them",
            "give lines that belong together the same number of spaces",
        ),
    ),
    (
        "expected '<document start>'",
        Plain(
            "indentation",
            "this line stands further left than the first one",
            "begin every key of the piece at the margin, the first one too",
        ),
    ),
    (
        "expected the node content",
        Plain("bracket", "a closing mark without an opening one", "take it out, or use quotes"),
    ),
    ("while scanning an a", _REFERENCE),
    ("cannot start any token", _STARTS_BADLY),
    (
        "unknown escape character",
        Plain(
            "backslash",
            "a backslash inside double quotes has a meaning of its own",
            "use single quotes: '...'",
        ),
    ),
    (
        "escape sequence of",
        Plain("backslash", "an unfinished \\x, \\u or \\U", "use single quotes: '...'"),
    ),
)

_OTHER = Plain("syntax", "this line cannot be understood", "compare it with the lines around it")


def in_plain_words(context: str, problem: str) -> Plain:
    """The plain words for a complaint; ``context`` and ``problem`` as the parser gives them."""
    complaint = f"{context}; {problem}"
    for part, plain in _KNOWN:
        if part in complaint:
            return plain
    return _OTHER
