"""Small written values of a description: takes read numbers, gives frozen values in mm, g, tex."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Final


class Unknown(Enum):
    """The reader of the find says that this cannot be known (not the same as not saying)."""

    UNKNOWN = "unknown"


UNKNOWN: Final = Unknown.UNKNOWN


@dataclass(frozen=True, slots=True)
class Reading:
    """A length that was read off something, mm: the value and the range it may lie in.

    ``sure`` is False for ``about 3 mm`` and for a range, True for a plain figure. ``how`` says
    how it was read off a picture, where it was.
    """

    value: float
    low: float
    high: float
    sure: bool = True
    how: str = ""


@dataclass(frozen=True, slots=True)
class Count:
    """A yarn count as written and the resultant linear density in tex.

    ``tex`` is that of the whole plied yarn; take-up of plying is neglected.
    """

    text: str
    tex: float
    system: str
    plies: int = 1


@dataclass(frozen=True, slots=True)
class PutUp:
    """A ball, hank or cone as sold: mass in g and length in mm."""

    mass: float
    length: float


@dataclass(frozen=True, slots=True)
class Amount:
    """What is at hand of a yarn: mass in g or length in mm, one of the two."""

    mass: float | None = None
    length: float | None = None


@dataclass(frozen=True, slots=True)
class PicksOver:
    """Picks counted over a measured length (mm)."""

    picks: int
    length: float


_NO_DECIMALS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DECIMALS = "BHD IQD JOD KWD LYD OMR TND"
FINEST = dict.fromkeys(_NO_DECIMALS.split(), 0) | dict.fromkeys(_THREE_DECIMALS.split(), 3)
"""Decimals of currencies that have not two (ISO 4217, list one); every other has two."""


@dataclass(frozen=True, slots=True)
class Price:
    """An amount of money: ``minor`` units (cents, pence) of a currency, exactly."""

    minor: int
    currency: str

    @property
    def places(self) -> int:
        """Decimals of the currency."""
        return FINEST.get(self.currency, 2)
