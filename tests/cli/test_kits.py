"""``sheetgen kits``: what it prints, says, and refuses."""

import json
import re
from pathlib import Path

import pdfplumber
import pytest

from sheetgen.resources import data_folder

PLAIN = "piece: Lace\nform: cord\nlength: 60 cm\ntablets: 6\nyarns: {red: {wraps: 16 per cm}}\n"


@pytest.fixture
def workshop(tmp_path):
    source = Path(data_folder("example_projects") / "town-day-workshop.yaml")
    file = tmp_path / "workshop.yaml"
    file.write_bytes(source.read_bytes())
    return file


def test_the_organiser_s_sheet_says_what_to_buy_and_has_a_label_for_every_bag(
    run, workshop, tmp_path
):
    done = run("kits", workshop, "--out", tmp_path)
    assert done.exit_code == 0, done.stderr
    with pdfplumber.open(tmp_path / "workshop-organiser.pdf") as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
        boxes = [r for page in pdf.pages for r in page.rects]
    assert "52.25\u00a0EUR" in text or "52.25 EUR" in text
    assert "7 packs of 50" in text
    assert sorted(map(int, re.findall(r"Bag (\d+)", text))) == list(range(1, 17))
    # 16 bags of 8 things and the kit sheet, in boxes of 5 mm (72 points to the inch)
    five = [b for b in boxes if abs(b["width"] * 25.4 / 72 - 5) < 0.06]
    assert len(five) >= 16 * 9


def test_json_holds_the_same(run, workshop):
    found = json.loads(run("kits", workshop, "--people", "14", "--spares", "0", "--json").stdout)
    assert (found["people"], found["bags"]) == (14, 14)
    wood = next(row for row in found["buy"] if row["name"] == "wood")
    # 14 × 18 = 252 and 26 in reserve are 278: 6 packs of 50, 4.50 each
    assert (wood["units"], wood["left"], wood["price"]) == (6, 48, "27.00 EUR")


def test_without_a_kit_the_piece_itself_goes_into_the_bags(run, tmp_path):
    file = tmp_path / "lace.yaml"
    file.write_text(PLAIN)
    assert run("kits", file, "--people", "3").exit_code == 0
    assert (tmp_path / "lace-organiser.pdf").exists()


def test_somebody_must_say_how_many(run, tmp_path):
    file = tmp_path / "lace.yaml"
    file.write_text(PLAIN)
    done = run("kits", file)
    assert done.exit_code == 1
    assert "[no-people]" in done.stderr


@pytest.mark.parametrize("people", ["0", "10000", "-3", "many"])
def test_impossible_numbers_of_people_are_refused(run, workshop, people):
    done = run("kits", workshop, "--people", people)
    assert done.exit_code == 2
    assert "--people" in done.stderr


def test_too_few_people_for_the_names_are_told_at_their_place(run, workshop):
    done = run("kits", workshop, "--people", "3")
    assert done.exit_code == 1
    assert re.search(r"workshop\.yaml:\d+:\d+: error: 14 names for 3 people", done.stderr)


def test_check_looks_at_the_kit_too(run, tmp_path):
    file = tmp_path / "lace.yaml"
    file.write_text(PLAIN + "kit: {differs: {lenght: 2 cm}}\n")
    done = run("check", file)
    assert done.exit_code == 1
    assert ":6:17: error: kit: “lenght” is not a key" in done.stdout


def test_sentences_of_one_s_own_may_name_the_bags(run, workshop, tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    text = 'parts: {checks: {list: {bags: "Bags in the chest: {bags}."}}}'
    (own / "organiser.yaml").write_text(text)
    done = run("kits", workshop, "--templates", own)
    assert done.exit_code == 0, done.stderr
    with pdfplumber.open(tmp_path / "workshop-organiser.pdf") as pdf:
        text = "".join(page.extract_text() for page in pdf.pages)
    assert "Bags in the chest: 16." in text


def test_a_booklet_of_kits_is_refused(run, workshop):
    done = run("kits", workshop, "--booklet")
    assert done.exit_code == 2
    assert "without --booklet" in done.stderr


def test_plan_tells_of_the_kit(run, workshop):
    assert "Kit, First string of beads: cord" in run("plan", workshop).stdout
    assert json.loads(run("plan", workshop, "--json").stdout)["kit"]["form"] == "loop"


def test_a_kit_sheet_for_every_bag_bears_its_number(run, workshop, tmp_path):
    done = run("kits", workshop, "--numbered", "--spares", "0")
    assert done.exit_code == 0, done.stderr
    with pdfplumber.open(tmp_path / "workshop-kit.pdf") as pdf:
        heads = [page.extract_text().split("\n")[0] for page in pdf.pages[:4]]
        assert len(pdf.pages) == 2 * 14
    assert ["Bag 1" in h for h in heads] == [True, True, False, False]
    assert all(f"page {n % 2 + 1} of 2" in h for n, h in enumerate(heads))


def test_on_a5_it_says_how_many_sheets_of_paper_a_guest_is_given(run, workshop, tmp_path):
    done = run("kits", workshop, "--out", tmp_path, "--paper", "A5", "--numbered")
    assert done.exit_code == 0
    with pdfplumber.open(tmp_path / "workshop-kit.pdf") as pdf:
        pages = len(pdf.pages) / 16  # 14 guests and 2 spare bags
    said = re.search(r"takes (\d+) pages: (\d+) sheets of A5", done.stderr)
    assert said is not None, done.stderr
    assert int(said[1]) == pages
    assert int(said[2]) == -(-pages // 2)  # a sheet has two sides
    assert "several-sheets" not in run("kits", workshop, "--out", tmp_path).stderr


@pytest.mark.parametrize(("length", "crowded"), [("40 cm", False), ("8 m", True)])
def test_a_box_for_many_picks_is_warned_of_at_the_length(run, tmp_path, length, crowded):
    file = tmp_path / "lace.yaml"
    kit = f"kit:\n  people: 3\n  differs:\n    length: {length}\n"
    file.write_text(PLAIN + kit)
    done = run("kits", file)
    assert done.exit_code == 0
    # counted: the length stands on the ninth line
    assert ("lace.yaml:9:13: warning" in done.stderr) == crowded
    assert ("[crowded-boxes]" in done.stderr) == crowded
    assert ("“length” in “differs”" in done.stderr) == crowded


def test_a_kit_sheet_that_does_not_fit_names_the_key_and_how_much(run, tmp_path):
    file = tmp_path / "lace.yaml"
    steps = ", ".join(f"forward {n}, backward {n}" for n in range(1, 41))  # counted: 80 steps
    file.write_text(PLAIN.replace("60 cm", "5 m") + f"turning: [{steps}]\n")
    done = run("print", file, "--sheet", "kit")
    assert done.exit_code == 1
    assert re.search(r"about \d+ % longer than the 2 pages of A4", done.stderr)
    assert "“turning”: 80 different steps, about 68 too many" in done.stderr
    assert "larger paper" not in done.stderr
