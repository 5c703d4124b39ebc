"""Prices: takes text such as ``3.20 EUR``, gives whole minor units and the currency."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheetgen.diagnostics import Path
from sheetgen.model.project import Project
from sheetgen.model.schema import Entry
from sheetgen.model.values import FINEST, Price
from sheetgen.read.findings import Findings, Misread
from sheetgen.read.tree import Node, Text
from sheetgen.read.walk import UNREAD, Priced, Walk, misread, one_line, wrong_kind

MOST = 10**9
"""Minor units of one price: ten million of most currencies."""
_PRICE = re.compile(r"([0-9]{1,12})(?:\.([0-9]{1,4}))? ?([^\W\d_]{1,20}|[$€£¥])")
_COMMA = re.compile(r"([0-9]+),([0-9]+)(.*)")
_BEFORE = re.compile(r"([^\W\d_]{1,20}|[$€£¥]) ?([0-9]+(?:\.[0-9]+)?)")
_BARE = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def price(written: str) -> Price:
    """An amount and its currency: a code of ISO 4217, or any one word.

    >>> price("3.20 EUR"), price("450 JPY"), price("2 pence")
    (Price(minor=320, currency='EUR'), Price(minor=450, currency='JPY'), \
Price(minor=200, currency='pence'))
    """
    found = _PRICE.fullmatch(written)
    if found is None:
        raise _unclear(written)
    whole, part, currency = found[1], found[2] or "", found[3]
    if currency.upper() in FINEST:
        currency = currency.upper()
    places = FINEST.get(currency, 2)
    if len(part) > places:
        digits = "no decimals" if places == 0 else f"{places} decimals at most"
        raise Misread(
            "price-too-fine", f"a price in {currency} has {digits}", hint="round it, or check it"
        )
    minor = int(whole + part.ljust(places, "0"))
    if minor > MOST:
        raise Misread("out-of-range", "more than anything here can cost", hint="check the number")
    return Price(minor, currency)


def _unclear(written: str) -> Misread:
    """Why this is no price."""
    if _BARE.fullmatch(written):
        return Misread(
            "no-currency",
            "an amount without a currency",
            allowed="a number and a currency",
            hint=f"write e.g. {written} EUR",
        )
    if match := _COMMA.fullmatch(written):
        hint = f"write the point: {match[1]}.{match[2]}{match[3]}"
        return Misread("comma", "a comma in a number", hint=hint)
    if match := _BEFORE.fullmatch(written):
        hint = f"write the currency last: {match[2]} {match[1]}"
        return Misread("no-price", "the currency stands first", hint=hint)
    return Misread(
        "no-price",
        "this is not a price",
        allowed="a number and a currency in one word",
        hint="write e.g. 3.20 EUR",
    )


def read_price(walk: Walk, node: Node, path: Path, entry: Entry) -> Price:
    """The reader of a price; what it finds is kept, since all must be in one currency."""
    if not isinstance(node, Text):
        wrong_kind(walk, node, path, "a lone value", "write e.g. 3.20 EUR")
        return UNREAD  # type: ignore[no-any-return]
    try:
        found = price(one_line(node.value))
    except Misread as problem:
        misread(walk, problem, node, path)
        return UNREAD  # type: ignore[no-any-return]
    walk.prices.append(Priced(found, path, node.span, node.value))
    return found


def check_prices(project: Project, walk: Walk) -> None:
    """All prices are in one currency, and each is that of something whose sold unit is stated."""
    if walk.prices:
        first = walk.prices[0]
        for other in walk.prices[1:]:
            if other.price.currency != first.price.currency:
                walk.findings.error(
                    "two-currencies",
                    f"a price in {other.price.currency}, and one in {first.price.currency} in line "
                    f"{first.span.line}",
                    other.path,
                    span=other.span,
                    given=other.text,
                    allowed=first.price.currency,
                    hint="write all prices in one currency: they are added up",
                )
    for path, says in _unsold(project):
        _no_unit(walk.findings, path, says)


def _unsold(project: Project) -> Iterator[tuple[Path, str]]:
    """Where a price stands without what it is the price of, and what to add."""
    for yarn in project.yarns:
        if yarn.price and yarn.put_up is None:
            yield ("yarns", yarn.name, "price"), "add e.g. “put-up: 50 g, 210 m”"
    beads = project.beads
    for kind in beads.kinds if beads else ():
        if kind.price and kind.pack is None:
            yield ("beads", "kinds", kind.name, "price"), "add e.g. “pack: 50”, or “pack: 1”"
    if beads and beads.finial and beads.finial.price and beads.finial.pack is None:
        yield ("beads", "finial", "price"), "add e.g. “pack: 1”"
    if project.aglets and project.aglets.price and project.aglets.pack is None:
        yield ("aglets", "price"), "add e.g. “pack: 10”"
    if not project.kit:
        return
    if project.kit.cards.price and project.kit.cards.pack is None:
        yield ("kit", "cards", "price"), "add e.g. “pack: 52”"
    for thing in project.kit.things:
        if thing.price and thing.pack is None:
            yield ("kit", "things", thing.name, "price"), "add e.g. “pack: 10”, or “pack: 1”"


def _no_unit(findings: Findings, path: Path, hint: str) -> None:
    findings.error(
        "no-sold-unit", "a price, and nothing says how much is sold for it", path, hint=hint
    )
