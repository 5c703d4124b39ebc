"""Sentences of the user's own: what they change, and what is said of those with mistakes."""

from __future__ import annotations

import io
import json
import os
import re
import textwrap
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest

from sheetgen.cli.sets import names


@pytest.fixture
def words(tmp_path: Path) -> Callable[[str], Path]:
    """A folder beside the description with a loom.yaml of these lines."""

    def words(text: str, folder: str = "ours") -> Path:
        (tmp_path / folder).mkdir(exist_ok=True)
        file = tmp_path / folder / "loom.yaml"
        file.write_text(textwrap.dedent(text).lstrip("\n"), encoding="utf-8")
        return file.parent

    return words


@pytest.fixture
def sheet(run, piece, tmp_path: Path) -> Callable[..., str]:
    """The text of the sheet of a cord, printed with a folder or a set."""

    def sheet(templates: object) -> str:
        out = tmp_path / "sheet.pdf"
        done = run("print", piece("cord"), "--templates", templates, "--out", out)
        assert done.exit_code == 0, done.output
        return text_of(out)

    return sheet


def text_of(file: Path) -> str:
    with pdfplumber.open(io.BytesIO(file.read_bytes())) as pdf:
        return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


def faults(run, file: Path, folder: Path | str) -> list[tuple[str, str, str]]:
    """Place, code and hint of everything that is said of a file of templates."""
    out = file.with_suffix(".pdf")
    done = run("print", file, "--templates", folder, "--out", out)
    assert done.exit_code == 1
    assert not out.exists(), "nothing is written"
    found = []
    for line in done.stderr.splitlines():
        if line.endswith("]") and " error: " in line:
            place = line.partition(": ")[0].removeprefix(f"{folder}{os.sep}")
            found.append((place, line.rpartition("[")[2][:-1], ""))
        elif line.startswith("    hint") and found:
            found[-1] = (*found[-1][:2], line.removeprefix("    hint").strip())
    return found


def test_one_sentence_of_your_own_and_all_others_as_they_are(sheet, words):
    text = sheet(
        words(
            """
            words: {title: Our loom sheet}
            parts:
              threading:
                heading: Threading the tablets
                steps:
                  try: Turn once, as {holes} holes want it.
            """
        )
    )
    assert "Our loom sheet" in text
    assert "Threading the tablets" in text
    assert "Turn once, as 4 holes want it." in text
    assert "thread is crossed" not in text
    assert "Comb the warp, stroke all ends" in text


def test_a_sentence_keeps_its_conditions_unless_others_are_given(sheet, words):
    text = sheet(
        words(
            """
            parts:
              at a glance:
                what:
                  band: A band it is.
                  cord: {say: A cord it is.}
                  pieces: {when: [cord]}
            """
        )
    )
    assert "A band it is" not in text
    assert "A cord it is." in text
    assert "Make 1 alike" in text


def test_lines_are_dropped_and_added_where_they_are_wanted(sheet, words):
    text = sheet(
        words(
            """
            parts:
              threading:
                steps:
                  try: none
                  beer: {say: Have a rest., after: check}
              materials:
                tools: none
            """
        )
    )
    assert "thread is crossed" not in text
    steps = text.partition("Look down on the pack")[2]
    assert steps.index("Have a rest.") < steps.index("Knot the near ends")
    assert "Household stand-in" not in text


def test_a_list_of_your_own_stands_instead(sheet, words):
    text = sheet(
        words(
            """
            parts:
              threading:
                steps:
                  - try
                  - ask: Ask somebody to look.
            """
        )
    )
    assert text.index("Turn the whole pack forward") < text.index("Ask somebody to look.")
    assert "Look down on the pack" not in text


def test_parts_are_put_in_another_order_and_left_out(sheet, words):
    text = sheet(words("order: [warp, threading, turning, at a glance]"))
    assert text.index("Every end is cut") < text.index("Scissors, needles, awls")
    assert "Household stand-in" not in text


def test_german_by_option_by_key_and_as_the_base_of_your_own(sheet, words, run, piece, tmp_path):
    assert "Webanleitung" in sheet("german")
    text = sheet(words("based on: german\nwords: {title: Unser Blatt}\n"))
    assert "Unser Blatt" in text
    assert "Einzug" in text
    file = piece("cord", "templates: german\n", to="g.yaml")
    assert run("print", file).exit_code == 0
    assert "Kettfaden" in text_of(file.with_name("g-loom.pdf"))
    assert names("loom") == ("english", "german")


