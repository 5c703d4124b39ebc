"""The colours of a file: takes nothing, gives the ICC profile of the sRGB colour space as bytes.

Worked out here from the published figures, so that it is the same in every file and on every
machine: a display profile of version 2.1 with three primaries and one curve.
"""

from __future__ import annotations

import struct
from functools import cache

NAME = "sRGB IEC61966-2.1"
"""The name under which the colour space is registered with the ICC (from memory)."""
_WHITE = (0.9642, 1.0, 0.8249)
"""XYZ of the light D50, to which every profile refers (ICC.1:2001-04, 6.3.4.3; from memory)."""
_PRIMARIES = {
    b"rXYZ": (0.43607, 0.22249, 0.01392),
    b"gXYZ": (0.38515, 0.71687, 0.09708),
    b"bXYZ": (0.14307, 0.06061, 0.71410),
}
"""XYZ of red, green and blue of IEC 61966-2-1, brought to D50 by the Bradford method (published in
the ICC's own sRGB profile; from memory, held against another library in the tests)."""
_STEPS = 1024
"""Points of the curve; between them a reader goes straight."""
_DATE = (2026, 1, 1, 0, 0, 0)
"""A date must stand there; a fixed one, so that the bytes are the same on every day."""


def light(value: float) -> float:
    """Share of light for a share ``value`` of a colour, both from 0 to 1.

    IEC 61966-2-1:1999, 5.2: c/12.92 up to 0.04045, else ((c + 0.055)/1.055)^2.4 (from memory).

    >>> round(light(0.5), 4), light(0.0), light(1.0)
    (0.214, 0.0, 1.0)
    """
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


@cache
def srgb() -> bytes:
    """The profile; its parts stand as ICC.1:2001-04 has them, clauses 6.1 to 6.5."""
    levels = [round(65535 * light(i / (_STEPS - 1))) for i in range(_STEPS)]
    curve = b"curv" + bytes(4) + struct.pack(f">I{_STEPS}H", _STEPS, *levels)
    tags = {
        b"desc": _description(),
        b"cprt": b"text" + bytes(4) + b"No rights are reserved.\0",
        b"wtpt": _xyz(*_WHITE),
        **{tag: _xyz(*colour) for tag, colour in _PRIMARIES.items()},
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    start = 128 + 4 + 12 * len(tags)
    body, table, places = b"", b"", dict[bytes, int]()
    for tag, data in tags.items():
        if data not in places:  # the three colours share one curve
            places[data] = start + len(body)
            body += data + bytes(-len(data) % 4)
        table += tag + struct.pack(">II", places[data], len(data))
    return _header(start + len(body)) + struct.pack(">I", len(tags)) + table + body


def _header(size: int) -> bytes:
    """The 128 bytes at the front: what kind of profile this is."""
    kind = b"mntr" + b"RGB " + b"XYZ "
    date = struct.pack(">6H", *_DATE)
    front = struct.pack(">I4sI", size, bytes(4), 0x02100000) + kind + date + b"acsp"
    return (front + bytes(28) + _numbers(*_WHITE)).ljust(128, b"\0")


def _description() -> bytes:
    """The name, in the form with two empty translations."""
    name = NAME.encode("ascii") + b"\0"
    return b"desc" + bytes(4) + struct.pack(">I", len(name)) + name + bytes(8 + 3 + 67)


def _xyz(x: float, y: float, z: float) -> bytes:
    return b"XYZ " + bytes(4) + _numbers(x, y, z)


def _numbers(*values: float) -> bytes:
    """Numbers with sixteen binary places."""
    return struct.pack(f">{len(values)}i", *(round(value * 65536) for value in values))
