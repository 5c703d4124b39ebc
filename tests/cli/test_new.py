"""A new description: ready to print, in two languages, by questions, over no other file."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from sheetgen.cli import starting
from sheetgen.cli.beginning import questions_of, text_of
from sheetgen.cli.commands.new import FORMS
from sheetgen.cli.figures import GROUPS
from sheetgen.cli.main import main
from sheetgen.cli.run import plan_file
from sheetgen.model.project import FORMS as MODEL_FORMS
from sheetgen.read import read_description

SETS = ("english", "german")
HEADS = {key for _, keys in GROUPS for key in keys}


def test_the_forms_are_those_of_the_model():
    assert FORMS == MODEL_FORMS


@pytest.mark.parametrize("templates", SETS)
@pytest.mark.parametrize("form", FORMS)
def test_it_prints_as_it_stands(run, tmp_path, form, templates):
    file = tmp_path / "my-string.yaml"
    result = run("new", file, "--form", form, "--templates", templates)
    assert (result.exit_code, result.stderr) == (0, "")
    assert run("check", file).stdout == f"{file}: no mistakes\n"
    if templates == "german":
        assert plan_file(file).plan.project.templates == "german"
    else:
        assert run("print", file).exit_code == 0
        assert (tmp_path / "my-string-loom.pdf").read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("form", FORMS)
def test_both_languages_describe_the_same_and_explain_every_key(form):
    english, german = (text_of(form, name) for name in SETS)
    assert isinstance(english, str)
    assert isinstance(german, str)
    spans = [set(read_description(text.encode()).spans) for text in (english, german)]
    assert spans[1] - spans[0] == {("templates",)}
    assert spans[0] <= spans[1]
    assert english.count("#") >= 15


@pytest.mark.parametrize("templates", SETS)
@pytest.mark.parametrize("form", FORMS)
def test_ten_questions_and_each_has_its_line(form, templates):
    questions, about = questions_of(templates)
    assert about.diagnostics == ()
    asked = questions.of(form)
    assert len(asked) == 10
    text = text_of(form, templates)
    plan = plan_file_of(text)
    for question in asked:
        assert bool(starting.default(text, question.at[0])) != question.optional
        assert starting.put(text, question.at[0], "x") != text
        assert {key.partition(":")[0] for key in question.shows} <= HEADS
    known = {key for question in asked for key in question.shows}
    assert known & set(plan.figures)


def plan_file_of(text):
    from sheetgen.plan.planner import make_plan

    return make_plan(read_description(text.encode()).project).plan


def test_answers_are_checked_at_once_and_stand_in_the_file(tmp_path):
    file = tmp_path / "bag.yaml"
    lines = ["My: own", "5 bananas", "3/8 in", "", "36 per in", "", "", "6", "2 yd", "", "inches"]
    result = CliRunner().invoke(
        main, ["new", str(file), "--ask"], input="\n".join(["cord", *lines, ""])
    )
    assert result.exit_code == 0, result.output
    assert "“bananas” is not a unit of length" in result.stdout
    assert "so far: diameter of main" in result.stdout
    project = plan_file(file).plan.project
    assert project.piece == "My: own"
    assert project.find.thickness.value == pytest.approx(3 / 8 * 25.4)  # an inch is 25.4 mm exactly
    assert project.yarns[0].wraps == pytest.approx(36 / 25.4)
    assert project.yarns[0].count is None
    assert project.length == pytest.approx(2 * 914.4)  # a yard is 914.4 mm exactly
    assert (project.tablets.holes, project.units) == (6, "inches")
    assert file.read_text().count("#") > 15


def test_the_figure_shown_is_that_of_the_answer(tmp_path):
    answers = "\n".join(["", "", "", "0.5 mm", *[""] * 6, ""])
    result = CliRunner().invoke(
        main, ["new", str(tmp_path / "a"), "--form", "cord", "--ask"], input=answers
    )
    assert "diameter of main 0.5 mm" in result.stdout
    assert (tmp_path / "a.yaml").is_file()


@pytest.mark.parametrize("answers", ["", "cord\n", "cord\n\n\n\n"])
def test_the_end_of_the_answers_leaves_nothing_behind(tmp_path, answers):
    result = CliRunner().invoke(main, ["new", str(tmp_path / "a.yaml"), "--ask"], input=answers)
    assert result.exit_code == 130
    assert "nothing was written" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_what_is_there_is_left_as_it_is(run, tmp_path):
    file = tmp_path / "mine.yaml"
    file.write_text("piece: mine\n")
    result = run("new", file, "--form", "cord")
    assert result.exit_code == 1
    assert "there already" in result.stderr
    assert file.read_text() == "piece: mine\n"
    (tmp_path / "dangling.yaml").symlink_to(tmp_path / "nowhere.yaml")
    assert run("new", tmp_path / "dangling.yaml", "--form", "cord").exit_code == 1
    assert not (tmp_path / "nowhere.yaml").exists()


@pytest.mark.parametrize("name", ["a.txt", "a.pdf", "no-such-folder/a.yaml"])
def test_a_name_that_will_not_do_is_told(run, tmp_path, name):
    result = run("new", tmp_path / name, "--form", "cord")
    assert result.exit_code == 1
    assert "hint" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_answers_that_do_not_go_together_are_told(tmp_path):
    file = tmp_path / "tight.yaml"
    answers = "\n".join(["", "6 mm", "", "", "", "7 mm", "1 mm", "", "", "", ""])
    result = CliRunner().invoke(main, ["new", str(file), "--form", "loop", "--ask"], input=answers)
    assert result.exit_code == 1
    assert "do not go together" in result.stderr
    assert "error:" in result.stderr
    assert file.is_file()


def test_texts_of_a_guild_of_its_own(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "ours" / "new").mkdir(parents=True)
    own = "# ours\npiece: Guild cord\nform: cord\nlength: 1 m\ntablets: 6\n"
    own += "yarns: {a: {count: 20/2 Nm, fibre: wool}}\n"
    (tmp_path / "ours" / "new" / "cord.yaml").write_text(own)
    assert run("new", "x", "--form", "cord", "--templates", "ours", "--quiet").output == ""
    assert (tmp_path / "x.yaml").read_text() == own
    assert run("new", "y", "--form", "band", "--templates", "ours").exit_code == 0
    assert run("new", "z", "--form", "band", "--templates", "nobody").exit_code == 1


def test_json_quotes_are_quotes_of_yaml_too():
    text = "piece: a\nform: cord\n"
    for answer in ('say "x": y', "# z", "[a", "it's", "*a", "a\\b", "ü: ×"):
        assert starting.default(starting.put(text, ("piece",), answer), ("piece",)) == answer
