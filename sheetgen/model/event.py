"""Where and when a piece is woven."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry


@dataclass(frozen=True, slots=True)
class Session:
    """A stretch of weaving; ``name`` is its key. A lone quantity stands for ``lasts``."""

    SHORTHAND = "lasts"

    name: str
    lasts: float = entry("time", "How long.", low=1, high=1440, example="2 h")


@dataclass(frozen=True, slots=True)
class Event:
    """Where the piece is woven. A lone line stands for ``name``."""

    SHORTHAND = "name"

    name: str = entry("text", "Name of the event.", example="Spring market")
    place: str | None = entry("text", "Where.", default=None)
    dates: str | None = entry("text", "When.", default=None)
