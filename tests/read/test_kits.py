"""A kit's piece is the piece with what differs laid over it, key by key; prices are exact."""

import textwrap

import pytest

from sheetgen.model.values import Price
from sheetgen.read import read_description
from sheetgen.read.findings import Misread
from sheetgen.read.prices import price

PIECE = """
piece: Lace
form: cord
length: 60 cm
yarns:
  red: {wraps: 16 per cm, colour: red, letter: R}
  white: {wraps: 16 per cm}
tablets: {number: 6, colours: [red, white, red, white]}
turning: [forward 4, backward 4]
tassels: {number: 2, skirt: 45 mm}
sessions: {at home: 3 h}
pace: 8
"""


def read(kit):
    result = read_description((PIECE + textwrap.dedent(kit)).encode())
    assert result.project is not None, result.diagnostics
    return result.project


def test_keys_are_merged_names_kept_lists_replaced_and_none_takes_out():
    piece = read(
        """
        kit:
          differs:
            length: 25 cm
            yarns: {red: {wraps: 8 per cm}, blue: {wraps: 8 per cm}}
            turning: [forward 2]
            tablets: {number: 4, colours: [red, blue, white, blue]}
            tassels: none
        """
    ).kit_piece
    assert piece.piece == "Lace"
    assert piece.length == 250
    assert [y.name for y in piece.yarns] == ["red", "white", "blue"]
    assert (piece.yarn("red").wraps, piece.yarn("red").letter) == (0.8, "R")
    assert len(piece.turning) == 1
    assert piece.tablets.number == 4
    assert piece.tassels is None
    assert piece.kit is not None  # whose bag it is
    assert piece.kit_piece is None


def test_the_maker_s_piece_stays_as_it_is():
    project = read("kit: {differs: {length: 25 cm}}\n")
    assert project.length == 600
    assert [s.lasts for s in project.sessions] == [180]
    assert project.slower is None


def test_a_kit_has_the_hours_of_guests_and_not_the_maker_s():
    project = read("kit: {sessions: {a: 90 min}, set aside: 25 min, times slower: 4}\n")
    assert [(s.name, s.lasts) for s in project.kit_piece.sessions] == [("a", 65)]
    assert (project.kit_piece.pace, project.kit_piece.slower) == (8, 4)
    assert read("kit: {people: 3}\n").kit_piece.sessions == ()
    assert read("kit: {pace: 2}\n").kit_piece.pace == 2


# ISO 4217, list one: the yen has no decimals, the Kuwaiti dinar three, the euro two
@pytest.mark.parametrize(
    ("written", "minor", "currency", "places"),
    [
        ("3.20 EUR", 320, "EUR", 2),
        ("3.2 EUR", 320, "EUR", 2),
        ("450 JPY", 450, "JPY", 0),
        ("1.005 KWD", 1005, "KWD", 3),
        ("2 shillings", 200, "shillings", 2),
        ("0.10 £", 10, "£", 2),
    ],
)
def test_prices_are_whole_minor_units(written, minor, currency, places):
    found = price(written)
    assert (found, found.places) == (Price(minor, currency), places)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("3.20", "no-currency"),
        ("3,20 EUR", "comma"),
        ("EUR 3.20", "no-price"),
        ("3.205 EUR", "price-too-fine"),
        ("1.5 JPY", "price-too-fine"),
        ("-1 EUR", "no-price"),
        ("cheap", "no-price"),
        ("99999999999 EUR", "out-of-range"),
    ],
)
def test_what_is_no_price_is_told(written, code):
    with pytest.raises(Misread) as caught:
        price(written)
    assert caught.value.code == code
