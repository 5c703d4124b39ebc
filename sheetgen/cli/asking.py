"""Questions and answers: takes a starting text and questions, gives the text with the answers.

Each answer is read by the reader of descriptions itself; its mistakes are told at once, in the
same words, and the question is asked again.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping

import click

from sheetgen.cli import starting, terminal
from sheetgen.cli.figures import value_of
from sheetgen.cli.report import rendered
from sheetgen.cli.terminal import say
from sheetgen.diagnostics import Diagnostic, has_errors
from sheetgen.plan.plan import Plan
from sheetgen.plan.planner import make_plan
from sheetgen.read import read_description
from sheetgen.read.questions import Question, Questions


def next_line(prompt: str) -> str:
    """One answer from the keyboard or a pipe; click.Abort at the end of the input."""
    terminal.say_on(prompt)
    line = sys.stdin.readline()
    if not line:
        say("")
        raise click.Abort
    if not sys.stdin.isatty():  # nobody has typed the end of the line
        say("")
    return line.strip()


def form_wanted(questions: Questions, forms: tuple[str, ...], usual: str) -> str:
    """Which kind of piece: asked until one of the forms is named."""
    while True:
        given = next_line(f"{questions.words['form']} [{usual}] ") or usual
        if given in forms:
            return given
        from sheetgen.read.findings import did_you_mean

        hint = did_you_mean(given, forms, f"choose one of {', '.join(forms)}")
        said = f"“{given[:60]}” is none of the choices"
        fault = Diagnostic("not-a-choice", "error", said, given=given, hint=hint)
        _tell("answer", given, (fault,))


def answered(text: str, form: str, questions: Questions) -> str:
    """The starting text with all answers, each checked when it was given."""
    asked = questions.of(form)
    say(questions.words["intro"].format(number=len(asked)))
    for number, question in enumerate(asked, start=1):
        text = _one(text, question, number, questions.words)
        if question.shows and (known := figures_known(text, question.shows)):
            line = questions.words["known"].format(figures="; ".join(known))
            margin = " " * (len(line) - len(line.lstrip()))
            for part in terminal.wrapped(line, terminal.columns() - len(margin)):
                say(margin + part)
    return text


def _one(text: str, question: Question, number: int, words: Mapping[str, str]) -> str:
    """The text with the answer to one question, asked until it can be read."""
    usual = starting.default(text, question.at[0])
    lines = terminal.wrapped(f"{number}. {question.ask}", terminal.columns())
    prompt = "\n".join([*lines, f"   [{usual or words['left out']}] "])
    while True:
        given = " ".join(next_line(prompt).split())
        if not given:
            return text
        filled = [(starting.put(text, at, given, question.at[0]), at) for at in question.at]
        faults = [starting.faults(tried, at) for tried, at in filled]
        for (tried, _), wrong in zip(filled, faults, strict=True):
            if not wrong:
                return tried
        _tell("answer", filled[0][0], faults[0])


def figures_known(text: str, keys: tuple[str, ...]) -> list[str]:
    """Each figure with its name, as far as the description can be planned."""
    plan = _planned(text)
    if plan is None:
        return []
    found = [plan.figures[key] for key in keys if key in plan.figures]
    return [f"{f.name} {value_of(f, plan.project.units)}" for f in found]


def _planned(text: str) -> Plan | None:
    project = read_description(text.encode("utf-8", "replace")).project
    if project is None:
        return None
    planned = make_plan(project)
    return None if has_errors(planned.diagnostics) else planned.plan


def _tell(name: str, source: str, told: tuple[Diagnostic, ...]) -> None:
    paint = terminal.paint_for(sys.stdout)
    say(rendered(name, source, told, paint, terminal.columns()))
