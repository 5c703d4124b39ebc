"""Plain values: takes the text of a lone value and its entry, gives text, numbers, yes or no."""

from __future__ import annotations

import datetime
import re

from sheetgen.model.schema import Entry
from sheetgen.read.findings import Misread, did_you_mean, listed
from sheetgen.read.meant import instead_of_choice
from sheetgen.read.walk import whole_number

_NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)
_PERCENT = re.compile(r"(\S+?) ?%")
_DATE = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
_ENDLESS = 10**12
LONGEST_TEXT = 1000


def text(written: str, entry: Entry) -> str:
    """Any line of text that a sheet of paper has room for."""
    if len(written) > LONGEST_TEXT:
        raise Misread(
            "too-long",
            f"a text of {len(written)} characters",
            allowed=f"up to {LONGEST_TEXT} characters",
            hint="shorten it, or part it into several lines under “notes”",
        )
    return written


def whole(written: str, entry: Entry) -> int:
    """A whole number."""
    low = int(entry.low) if entry.low is not None else 0
    high = int(entry.high) if entry.high is not None else _ENDLESS
    return whole_number(written, low, high)


def number(written: str, entry: Entry) -> float:
    """A plain number with or without decimals."""
    return in_range(_decimal(written), entry)


def percent(written: str, entry: Entry) -> float:
    """``10 %`` as the share 0.1; the range of the entry is in per cent, as it is written."""
    match = _PERCENT.fullmatch(written)
    if match is None:
        raise Misread("no-percent", "a percentage is wanted", hint="write e.g. 10 %")
    return in_range(_decimal(match[1]), entry, " %") / 100


def yes_no(written: str, entry: Entry) -> bool:
    """``yes`` or ``no``; ``true`` and ``false`` mean the same."""
    try:
        return {"yes": True, "true": True, "no": False, "false": False}[written.casefold()]
    except KeyError:
        raise Misread("not-yes-no", "yes or no is wanted", allowed="yes, no") from None


def choice(written: str, entry: Entry) -> str:
    """One of the words of the entry."""
    if written in entry.choices:
        return written
    allowed = listed(entry.choices)
    raise Misread(
        "not-a-choice",
        f"“{written[:60]}” is none of the choices",
        allowed=allowed,
        hint=instead_of_choice(written, entry.choices)
        or did_you_mean(written, entry.choices, f"choose one of {allowed}"),
    )


def date(written: str, entry: Entry) -> str:
    """A day of the calendar as year-month-day."""
    hint = "write year-month-day, e.g. 2026-05-01"
    if not _DATE.fullmatch(written):
        raise Misread("not-a-date", "this is not a date", hint=hint)
    try:
        datetime.date.fromisoformat(written)
    except ValueError:
        raise Misread("not-a-date", "there is no such day", hint=hint) from None
    return written


def folder(written: str, entry: Entry) -> str:
    """A folder below the description's, so that a description that is passed on reads no other."""
    if _leads_out(written):
        raise Misread(
            "folder-outside",
            "this leads out of the folder of the description",
            allowed="a folder below that of the description",
            hint="put the folder beside the description, or name it on the command line",
        )
    return text(written, entry)


def file(written: str, entry: Entry) -> str:
    """A file in or below the description's folder, parts of its path parted by strokes."""
    if _leads_out(written):
        raise Misread(
            "file-outside",
            "this leads out of the folder of the description",
            allowed=f"a file in or below the folder of the description, e.g. {entry.example}",
            hint=entry.hint or "put a copy beside the description",
        )
    return text(written, entry)


def _leads_out(written: str) -> bool:
    """True for a path that begins elsewhere or climbs: ``/x``, ``C:x``, ``~x``, ``../x``."""
    parts = written.replace("\\", "/").split("/")
    return parts[0] == "" or ":" in parts[0] or ".." in parts or parts[0].startswith("~")


def in_range(value: float, entry: Entry, unit: str = "") -> float:
    """The value, if it lies within the entry's range; ``unit`` is only for the message."""
    low, high = entry.low, entry.high
    if (low is not None and value < low) or (high is not None and value > high):
        allowed = f"{low or 0:g}{unit} to {high:g}{unit}" if high is not None else f"from {low:g}"
        raise Misread("out-of-range", "outside what is possible", allowed=allowed, hint=entry.hint)
    return value


def _decimal(written: str) -> float:
    if re.match(r"[-−]\.?\d", written):
        raise Misread("negative", "this cannot be negative", hint="take the minus out")
    if re.fullmatch(r"\d+,\d+", written):
        raise Misread(
            "comma", "a comma in a number", hint=f"write the point: {written.replace(',', '.')}"
        )
    if len(written) > 40 or not _NUMBER.fullmatch(written):
        raise Misread("not-a-number", "this is not a plain number", hint="write e.g. 6 or 1.08")
    return float(written)
