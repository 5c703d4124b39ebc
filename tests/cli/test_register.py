"""``register`` and ``file``: all names and finds are invented."""

import csv
import io
import json
import re

import pdfplumber
import pytest

from sheetgen.cli import listing
from sheetgen.cli.filing import with_number
from sheetgen.cli.records import records_below
from sheetgen.cli.run import plan_file

PIECE = """piece: Cord {n} of the Sedgewater Company
{number}form: cord
date: 2025-03-0{n}
length: 30 cm
find: {{name: Cord from the mill race, invented: yes, thickness: 2.5 mm}}
yarns: {{madder: {{fibre: wool, count: 20/2 Nm, preparation: worsted}}}}
tablets: 6
"""


def described(folder, n, number="", more=""):
    folder.mkdir(exist_ok=True, parents=True)
    file = folder / f"cord-{n}.yaml"
    line = f"number: {number}\n" if number else ""
    file.write_text(PIECE.format(n=n, number=line) + more, "utf-8")
    return file


@pytest.fixture
def shelf(tmp_path):
    """Three pieces, the second made, the third in a deeper folder."""
    folder = tmp_path / "all"
    described(folder, 1, "SW-10")
    made = "made: {finished: 2026-01-02, length: 29 cm, thickness: 2.7 mm}\n"
    described(folder, 2, "SW-9", made)
    described(folder / "deep" / "er", 3)
    return folder


def test_every_piece_below_is_listed_by_its_number(run, shelf):
    done = run("register", shelf)
    assert done.exit_code == 0
    lines = done.stdout.splitlines()
    assert [line.split()[0] for line in lines[1:3]] == ["SW-9", "SW-10"]
    assert "2.7 mm × 29 cm" in lines[1]
    assert lines[3].rstrip().endswith(".yaml") or "…" in lines[3]
    assert "3 pieces" in lines[-1]


def test_a_sheet_of_a_description_counts_once_and_alone_as_well(run, shelf):
    """What is printed carries its description, which is found in it when the file is gone."""
    one = shelf / "cord-1.yaml"
    assert run("print", one).exit_code == 0
    told = json.loads(run("register", shelf, "--json").stdout)
    assert (len(told["pieces"]), told["copies"]) == (3, 1)
    one.unlink()
    told = json.loads(run("register", shelf, "--json").stdout)
    assert (len(told["pieces"]), told["copies"]) == (3, 0)
    assert "cord-1-loom.pdf" in [piece["file"] for piece in told["pieces"]]


def test_twice_given_numbers_and_unreadable_files_are_listed(run, shelf):
    described(shelf / "deep", 4, "SW-9")
    (shelf / "bad.yaml").write_text("piece: x\nform: kord\n", "utf-8")
    (shelf / "torn.pdf").write_bytes(b"%PDF-1.7\nand no more")
    (shelf / "words.yaml").write_text("words: {title: ours}\n", "utf-8")
    (shelf / "photograph.jpg").write_bytes(b"\xff\xd8")
    done = run("register", shelf)
    assert done.exit_code == 0
    assert "number SW-9 stands on 2 records: cord-2.yaml, deep/cord-4.yaml" in done.stderr
    assert "cannot be read: bad.yaml: line 1: “yarns” is missing" in done.stderr
    assert "cannot be read: torn.pdf: " in done.stderr
    assert "4 pieces, 1 file of another kind, 2 unreadable" in done.stdout


