"""What a value of the description means two stages on. Expected: by the definition."""

from __future__ import annotations

import json

import pytest


def figures(run, file) -> dict[str, float]:
    content = json.loads(run("plan", "--json", file).stdout)
    return {f["key"]: f["value"] for f in content["figures"]}


def test_per_cent_of_shrinkage_and_reserve(run, piece):
    told = figures(run, piece("cord", "shrinkage: 5 %\nreserve: 20 %\n"))
    assert told["woven_length"] == pytest.approx(600 / 0.95)
    assert told["reserve"] == pytest.approx(0.20)


def test_units_of_the_description_reach_the_table(run, piece):
    assert " in " in run("plan", piece("cord", "units: inches\n")).stdout


def test_a_stated_limit_and_pace_are_used(run, piece):
    told = figures(run, piece("cord", "pace: 3\ntwist: {limit: 50 per m}\n"))
    assert told["pace"] == 3
    assert told["twist_limit"] == pytest.approx(0.050)


def test_wraps_give_the_diameter(run, piece):
    assert figures(run, piece("band"))["diameter:blue"] == pytest.approx(10 / 16)


def test_picks_per_length_is_one_over_the_length_of_a_pick(run, piece):
    told = figures(run, piece("band"))
    assert told["picks_per_length"] * told["pick_spacing"] == pytest.approx(1)
