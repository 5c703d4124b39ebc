"""Numbers that are often typed so: takes a text that is no quantity, gives what was likely meant.

YAML's own readings (12:30 as minutes, 1e3, .inf) never come about, since every value is read as
the text it was written as; here the writer is told how to put it instead.
"""

from __future__ import annotations

import re

from sheetgen.read.findings import Misread

_MINUS = re.compile(r"[-−–]+ ?[\d.½¼¾∞]")
_CLOCK = re.compile(r"(\d{1,2}):(\d\d)(?::\d\d)?(?: ?h)?", re.ASCII)
_GROUPS = re.compile(
    r"(?P<whole>\d{1,3}(?P<mark>[ ,.'’])\d{3}(?:(?P=mark)\d{3})*)(?P<rest>[.,]\d+)?(?P<unit>\D*)",
    re.ASCII,
)
_EXPONENT = re.compile(r"[+]?[\d.]+e[+-]?\d+\b.*", re.ASCII | re.IGNORECASE)
_BEHIND = re.compile(r"(\d{1,3}) ?m ?(\d\d)", re.ASCII)
_BY = re.compile(r"[\d.]{1,9} ?[a-z]{0,4} ?(?:x|×|by|\*) ?[\d.]{1,9} ?[a-z]{0,4}", re.ASCII)
_NO_NUMBER = re.compile(r"[+-]?\.?(?:nan|inf|infinity|∞)\b.*|[+-]?∞.*", re.IGNORECASE)


def mistyped(written: str, what: str) -> Misread | None:
    """What is told of a text where ``what`` (such as “length”) is wanted; None: nothing special.

    >>> mistyped("1,000 mm", "length").hint
    'write 1000 mm for a thousand, 1.000 mm for one and a fraction'
    """
    if _MINUS.match(written):
        return Misread("negative", f"a {what} cannot be negative", hint="take the minus out")
    if what == "time" and (clock := _CLOCK.fullmatch(written)):
        meant = f"{int(clock[1])} h {int(clock[2])} min"
        return Misread("not-a-quantity", "how long is wanted, in h and min", hint=f"write {meant}")
    if _EXPONENT.fullmatch(written):
        hint = "write all its digits, e.g. 1000 for 1e3"
        return Misread("not-a-quantity", "a number is written without “e” here", hint=hint)
    if _NO_NUMBER.fullmatch(written):
        hint = "leave the line out if it is not known"
        return Misread("not-a-quantity", "this is no number", hint=hint)
    if what == "length" and (hint := _one_length(written)):
        return Misread("not-a-quantity", "this is not one length", hint=hint)
    return _in_groups(written)


def _one_length(written: str) -> str:
    """What to write for ``1m20``, or where two lengths stand as one; nothing for others."""
    if match := _BEHIND.fullmatch(written):
        return f"write {match[1]} m {match[2]} cm"
    if _BY.fullmatch(written):
        return "one length alone; of a bead, “diameter” stands across the string, “length” along it"
    return ""


def _in_groups(written: str) -> Misread | None:
    """A number with a mark between its thousands, or a comma that may be one."""
    found = _GROUPS.fullmatch(written)
    if found is None or (found["mark"] == "." and not found["rest"]):
        return None
    whole, unit = found["whole"].replace(found["mark"], ""), found["unit"]
    if found["mark"] == "," and not found["rest"] and found["whole"].count(",") == 1:
        point = found["whole"].replace(",", ".")
        hint = f"write {whole}{unit} for a thousand, {point}{unit} for one and a fraction"
        if not found["whole"].startswith("1,"):
            hint = f"write {whole}{unit} for thousands, {point}{unit} for a fraction"
        return Misread("comma", "a comma in a number", hint=hint)
    rest = (found["rest"] or "").replace(",", ".")
    return Misread(
        "not-a-quantity",
        "a number with a mark between its thousands",
        hint=f"write {whole}{rest}{unit}",
    )