def test_the_pdf_has_an_index_by_find_yarn_and_year(run, shelf, tmp_path):
    (shelf / "torn.pdf").write_bytes(b"no PDF")
    wanted = {
        "english": ("By find", "By yarn", "By year", "To be looked into", "as planned"),
        "german": ("Nach Fund", "Nach Garn", "Nach Jahr", "Zu prüfen", "wie geplant"),
    }
    for name, words in wanted.items():
        out = tmp_path / f"{name}.pdf"
        assert run("register", shelf, "--out", out, "--templates", name).exit_code == 0
        with pdfplumber.open(out) as pdf:
            text = "\n".join(page.extract_text() for page in pdf.pages)
            fonts = {c["fontname"] for page in pdf.pages for c in page.chars}
        for word in words:
            assert word in text
        assert all(re.match(r"[A-Z]{6}\+", font) for font in fonts)  # embedded, as a subset
        flat = " ".join(text.split())
        assert "Cord from the mill race SW-9, SW-10, (deep/er/cord-3.yaml)" in flat
        assert "2026 SW-9" in flat
        assert "2025 SW-10, (deep/er/cord-3.yaml)" in flat


def test_csv_is_read_back_as_it_was(run, shelf, tmp_path):
    described(shelf, 5, "=1+1")
    out = tmp_path / "all.csv"
    assert run("register", shelf, "--csv", out).exit_code == 0
    rows = list(csv.DictReader(io.StringIO(out.read_text("utf-8-sig"))))
    made = next(row for row in rows if row["number"] == "SW-9")
    assert (made["length mm"], made["thickness mm"], made["year"]) == ("290.0", "2.7", "2026")
    assert made["measured"] == "length; thickness"
    assert "'=1+1" in [row["number"] for row in rows]  # no formula for a spreadsheet


def test_an_empty_folder_and_none(run, tmp_path):
    assert "0 pieces" in run("register", tmp_path).stdout
    out = tmp_path / "r.pdf"
    assert run("register", tmp_path, "--out", out).exit_code == 0
    assert run("register", tmp_path / "nowhere").exit_code == 1
    assert run("register", tmp_path, "--out", tmp_path / "r.txt").exit_code == 1
    file = described(tmp_path, 1)
    before = file.read_bytes()
    assert run("register", tmp_path, "--csv", file).exit_code == 1
    assert file.read_bytes() == before
    assert run("register", tmp_path, "--templates", "french").exit_code == 1


def test_a_narrow_window_is_kept(shelf):
    found = records_below(shelf)
    for width in (80, 100, 160):
        assert max(map(len, listing.table(found, width).splitlines())) <= width


def test_memory_and_work_grow_with_the_rows_only(shelf, monkeypatch):
    """Every description is read and worked out once, whatever their number."""
    from sheetgen.plan import gist

    calls = []
    real = gist.gist_of
    monkeypatch.setattr(gist, "gist_of", lambda *given: calls.append(1) or real(*given))
    found = records_below(shelf)
    assert len(calls) == len(found.rows) == 3


def test_filing_gives_the_next_number_and_writes_it_into_the_copy(run, tmp_path):
    filed = tmp_path / "filed"
    for n in (1, 2):
        done = run("file", described(tmp_path, n), "--in", filed, "--prefix", "SW")
        assert done.exit_code == 0, done.output
        assert f"as SW-000{n}: " in done.stdout
    source = (tmp_path / "cord-1.yaml").read_bytes()
    copy = (filed / "SW-0001" / "SW-0001.yaml").read_bytes()
    assert copy == b'number: "SW-0001"\n' + source
    told = json.loads(run("register", filed, "--json").stdout)
    assert [p["number"] for p in told["pieces"]] == ["SW-0001", "SW-0002"]
    assert told["copies"] == 2  # the records carry the very bytes of the copies


def test_a_filed_piece_is_replaced_only_when_asked(run, tmp_path):
    filed, file = tmp_path / "filed", described(tmp_path, 1, "SW-7")
    assert run("file", file, "--in", filed).exit_code == 0
    before = (filed / "SW-7" / "SW-7.yaml").read_bytes()
    file.write_bytes(before + b"notes: changed\n")
    refused = run("file", file, "--in", filed)
    assert refused.exit_code == 1
    assert "this number is filed already [number-taken]" in refused.stderr
    assert "--replace" in refused.stderr
    assert (filed / "SW-7" / "SW-7.yaml").read_bytes() == before
    assert run("file", file, "--in", filed, "--replace").exit_code == 0
    assert (filed / "SW-7" / "SW-7.yaml").read_bytes() == before + b"notes: changed\n"
    inside = filed / "SW-7" / "SW-7.yaml"  # and the filed copy itself may be worked on
    inside.write_bytes(before + b"notes: once more\n")
    assert run("file", inside, "--in", filed).exit_code == 1
    assert run("file", inside, "--in", filed, "--replace").exit_code == 0
    assert inside.read_bytes() == before + b"notes: once more\n"


