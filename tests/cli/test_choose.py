"""``sheetgen choose`` as it is typed."""

from __future__ import annotations

import json

import pytest

from sheetgen.resources import data_folder

FOLDER = data_folder("example_projects")
STASH = FOLDER / "sedgewater-stash.yaml"
LOOP = FOLDER / "mill-race-loop.yaml"


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_list_keeps_to_the_width_and_says_its_order(run, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", str(width))
    for piece in sorted(FOLDER.glob("*.yaml")):
        if piece != STASH:
            shown = run("choose", piece, "--stash", STASH, "--top", 4)
            assert shown.exit_code == 0, shown.stderr
            assert max(map(len, shown.stdout.splitlines())) <= width
            assert "Order: " in shown.stdout


def test_json_has_all_yarns_in_order(run):
    content = json.loads(run("choose", LOOP, "--stash", STASH, "--json").stdout)
    assert len(content["yarns"]) == 30
    assert content["order"]
    usable = [yarn["usable"] for yarn in content["yarns"]]
    assert usable == sorted(usable, reverse=True)
    assert all(yarn["failures"] for yarn in content["yarns"] if not yarn["usable"])


def test_a_wrong_name_a_missing_file_and_a_file_of_another_sort(run, tmp_path):
    wrong = run("choose", LOOP, "--stash", STASH, "--for", "woad")
    assert wrong.exit_code == 1
    assert "madder, all" in wrong.stderr
    assert run("choose", LOOP, "--stash", tmp_path / "no.yaml").exit_code == 1
    assert "unknown-key" in run("choose", LOOP, "--stash", LOOP).stderr
    assert "a-stash" in run("choose", STASH, "--stash", STASH).stderr


def test_an_empty_stash_is_said(run, tmp_path):
    empty = tmp_path / "empty.yaml"
    empty.write_text("stash: new\n", encoding="utf-8")
    shown = run("choose", LOOP, "--stash", empty)
    assert shown.exit_code == 0
    assert "no yarn in the stash" in shown.stdout
