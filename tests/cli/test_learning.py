"""A register folder behind ``plan`` and ``print``. Its pieces are invented."""

import json
import os
from pathlib import Path

import pdfplumber
import pytest

PIECE = """piece: Cord to come
form: cord
length: 30 cm
yarns: {madder: {fibre: wool, count: 20/2 Nm, preparation: worsted}}
tablets: 6
"""
MADE = """piece: Cord {n} of the Sedgewater Company
number: {number}
form: cord
length: 30 cm
yarns: {{madder: {{fibre: wool, count: 20/2 Nm, preparation: worsted}}}}
tablets: 6
made:
  length: {length} mm
  picks woven: 200
  thickness: 2.6 mm
  warp end: 66 cm
  left-over warp: 33 cm
  time: {{Saturday: {{took: 50 min, picks: 200}}}}
"""


@pytest.fixture
def register(tmp_path: Path) -> Path:
    """Six pieces, 1.48 to 1.53 mm a pick, four picks a minute."""
    folder = tmp_path / "filed"
    folder.mkdir()
    for n in range(1, 7):
        text = MADE.format(n=n, number=f"SW-{n}", length=294 + 2 * n)
        (folder / f"sw-{n}.yaml").write_text(text, "utf-8")
    return folder


@pytest.fixture
def described(tmp_path: Path) -> Path:
    file = tmp_path / "cord.yaml"
    file.write_text(PIECE, "utf-8")
    return file


def figures(run, *arguments):
    told = json.loads(run("plan", "--json", *arguments).stdout)
    return {f["key"]: f for f in told["figures"]}, told


def test_the_plan_uses_what_was_measured(run, register, described):
    """By hand: 200 picks in 296, 298 ... 306 mm, so 301 / 200 mm in the middle; 200 picks in
    50 min are 4 a minute; (660 - 330) / 301 is the take-up in the middle."""
    bare, before = figures(run, described)
    told, after = figures(run, described, "--register", register)
    assert told["pick_spacing"]["value"] == pytest.approx(301 / 200)
    assert (told["pick_spacing"]["low"], told["pick_spacing"]["high"]) == pytest.approx(
        (1.48, 1.53)
    )
    assert told["pace"]["value"] == pytest.approx(4)
    assert told["take_up"]["value"] == pytest.approx(330 / 301, rel=0.002)
    assert told["thickness"]["value"] == pytest.approx(2.6)
    for key in ("pick_spacing", "pace", "take_up", "thickness"):
        assert told[key]["origin"] == "measured", key
        assert bare[key]["origin"] != "measured", key
        assert "median of 6 pieces of madder: SW-1, SW-2" in told[key]["working"]
    assert after["version"].startswith(before["version"] + "+")


def test_the_key_does_as_the_option(run, register, described):
    by_option, _ = figures(run, described, "--register", register)
    described.write_text(PIECE + "register: filed\n", "utf-8")
    by_key, _ = figures(run, described)
    assert by_key == by_option


def test_the_sheet_names_the_pieces(run, register, described, tmp_path):
    for templates, words in (("english", "Learned from pieces"), ("german", "Gelernt an")):
        out = tmp_path / f"{templates}.pdf"
        done = run(
            "print", described, "--register", register, "--out", out, "--templates", templates
        )
        assert done.exit_code == 0, done.output
        with pdfplumber.open(out) as pdf:
            text = " ".join((pdf.pages[0].extract_text() or "").split())
        assert words in text
        assert "SW-1, SW-2, SW-3, SW-4, SW-5, SW-6" in text


def test_a_piece_teaches_itself_nothing(run, register):
    own = register / "sw-1.yaml"
    told, _ = figures(run, own, "--register", register)
    assert "SW-1" not in told["pace"]["working"]
    assert "median of 5 pieces" in told["pace"]["working"]


def test_a_copy_counts_once_and_a_number_twice_is_told(run, register, described):
    one = (register / "sw-1.yaml").read_text("utf-8")
    (register / "copy.yaml").write_text(one, "utf-8")
    (register / "other.yaml").write_text(one.replace("296", "500"), "utf-8")
    (register / "broken.yaml").write_text("made: [", "utf-8")
    done = run("plan", described, "--register", register)
    assert done.exit_code == 0
    assert "median of 6 pieces" in done.stdout
    assert "1 file cannot be read; 1 file with the number of another left out" in done.stderr


def test_another_yarn_than_planned_teaches_only_the_pace(run, register, described):
    for file in register.iterdir():
        text = file.read_text("utf-8")
        more = "  yarns used: {weld: {amount: 5 g, instead of: madder}}\n"
        file.write_text(text + more, "utf-8")
    told, _ = figures(run, described, "--register", register)
    assert told["pace"]["origin"] == "measured"
    assert told["pick_spacing"]["origin"] == "rule of thumb"


def test_a_folder_that_is_not_there_is_told_at_its_place(run, described):
    """A description that was filed since lies far from the register that it names."""
    described.write_text(PIECE + "register: nowhere\n", "utf-8")
    done = run("plan", described)
    assert done.exit_code == 0
    assert "6:11: warning: " in done.stderr
    assert "[no-such-register]" in done.stderr
    assert run("print", described, "--register", described).exit_code == 1


@pytest.mark.skipif(os.name == "nt", reason="links need leave there")
def test_links_lead_nowhere_else(run, register, described, tmp_path):
    away = tmp_path.parent / f"{tmp_path.name}-away"
    away.mkdir()
    (away / "x.yaml").write_text(MADE.format(n=9, number="SW-9", length=300), "utf-8")
    (register / "link").symlink_to(away, target_is_directory=True)
    (register / "link.yaml").symlink_to(away / "x.yaml")
    (register / ".hidden").mkdir()
    (register / ".hidden" / "y.yaml").write_text(
        MADE.format(n=8, number="SW-8", length=300), "utf-8"
    )
    told, _ = figures(run, described, "--register", register)
    assert "median of 6 pieces" in told["pace"]["working"]
    (tmp_path / "elsewhere").symlink_to(away, target_is_directory=True)
    described.write_text(PIECE + "register: elsewhere\n", "utf-8")
    done = run("plan", described)
    assert done.exit_code == 1
    assert "[register-outside]" in done.stderr


def test_a_register_that_changed_meanwhile_is_read_anew(run, register, described):
    """Within one process, as when many pieces are printed or one is watched."""
    before, _ = figures(run, described, "--register", register)
    for file in register.iterdir():
        file.write_text(file.read_text("utf-8").replace("picks woven: 200", "picks woven: 210"))
    after, _ = figures(run, described, "--register", register)
    assert after["pick_spacing"]["value"] == pytest.approx(301 / 210)
    assert before["pick_spacing"]["value"] == pytest.approx(301 / 200)