def test_the_same_description_is_not_filed_twice(run, tmp_path):
    file = described(tmp_path, 1)
    assert run("file", file, "--in", tmp_path / "filed").exit_code == 0
    again = run("file", file, "--in", tmp_path / "filed")
    assert again.exit_code == 1
    assert "this very description is filed already" in again.stderr
    assert not (tmp_path / "filed" / "0002").exists()


@pytest.mark.parametrize(
    "change",
    [
        lambda data: data,
        lambda data: data.replace(b"\n", b"\r\n"),
        lambda data: b"\xef\xbb\xbf" + data,
        lambda data: b"# a remark\n---\n" + data,
        lambda data: data.rstrip(b"\n"),
        lambda data: data.replace(b"piece: ", b"piece:\n  "),
    ],
    ids=["plain", "crlf", "mark", "remark", "no-end", "value-below"],
)
def test_a_number_goes_into_every_way_of_writing(tmp_path, change):
    file = described(tmp_path, 1)
    file.write_bytes(change(file.read_bytes()))
    numbered = with_number(plan_file(file), "SW-0001")
    assert numbered is not None
    assert numbered.plan.project.number == "SW-0001"
    lines = numbered.data.splitlines()
    assert [line for line in lines if b"number: " not in line] == [
        line.removeprefix(b"\xef\xbb\xbf") if b"number: " in lines[0] else line
        for line in file.read_bytes().splitlines()
    ]


def test_what_the_description_names_is_filed_with_it(run, tmp_path):
    from PIL import Image

    (tmp_path / "pictures").mkdir()
    Image.new("RGB", (40, 30), "red").save(tmp_path / "pictures" / "cord.png")
    more = "made: {photographs: [pictures/cord.png]}\n"
    done = run("file", described(tmp_path, 1, more=more), "--in", tmp_path / "filed")
    assert done.exit_code == 0, done.output
    kept = tmp_path / "filed" / "0001" / "pictures" / "cord.png"
    assert kept.read_bytes() == (tmp_path / "pictures" / "cord.png").read_bytes()
    assert run("check", tmp_path / "filed" / "0001" / "0001.yaml").exit_code == 0


@pytest.mark.parametrize("prefix", ["../x", "a b", "-x", "x" * 30])
def test_a_prefix_is_letters_and_digits(run, tmp_path, prefix):
    done = run("file", described(tmp_path, 1), "--in", tmp_path / "filed", f"--prefix={prefix}")
    assert done.exit_code == 2


def test_the_pieces_of_a_year_are_asked_for(run, shelf):
    """The second was finished in 2026, the others are of 2025."""
    done = run("register", shelf, "--year", "2026")
    assert [line.split()[0] for line in done.stdout.splitlines()[1:-1]] == ["SW-9"]
    assert run("register", shelf, "--year", "1999").stdout.startswith("0 pieces")
    assert "whole number" in run("register", shelf, "--year", "last").stderr


def test_filing_says_when_no_year_will_find_the_piece(run, tmp_path):
    dated = described(tmp_path, 1)
    assert "no date" not in run("file", dated, "--in", tmp_path / "filed").stdout
    undated = tmp_path / "undated.yaml"
    undated.write_text(dated.read_text("utf-8").replace("date: 2025-03-01\n", ""), "utf-8")
    assert "no date" in run("file", undated, "--in", tmp_path / "filed").stdout
