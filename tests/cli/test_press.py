"""The options of printing as they are typed: what they do to the file, and what is refused."""

from __future__ import annotations

import itertools

import pdfplumber
import pytest
from pypdf import PdfReader

from sheetgen.resources import data_folder

MM = 72 / 25.4
LABEL = ("picks", "expected")


def sizes(file):
    boxes = [page.mediabox for page in PdfReader(file).pages]
    return {(round(float(b.width) / MM, 1), round(float(b.height) / MM, 1)) for b in boxes}


def test_a_booklet_is_a4_on_its_side(run, piece, tmp_path):
    out = tmp_path / "b.pdf"
    result = run("print", piece("cord"), "--booklet", "--out", out)
    assert (result.exit_code, result.stderr) == (0, "")
    assert f"{len(PdfReader(out).pages)} sides of A4 to fold" in result.stdout
    assert len(PdfReader(out).pages) % 2 == 0
    assert sizes(out) == {(297.0, 210.0)}  # published: ISO 216
    assert run("print", piece("cord"), "--booklet", "--out", tmp_path / "c.pdf").exit_code == 0
    assert (tmp_path / "c.pdf").read_bytes() == out.read_bytes()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--printer-factor", "0.96"], "0.94 or 0.96 means that the page was fitted to the paper"),
        (["--printer-factor", "1.0301"], "a factor lies from 0.97 to 1.03"),
        (["--printer-factor", "nan"], "a factor lies from 0.97 to 1.03"),
        (["--printer-factor", "97 %"], "is not a number; write e.g. 0.985"),
        (["--binding", "8"], "a number without a unit"),
        (["--binding", "21mm"], "from 0 to 20 mm can be spared"),
        (["--binding=-1mm"], "Invalid value for '--binding'"),
        (["--booklet", "--paper", "Letter"], "leave --paper Letter out"),
    ],
)
def test_what_cannot_be_is_refused_with_its_reason(run, piece, words, told):
    file = piece("cord")
    result = run("print", file, *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in " ".join(result.stderr.split())
    assert list(file.parent.iterdir()) == [file]


def test_a_factor_in_the_description_counts_unless_one_is_typed(run, piece, tmp_path):
    file = piece("cord", "printer factor: 0.98\n")
    for words, factor in (([], "0.98"), (["--printer-factor", "1.02"], "1.02")):
        out = tmp_path / "f.pdf"
        assert run("print", file, "--out", out, *words).exit_code == 0
        text = "\n".join(page.extract_text() for page in PdfReader(out).pages)
        assert f"Printer factor {factor} is applied" in text
    assert run("print", file, "--out", out, "--printer-factor", "1").exit_code == 0
    assert "factor" not in "\n".join(page.extract_text() for page in PdfReader(out).pages)


def test_a_factor_that_no_printer_has_is_told_at_its_line(run, piece):
    result = run("check", piece("cord", "printer factor: 0.94\n"))
    assert result.exit_code == 1
    said = " ".join(result.stdout.split())
    assert "printer factor: outside what is possible [out-of-range]" in said
    assert "0.94 or 0.96 means that the page was fitted to the paper" in said


def test_large_print_has_letters_of_13_points(run, piece, tmp_path):
    plain, large = tmp_path / "p.pdf", tmp_path / "l.pdf"
    assert run("print", piece("cord"), "--out", plain).exit_code == 0
    assert run("print", piece("cord"), "--out", large, "--large").exit_code == 0
    assert len(PdfReader(large).pages) > len(PdfReader(plain).pages)


def test_a_character_of_a_template_that_no_font_has_is_named(run, piece, tmp_path):

    text = (data_folder("templates") / "loom.yaml").read_text(encoding="utf-8")
    changed = text.replace("heading: Materials", "heading: Materials 絹", 1)
    folder = tmp_path / "templates"
    folder.mkdir()
    (folder / "loom.yaml").write_text(changed, encoding="utf-8")
    result = run("print", piece("cord"), "--templates", folder)
    assert result.exit_code == 0
    lines = changed.splitlines()
    line = next(i for i, words in enumerate(lines, start=1) if "絹" in words)
    column = lines[line - 1].index("絹") + 1
    said = result.stderr.replace("\n", "")
    assert f"{folder / 'loom.yaml'}:{line}:{column}: warning: " in said
    assert "“絹” (U+7D79): its number will stand there" in said


def test_the_name_of_a_paper_may_be_in_small_letters(run, piece):
    assert run("print", piece("cord"), "--paper", "letter").exit_code == 0
    assert run("print", piece("cord"), "--paper", "legal").exit_code == 2


def test_the_ruler_beside_the_picks_is_in_inches_where_they_are_wanted(run, piece):
    """An inch is 72 points: the numbers above the bar stand so far apart."""
    file = piece("band", "units: inches\n")
    assert run("print", file).exit_code == 0
    with pdfplumber.open(file.with_name("band-loom.pdf")) as pdf:
        page = next(p for p in pdf.pages if "picks expected" in p.extract_text())
        words = page.extract_words()
    (label,) = (a for a, b in itertools.pairwise(words) if (a["text"], b["text"]) == LABEL)
    row = [w for w in words if w["text"].isdigit() and 10 < label["top"] - w["top"] < 40]
    middles = sorted((w["x0"] + w["x1"]) / 2 for w in row)
    assert len(middles) == 5
    assert all(b - a == pytest.approx(72, abs=0.5) for a, b in itertools.pairwise(middles))
