"""Kinds of values on the command line: takes what was typed, gives it, or says in words why not."""

from __future__ import annotations

from typing import Any

import click


class Whole(click.IntRange):
    """A whole number within a range."""

    name = "whole number"


class Word(click.Choice[str]):
    """One of a few words, in capitals or not."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word as it is written in the list."""
        meant = {word.casefold(): word for word in self.choices}
        return super().convert(meant.get(str(value).casefold(), value), param, ctx)