def test_a_folder_named_in_the_description_lies_beside_it(run, piece, words):
    words("words: {title: Our loom sheet}\n")
    file = piece("cord", "templates: ours\n")
    assert run("print", file).exit_code == 0
    assert run("check", file).exit_code == 0


MISTAKES = [
    ("word: {title: A}", "loom.yaml:1:1", "unknown-key", "did you mean “words”?"),
    ("words: {titel: A}", "loom.yaml:1:9", "unknown-key", "did you mean “title”?"),
    ("parts: {wrap: {heading: A}}", "loom.yaml:1:9", "unknown-part", "did you mean “warp”?"),
    ("parts: {warp: {step: {a: b}}}", "loom.yaml:1:16", "unknown-key", "did you mean “steps”?"),
    ("parts: {warp: {steps: {befor: A}}}", "loom.yaml:1:24", "unknown-line",
     "did you mean “before”?"),
    ("parts: {warp: {steps: {a: {say: A, after: befor}}}}", "loom.yaml:1:43", "unknown-line",
     "did you mean “before”?"),
    ("parts: {warp: {steps: [before, wind it]}}", "loom.yaml:1:32", "unknown-line",
     "a sentence of your own needs a key before it: “- key: sentence”"),
    ("parts: {warp: {steps: {before: {sy: A}}}}", "loom.yaml:1:33", "unknown-key",
     "did you mean “say”?"),
    ("order: [warp, thredding]", "loom.yaml:1:15", "unknown-part", "did you mean “threading”?"),
    ("order: [warp, warp]", "loom.yaml:1:15", "given-twice", ""),
    ("order: warp", "loom.yaml:1:8", "wrong-form", ""),
    ("order: []", "loom.yaml:1:8", "wrong-form", ""),
    ("based on: germann", "loom.yaml:1:11", "unknown-set", "did you mean “german”?"),
    ("sheet: record", "loom.yaml:1:8", "unknown-sheet", ""),
    ("parts: {warp: {steps: {before: 'A {thicknes} cord'}}}", "loom.yaml:1:35",
     "unknown-figure", "did you mean {thickness}?"),
    ("parts: {warp: {steps: {before: 'A {thickness.rang} cord'}}}", "loom.yaml:1:35",
     "unknown-figure", "after the dot may stand: range, about, up, cut"),
    ("parts: {warp: {heading: '{piec}'}}", "loom.yaml:1:26", "unknown-figure",
     "did you mean {piece}?"),
    ("words: {page of: 'page {pag}'}", "loom.yaml:1:24", "unknown-figure", "did you mean {page}?"),
    ("parts: {warp: {words: {whole end: '{lenght}'}}}", "loom.yaml:1:36", "unknown-figure",
     "did you mean {length}?"),
    ("parts: {warp: {steps: {before: 'A {tassel_neck} neck'}}}", "loom.yaml:1:35",
     "figure-not-here", "print the line only where there is one: {say: ..., when: [tassels]}"),
    ("parts: {at a glance: {figures: {widht: {say: A, after: weft}}}}", "loom.yaml:1:33",
     "unknown-figure", "did you mean {width}?"),
    ("parts: {warp: {steps: {before: {say: A, when: [tubes]}}}}", "loom.yaml:1:48",
     "unknown-flag", "did you mean “tube”?"),
    ("parts: {warp: {steps: {before: {when: [not tubes]}}}}", "loom.yaml:1:40",
     "unknown-flag", "did you mean “tube”?"),
    ("parts: {warp: {steps: {before: '**A'}}}", "loom.yaml:1:33", "open-stars",
     "write ** before and after what shall be bold"),
    ("parts: {warp: {steps: {before: 'A {thickness'}}}", "loom.yaml:1:35", "open-brace",
     "write the name of a figure in braces, e.g. {thickness}"),
    ("parts: {warp: {steps: {before: [A]}}}", "loom.yaml:1:32", "wrong-form", ""),
    ("words: {title: none}", "loom.yaml:1:16", "left-out", 'write "" to print nothing here'),
    ("parts: {warp: {heading: none}}", "loom.yaml:1:25", "left-out",
     'write "" to print nothing here'),
    ("# nothing", "loom.yaml:1:1", "empty-file",
     "write what differs, e.g. “words: {title: Our loom sheet}”"),
    ("words: {title: A, title: B}", "loom.yaml:1:19", "duplicate-key", None),
]  # fmt: skip


