"""Threading of packs, worked by hand."""

import pytest

from sheetgen.model.pack import DraftLine, Exceptional, Group, HoleColour, Tablets
from sheetgen.plan.pack import beyond_pack, build_pack


def every(yarn):
    return (HoleColour("*", yarn),)


def by_hole(*yarns):
    return tuple(HoleColour("ABCDEFGH"[i], y) for i, y in enumerate(yarns))


def threads(pack):
    return ["".join((y or "-")[0] for y in t.holes) for t in pack.tablets]


def letters(pack):
    return "".join(t.threaded for t in pack.tablets)


def test_nothing_said_is_the_first_yarn_everywhere():
    pack = build_pack(Tablets(number=3), 3, "madder")
    assert threads(pack) == ["mmmm"] * 3
    assert (pack.ends, pack.threaded) == (12, "S")  # common practice: 3 x 4 holes carry 12 ends


def test_a_run_of_letters_is_repeated():
    pack = build_pack(Tablets(threaded=("S", "S", "Z")), 7, "m")
    assert letters(pack) == "SSZSSZS"
    assert pack.threaded is None


def test_colours_by_hole_and_empty_holes():
    """Six-hole tablets used as four-hole ones."""
    colours = by_hole("red", "white", "empty", "red", "white", "empty")
    pack = build_pack(Tablets(holes=6, colours=colours), 5, "m")
    assert threads(pack) == ["rw-rw-"] * 5
    assert pack.ends == 20  # geometry: 5 x 4
    assert pack.ends_by_yarn == {"red": 10, "white": 10}
    assert not pack.one_colour_a_tablet


def test_a_draft_is_laid_again_and_again():
    draft = (DraftLine("S", every("red")), DraftLine(None, by_hole("a", "b", "c", "d")))
    pack = build_pack(Tablets(threaded=("Z",), draft=draft), 5, "m")
    assert threads(pack) == ["rrrr", "abcd", "rrrr", "abcd", "rrrr"]
    assert letters(pack) == "SZSZS"


def test_later_exceptions_outrank_earlier_ones():
    exceptions = (
        Exceptional((1, 2, 5), threaded=("Z", "S"), colours=every("blue")),
        Exceptional((2,), colours=(HoleColour("C", "gold"),)),
        Exceptional((5, 4), draft=(DraftLine("Z", every("x")), DraftLine("S", every("y")))),
    )
    pack = build_pack(Tablets(except_=exceptions), 5, "m")
    assert threads(pack) == ["bbbb", "bbgb", "mmmm", "yyyy", "xxxx"]
    assert letters(pack) == "ZSSSZ"


def test_groups_in_order_and_the_rest():
    pack = build_pack(Tablets(groups=(Group("edge", (1, 2, 5)),)), 5, "m")
    assert pack.groups == {"edge": (1, 2, 5), "": (3, 4)}


def test_exceptions_beyond_the_pack_are_named():
    tablets = Tablets(
        except_=(Exceptional((2, 9), threaded=("Z",), draft=(DraftLine("Z", every("x")),)),),
        groups=(Group("edge", (1, 12)),),
    )
    pack = build_pack(tablets, 3, "m")
    assert letters(pack) == "SZS"
    assert beyond_pack(tablets, 3) == (9, 12)
    assert beyond_pack(tablets, 12) == ()


@pytest.mark.parametrize("holes", [2, 3, 4, 6, 8])
def test_as_many_threads_as_holes(holes):
    assert build_pack(Tablets(holes=holes), 7, "m").ends == 7 * holes  # geometry
