"""Yarns of a description."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry
from sheetgen.model.values import Amount, Count, Price, PutUp, Reading

FIBRES = ("wool", "silk", "cotton", "linen", "hemp", "viscose", "nylon", "polyester")
PREPARATIONS = ("worsted", "woollen", "line", "tow", "reeled", "spun")

SOLD_AS = ("ball", "hank", "skein", "cone", "spool")


@dataclass(frozen=True, slots=True)
class Yarn:
    """One yarn; ``name`` is its key. Give what is known of its thickness, the best is used."""

    name: str
    fibre: str | None = entry("choice", "What it is spun from.", default=None, choices=FIBRES)
    preparation: str | None = entry(
        "choice",
        "How the fibre was made ready for spinning; sets how firmly the yarn packs.",
        default=None,
        choices=PREPARATIONS,
    )
    count: Count | None = entry(
        "count",
        "Yarn count with its system: tex, dtex, den, Nm, NeC, NeW, NeL; plies after a stroke.",
        default=None,
        example="20/2 Nm",
    )
    put_up: PutUp | None = entry(
        "put-up",
        "Mass and length of a ball, hank or cone as sold.",
        default=None,
        example="50 g, 210 m",
    )
    sold_as: str = entry("choice", "What a put-up is called.", default="ball", choices=SOLD_AS)
    price: Price | None = entry("price", "Price of one put-up.", default=None, example="4.20 EUR")
    wraps: float | None = entry(
        "rate",
        "Firm wraps side by side on a ruler, pushed together until no more go in (the loose wraps "
        "that knitters count are wider).",
        default=None,
        low=0.1,
        high=50,
        example="16 per cm",
    )
    diameter: Reading | None = entry(
        "reading", "Measured diameter.", default=None, low=0.01, high=20, example="0.6 mm"
    )
    spin: str | None = entry("choice", "Last twist of the yarn.", default=None, choices=("S", "Z"))
    colour: str | None = entry(
        "text", "Colour in words; may end in # and six hex digits in quotes.", default=None
    )
    letter: str | None = entry("text", "Letter that stands for it on the charts.", default=None)
    at_hand: Amount | None = entry(
        "amount", "How much of it there is.", default=None, example="35 g"
    )
    source: str | None = entry("text", "Where it comes from.", default=None)
    in_stash: str | None = entry(
        "text", "Its name in the stash; left out, the name it has here.", default=None
    )
    soft: bool = entry(
        "yes-no", "Soft or fuzzy: may cling in the shed or fray at the tablets.", default=False
    )
