"""Files on the command line: takes what was typed, gives a Path; shells complete it as a file."""

from __future__ import annotations

from pathlib import Path

import click
from click.shell_completion import CompletionItem


class FileName(click.ParamType):  # type: ignore[type-arg]  # no parameter before click 8.2
    """A file or folder of any name; whether it is there is looked at later, in our own words."""

    name = "path"

    def convert(
        self, value: str | Path, param: click.Parameter | None, ctx: click.Context | None
    ) -> Path:
        """The name as a Path."""
        return Path(value)

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[CompletionItem]:
        """Leave it to the shell, which knows its files."""
        return [CompletionItem(incomplete, type="file")]


def with_files(command: click.Command) -> click.Command:
    """The command, its arguments and options of type ``Path`` completed as files."""
    for param in command.params:
        if isinstance(param.type, click.types.FuncParamType) and param.type.func is Path:
            param.type = FileName()
    return command
