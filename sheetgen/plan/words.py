"""Words: takes a number and what is counted, gives both in one phrase."""

from __future__ import annotations

from sheetgen.amounts import plain


def counted(number: float, one: str, places: int = 0, many: str = "") -> str:
    """A number with the thing counted, which stands alone only beside 1.

    >>> counted(1, "full turn"), counted(21.5, "full turn", 1), counted(2, "leaf", many="leaves")
    ('1 full turn', '21.5 full turns', '2 leaves')
    """
    text = plain(number, places)
    return f"{text} {one if text == '1' else many or one + 's'}"
