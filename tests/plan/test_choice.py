"""The choice among yarns at hand: amounts and sizes by an independent route, the order as told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheetgen.model.project import Project
from sheetgen.model.stash import Stash
from sheetgen.plan.choice import ALL, PLANNED_IN_FULL, choose, place, target_of, with_yarn
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.read.stash import read_stash

CORD = """
piece: Cord
form: cord
length: 1 m
find: {name: an invented cord, invented: yes, thickness: %s, fibre: "wool, spun S"}
yarns:
  red: {fibre: wool, spin: S, count: 20/2 Nm, colour: red}
tablets: {number: 4}
"""


def project(text: str) -> Project:
    read = read_description(text.encode())
    assert read.project is not None, read.diagnostics
    return read.project


def stash(*yarns: str) -> Stash:
    lines = "\n".join(f"  {yarn}" for yarn in yarns)
    read = read_stash(f"stash: s\nyarns:\n{lines}\n".encode())
    assert read.stash is not None, read.diagnostics
    return read.stash


def names(text: str, *yarns: str) -> list[str]:
    return [c.yarn.name for c in choose(project(text), stash(*yarns).yarns, "red").candidates]


def test_a_published_cord_asks_for_the_silk_that_its_ends_can_be():
    # published: Henshall 1964, cord 5: 1.5 mm on eight four-hole tablets; by Specht's table
    # R(32) = 6.429463 the silk is 1.5 / 6.43 = 0.233 mm (0.22 to 0.24 mm over 8 or 9 tablets)
    cord = project(CORD.replace("number: 4", "number: 8") % "1.5 mm")
    wanted = choose(cord, (), "red").wanted
    assert wanted.diameter is not None
    assert wanted.diameter[1] == pytest.approx(1.5 / 6.429463)
    assert 0.22 <= wanted.diameter[1] <= 0.24


def test_thickness_and_nearest_tablets_are_those_of_the_table():
    # published: Specht's table, R(16) = 4.615426, R(12) = 4.029602, R(20) = 5.122321
    (c,) = choose(project(CORD % "2.0 mm"), stash("a: {diameter: 0.5 mm}").yarns, "red").candidates
    assert c.predicted.value == pytest.approx(0.5 * 4.615426)
    assert c.verdict is not None
    assert c.verdict.difference == pytest.approx(0.5 * 4.615426 - 2.0)
    assert c.verdict.best_tablets == 3  # 2.01 mm, against 2.31 mm of four
    assert c.verdict.best_size == pytest.approx(0.5 * 4.029602)
    assert c.ends == 16


def test_what_is_left_by_mass_is_held_against_what_is_used():
    # published: tex is g per km, so 10 g of 100 tex are 100 m
    yarns = stash("a: {fibre: wool, count: 20/2 Nm, at hand: 10 g}", "b: {fibre: wool, count: "
                  "20/2 Nm, at hand: 1 g}").yarns  # fmt: skip
    a, b = choose(project(CORD % "2 mm"), yarns, "red").candidates
    assert (a.yarn.name, b.yarn.name) == ("a", "b")
    assert a.at_hand == pytest.approx(100_000)
    assert b.at_hand == pytest.approx(10_000)
    assert a.used == b.used
    assert b.short == pytest.approx(b.used - 10_000)
    assert not a.failures
    assert [r.code for r in b.failures] == ["short"]
    assert a.plan is not None
    assert a.used == pytest.approx(a.plan.use("red").used)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        # usable before short, though the short one is as thick as the find and of its fibre
        ("a: {diameter: 0.52 mm, at hand: 90 m, fibre: silk}",
         "b: {diameter: 0.4334 mm, at hand: 9 m, fibre: wool}"),
        # within the find before outside it, though of another fibre
        ("a: {diameter: 0.44 mm, fibre: cotton}", "b: {diameter: 0.6 mm, fibre: wool, spin: S}"),
        # fibre before spin, spin before nearness
        ("a: {diameter: 0.4 mm, fibre: wool, spin: Z}",
         "b: {diameter: 0.4334 mm, fibre: silk, spin: S}"),
        ("a: {diameter: 0.4 mm, fibre: wool, spin: S}",
         "b: {diameter: 0.4334 mm, fibre: wool, spin: Z}"),
        ("a: {diameter: 0.4334 mm, fibre: wool, soft: yes}", "b: {diameter: 0.4 mm, fibre: wool}"),
        ("a: {diameter: 0.4334 mm, fibre: wool}",
         "b: {diameter: 0.4334 mm, fibre: wool, soft: yes}"),
        ("b: {diameter: 0.4334 mm, colour: dark red}", "a: {diameter: 0.4334 mm, colour: blue}"),
        ("a: {diameter: 0.4334 mm}", "b: {diameter: 0.4334 mm}"),
    ],
)  # fmt: skip
def test_the_list_is_ordered_as_it_says(first: str, second: str):
    find = "2 mm" if "0.52 mm" in first else "1.8 to 2.2 mm"
    assert names(CORD % find, second, first) == [first[0], second[0]]


def test_words_for_soft_yarn_other_fibre_and_fibre_that_gives():
    yarns = stash("a: {diameter: 0.43 mm, fibre: nylon, spin: Z}",
                  "b: {diameter: 0.43 mm, fibre: wool, preparation: woollen}").yarns  # fmt: skip
    found = {c.yarn.name: c for c in choose(project(CORD % "2 mm"), yarns, "red").candidates}
    assert {r.code for r in found["a"].remarks} >= {"other-fibre", "other-spin", "stretches"}
    assert {r.code for r in found["b"].remarks} >= {"soft"}
    assert not {r.code for r in found["b"].remarks} & {"stretches", "other-fibre"}


def test_a_yarn_that_no_number_of_tablets_brings_near_is_out():
    # geometry: four ends of 3 mm are 7.2 mm thick, one tablet of them is more than a find of 2 mm
    (c,) = choose(project(CORD % "2 mm"), stash("a: {diameter: 3 mm}").yarns, "red").candidates
    assert [r.code for r in c.failures] == ["no-tablets-meet"]


def test_beads_whose_hole_the_new_cord_does_not_pass_keep_a_yarn_out():
    text = (CORD % "2 mm").replace("cord\nlength: 1 m", "straight") + (
        "beads: {kinds: {k: {diameter: 9 mm, hole: 2.5 mm}}, order: [9 k]}\n"
    )
    yarns = stash("a: {diameter: 0.4 mm}", "b: {diameter: 0.7 mm}").yarns
    fine, thick = choose(project(text), yarns, "red").candidates
    assert not fine.failures
    assert "hole-too-small" in [r.code for r in thick.failures]  # 0.85 * 0.7 * 4.6154 > 2.5


def test_one_yarn_of_several_or_all():
    text = (CORD % "2 mm").replace(
        "tablets:", "  white: {fibre: wool, count: 20/2 Nm}\ntablets:"
    ).replace("number: 4", "number: 4, colours: [white, white, white, red]")  # fmt: skip
    piece = project(text)
    assert target_of(piece, None) == "white"
    assert target_of(piece, "red") == "red"
    yarn = stash("a: {diameter: 1 mm, at hand: 5 m}").yarns[0]
    one, every = with_yarn(piece, "red", yarn), with_yarn(piece, ALL, yarn)
    assert [y.diameter is not None for y in one.yarns] == [True, False]
    assert [y.diameter is not None for y in every.yarns] == [True, True]
    (c,) = choose(piece, (yarn,), ALL).candidates
    used = sum(u.used for u in make_plan(every).plan.yarns)
    assert c.used == pytest.approx(used)
    assert c.short == pytest.approx(used - 5000)


@pytest.mark.parametrize(
    ("find", "said"),
    [
        ("{name: f, thickness: unknown}", "not known"),
        ("{name: f}", "not known"),
        ("{name: f, thickness: 2 mm}", "sure"),
        ("{name: f, thickness: about 2 mm}", "1.8 mm to 2.2 mm"),
    ],
)
def test_what_is_not_known_is_said(find: str, said: str):
    lines = (CORD % "2 mm").splitlines()
    text = "\n".join(f"find: {find}" if x.startswith("find") else x for x in lines)
    choice = choose(project(text), stash("a: {diameter: 0.4 mm}").yarns, "red")
    assert said in " ".join(choice.follows)
    assert (choice.candidates[0].verdict is None) is ("not known" in said)


def test_an_empty_stash_has_no_candidates():
    assert choose(project(CORD % "2 mm"), (), "red").candidates == ()


def test_of_very_many_yarns_the_nearest_are_planned_in_full():
    piece = project(CORD % "2 mm")
    some = stash(*(f"y{n}: {{diameter: {n / 1000:.3f} mm}}" for n in range(300, 500))).yarns
    many = tuple(replace(y, name=f"{y.name}-{k}") for k in range(5) for y in some)
    choice = choose(piece, many, "red")
    assert len(choice.candidates) == 1000
    assert choice.looked_into == PLANNED_IN_FULL
    full, rest = choice.candidates[:PLANNED_IN_FULL], choice.candidates[PLANNED_IN_FULL:]
    assert all(c.plan is not None for c in full)
    assert all(c.plan is None for c in rest)
    assert [place(c) for c in full] == sorted(place(c) for c in full)
    # published: Specht's table, R(16) = 4.615426; 2 mm / R = 0.4333 mm is nearest
    assert {c.yarn.name[:4] for c in full[:5]} == {"y433"}
