"""Room on a kit sheet: takes what a key brings and what has room, gives how much is over."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """``has`` of something that ``key`` brings, called ``what``, where about ``most`` have room."""

    key: str
    what: str
    has: int
    most: int

    @property
    def over(self) -> int:
        """How many too many; 0 or below if none."""
        return self.has - self.most

    @property
    def share(self) -> float:
        """How full it is."""
        return self.has / self.most

    def __str__(self) -> str:
        """In words.

        >>> print(Room("yarns", "yarns are used", 14, 12), Room("yarns", "yarns are used", 9, 12))
        “yarns”: 14 yarns are used, about 2 too many “yarns”: 9 yarns are used, which takes most
        """
        told = f"about {self.over} too many" if self.over > 0 else "which takes most"
        return f"“{self.key}”: {self.has} {self.what}, {told}"
