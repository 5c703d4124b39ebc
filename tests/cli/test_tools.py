"""A guild's own tools.yaml: on every sheet that names tools, with mistakes at their places."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest

from sheetgen.cli.sets import TOOLED, shipped

OWN = 'parts: {tools: {tools: {beater: "Sword | sword of whalebone | wooden spoon"}}}\n'


@pytest.fixture
def guild(tmp_path: Path) -> Path:
    folder = tmp_path / "guild"
    folder.mkdir()
    (folder / "tools.yaml").write_text(OWN, encoding="utf-8")
    return folder


def text_of(file: Path) -> str:
    with pdfplumber.open(io.BytesIO(file.read_bytes())) as pdf:
        return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


@pytest.mark.parametrize("sheet", ["loom", "kit", "cutouts"])
def test_a_changed_stand_in_is_on_every_sheet_that_names_tools(run, piece, guild, tmp_path, sheet):
    out = tmp_path / "sheet.pdf"
    done = run("print", piece("cord"), "--sheet", sheet, "--templates", guild, "--out", out)
    assert done.exit_code == 0, done.output
    text = text_of(out)
    assert "wooden spoon" in text
    assert ("sword of whalebone" in text) == (sheet != "kit")  # a guest has the stand-in
    assert "a ruler" not in text


def test_own_words_and_own_tools_go_together_and_both_travel(run, piece, guild, tmp_path):
    (guild / "loom.yaml").write_text(
        "words: {title: Guild sheet}\nparts: {materials: {tools: {shuttle: none}}}\n"
    )
    out = tmp_path / "sheet.pdf"
    assert run("print", piece("cord"), "--templates", guild, "--out", out).exit_code == 0
    text = text_of(out)
    assert "Guild sheet" in text
    assert "wooden spoon" in text
    assert "butterfly of weft" not in text
    back = tmp_path / "back"
    back.mkdir()
    run("recover", out, "--out", back)
    assert {f.name for f in back.iterdir()} >= {"loom.yaml", "tools.yaml"}
    assert (back / "tools.yaml").read_text(encoding="utf-8") == OWN


def test_tools_in_german_bring_the_german_sheet(run, piece, guild, tmp_path):
    (guild / "tools.yaml").write_text(f"based on: german\n{OWN}", encoding="utf-8")
    out = tmp_path / "sheet.pdf"
    assert run("print", piece("cord"), "--templates", guild, "--out", out).exit_code == 0
    text = text_of(out)
    assert "Webanleitung" in text
    assert "wooden spoon" in text
    assert "Tischbein" in text


@pytest.mark.parametrize(
    ("text", "place", "code"),
    [
        ("parts: {tools: {tools: {beter: none}}}", "tools.yaml:1:25", "unknown-line"),
        ('parts: {tools: {tools: {belt: "{tabletts} | a | b"}}}', "tools.yaml", "unknown-figure"),
        ("parts: {tool: {}}", "tools.yaml:1:9", "unknown-part"),
    ],
)
def test_a_mistake_is_told_at_its_place_on_every_sheet_and_by_check(
    run, piece, guild, tmp_path, text, place, code
):
    (guild / "tools.yaml").write_text(text)
    for sheet in ("loom", "kit", "cutouts"):
        done = run("print", piece("cord"), "--sheet", sheet, "--templates", guild,
                   "--out", tmp_path / "no.pdf")  # fmt: skip
        assert done.exit_code == 1
        assert place in done.stderr
        assert f"[{code}]" in done.stderr
    file = piece("cord")
    file.write_text(file.read_text(encoding="utf-8") + "\ntemplates: guild\n", encoding="utf-8")
    done = run("check", file)
    assert done.exit_code == 1
    assert done.stderr.count(f"[{code}]") + done.stdout.count(f"[{code}]") == 1


def test_both_languages_have_the_same_tools_each_with_three_cells():
    english, german = (shipped("tools", name).template for name in ("english", "german"))
    assert english is not None
    assert german is not None
    for name, lines in english.parts[0].lists.items():
        others = german.parts[0].lists[name]
        assert [(line.key, line.when) for line in lines] == [(o.key, o.when) for o in others]
        for line in (*lines, *others):
            cells = [cell.strip() for cell in line.say.split("|")]
            assert len(cells) == 3, line.key
            assert all(cells), line.key
        assert all(a.say != b.say for a, b in zip(lines, others, strict=True))


@pytest.mark.parametrize("language", ["english", "german"])
@pytest.mark.parametrize("sheet", list(TOOLED))
def test_no_sheet_has_tools_of_its_own(sheet, language):
    template, tools = shipped(sheet, language).template, shipped("tools", language).template
    assert template is not None
    assert tools is not None
    part = next(p for p in template.parts if p.name == TOOLED[sheet])
    for line in part.lists["tools"]:
        assert any(line in lines for lines in tools.parts[0].lists.values()), line.key
    keys = [line.key for line in part.lists["tools"]]
    assert len(keys) == len(set(keys)) >= len(tools.parts[0].lists["tools"])