@pytest.mark.parametrize(("text", "place", "code", "hint"), MISTAKES)
def test_a_mistake_stands_at_its_place(run, piece, words, monkeypatch, text, place, code, hint):
    monkeypatch.setenv("COLUMNS", "160")
    told = faults(run, piece("cord"), words(text + "\n"))
    assert [(p, c) for p, c, _ in told] == [(place, code)]
    assert hint is None or told[0][2] == hint


def test_a_figure_of_other_pieces_may_stand_where_it_is_kept_out(sheet, words):
    line = "{say: 'A neck of {tassel_neck}.', when: [tassels], after: before}"
    assert "A neck of" not in sheet(words(f"parts: {{warp: {{steps: {{neck: {line}}}}}}}\n"))


def test_all_mistakes_are_told_at_once(run, piece, words):
    told = faults(run, piece("cord"), words("words: {titel: A, titl: B}\norder: [wrap]\n"))
    assert [place for place, _, _ in told] == ["loom.yaml:1:9", "loom.yaml:1:19", "loom.yaml:2:9"]


def test_check_looks_at_the_templates_that_a_description_names(run, piece, words):
    words("words: {titel: A}\n")
    done = run("check", "--json", piece("cord", "templates: ours\n"))
    assert done.exit_code == 1
    files = [json.loads(line) for line in done.stdout.splitlines()]
    assert [(Path(f["file"]).name, len(f["diagnostics"])) for f in files] == [
        ("cord.yaml", 0), ("loom.yaml", 1)]  # fmt: skip


@pytest.mark.parametrize(
    "folder", ["../ours", "a/../../ours", "/ours", "~/ours", "C:/ours", "..\\o"]
)
def test_a_description_leads_to_no_folder_outside_its_own(run, piece, folder):
    done = run("check", piece("cord", f"templates: '{folder}'\n"))
    assert done.exit_code == 1
    assert "[folder-outside]" in done.stdout


@pytest.mark.parametrize("link", ["folder", "file"])
def test_nor_by_a_link(run, piece, words, tmp_path, link):
    file = piece("cord", "templates: inside\n")
    outside = words("words: {title: Ours}\n", "outside")
    home = tmp_path / "home"
    home.mkdir()
    file = file.rename(home / file.name)
    if link == "folder":
        (home / "inside").symlink_to(outside)
    else:
        (home / "inside").mkdir()
        (home / "inside" / "loom.yaml").symlink_to(outside / "loom.yaml")
    done = run("print", file)
    assert done.exit_code == 1
    assert "cord.yaml:" in done.stderr
    assert "[templates-outside]" in done.stderr
    assert run("print", file, "--templates", outside).exit_code == 0, "typed, it is meant"


def test_a_set_or_folder_that_is_not_there(run, piece, tmp_path):
    told = faults(run, piece("cord"), "germn")
    assert [(c, h) for _, c, h in told] == [("no-such-templates", "did you mean “german”?")]
    (tmp_path / "empty").mkdir()
    told = faults(run, piece("cord"), tmp_path / "empty")
    assert [c for _, c, _ in told] == ["no-such-templates"]
    done = run("print", piece("cord", "templates: germn\n"))
    assert "cord.yaml:" in done.stderr
    assert done.exit_code == 1


def test_the_templates_in_the_readme_do_what_they_say(sheet, words):
    readme = Path(__file__).parents[2] / "README.md"
    block = re.search(r"```\n(based on: .*?)```", readme.read_text(encoding="utf-8"), re.DOTALL)
    assert block is not None
    text = sheet(words(block[1]))
    assert "Turn the pack forward once and back once." in text
    assert "Rest before you tie 16 ends." in text
    assert "Thank whoever held the far end." in text
    assert "Finger test" not in text
