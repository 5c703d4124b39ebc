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


def test_the_sheet_wants_a_stash_and_the_description_may_name_it(run, piece):
    file = piece("cord")
    said = run("print", file, "--sheet", "choice")
    assert (said.exit_code, "[no-stash]" in said.stderr) == (1, True)
    assert "[no-stash]" in run("choose", file).stderr
    assert run("print", file, "--stash", STASH).exit_code == 2  # a loom sheet has no use for one
    own = file.with_name("drawer.yaml")
    own.write_bytes(STASH.read_bytes())
    file.write_text(f"stash: drawer.yaml\n{file.read_text('utf-8')}", encoding="utf-8")
    done = run("print", file, "--sheet", "choice", "--top", 2)
    assert done.exit_code == 0, done.stderr
    assert "2 yarns to compare" in done.stdout
    assert file.with_name("cord-choice.pdf").is_file()
    assert run("choose", file).exit_code == 0
    assert run("check", file).exit_code == 0  # a description still, not a stash
    assert "no-such-yarn" in run("print", file, "--sheet", "choice", "--for", "woad").stderr
    own.unlink()
    gone = run("print", file, "--sheet", "choice")
    assert (gone.exit_code, "[no-such-stash]" in gone.stderr) == (1, True)
    assert run("print", file).exit_code == 0  # no other sheet asks for it


def test_a_description_names_no_stash_outside_its_folder(run, piece, tmp_path):
    file = piece("cord", "stash: ../stash.yaml\n")
    assert "[file-outside]" in run("check", file).stdout
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "stash.yaml").write_bytes(STASH.read_bytes())
    (inside / "stash.yaml").symlink_to(tmp_path / "stash.yaml")
    linked = inside / "piece.yaml"
    linked.write_text(piece("cord", "stash: stash.yaml\n").read_text("utf-8"), encoding="utf-8")
    assert "[stash-outside]" in run("choose", linked).stderr


def test_a_piece_whose_own_yarn_is_too_little_is_still_chosen_for(run, piece):
    file = piece("cord")
    little = file.read_text("utf-8").replace("20/2 Nm", "20/2 Nm, at hand: 1 m")
    file.write_text(little, encoding="utf-8")
    assert "[not-enough-yarn]" in run("print", file).stderr
    done = run("print", file, "--sheet", "choice", "--stash", STASH)
    assert done.exit_code == 0, done.stderr


MADE = """piece: Cord {n} of the Sedgewater Company
number: SW-{n}
form: cord
length: 30 cm
yarns: {{red: {{fibre: wool, preparation: worsted, count: 20/2 Nm}}}}
tablets: 4
made: {{thickness: 2.5 mm}}
"""


def test_what_was_measured_before_is_used(run, piece, tmp_path):
    """Six cords of this yarn on four tablets came out 2.5 mm thick: so will the next."""
    file, filed, stash = piece("cord"), tmp_path / "filed", tmp_path / "one.yaml"
    filed.mkdir()
    for n in range(1, 7):
        (filed / f"{n}.yaml").write_text(MADE.format(n=n), encoding="utf-8")
    yarn = "{fibre: wool, preparation: worsted, count: 20/2 Nm, at hand: 500 m}"
    stash.write_text(f"stash: s\nyarns: {{grey: {yarn}}}\n", encoding="utf-8")
    words = ("choose", file, "--stash", stash, "--register", filed)
    (told,) = json.loads(run(*words, "--json").stdout)["yarns"]
    assert told["predicted"] == pytest.approx(2.5)
    assert "size by the median of 6 pieces of red" in " ".join(run(*words).stdout.split())
    (bare,) = json.loads(run(*words[:4], "--json").stdout)["yarns"]
    assert bare["predicted"] != pytest.approx(2.5, rel=0.01)
    file.write_text(f"{file.read_text('utf-8')}register: filed\n", encoding="utf-8")
    (named,) = json.loads(run(*words[:4], "--json").stdout)["yarns"]
    assert named == told
