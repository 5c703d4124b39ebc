"""The command line: knows the name and the place of every command, and runs the one asked for.

A command is imported only when it runs or tells its own help: none waits for the others.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

import click

from sheetgen import __version__
from sheetgen.cli import terminal
from sheetgen.cli.telling import AT_FAULT, DONE, STOPPED
from sheetgen.cli.terminal import say

COMMANDS = {
    "new": "Begin a description, with remarks or by questions.",
    "print": "Print a sheet to a PDF file.",
    "watch": "Print anew whenever a description is saved.",
    "plan": "Show every figure and where it comes from.",
    "choose": "Say which yarns and beads at hand will do.",
    "kits": "Print what a workshop needs: what to buy, cut and pack.",
    "check": "Look for mistakes.",
    "recover": "Get a description back out of a sheet.",
    "file": "File a piece under the next number.",
    "register": "List all pieces below a folder.",
    "schema": "Let your editor complete and check descriptions.",
}
"""Name -> its line in the list; the command ``x`` is ``x_command`` of ``commands/x.py``."""


def _reason(problem: OSError) -> str:
    """Why the disc or the system said no, in one line."""
    try:
        os.getcwd()
    except FileNotFoundError:
        return "the folder you are in is no longer there: go to another one"
    return problem.strerror or str(problem)


def _bug(problem: Exception, words: Sequence[str]) -> int:
    """Tell of a bug, unless Ctrl-C or a signal is behind it; the exit code."""
    from sheetgen.cli import bugs, start

    return start.interrupted(problem) or bugs.told(problem, words)


class Program(click.Group):
    """The group of commands, with exit codes and words of its own for what can go wrong."""

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run a command and leave with its code; no traceback for a user's or a disc's fault."""
        if not standalone_mode:
            return super().main(args, prog_name, complete_var, False, **extra)
        terminal.make_safe()
        try:
            code = super().main(args, prog_name, complete_var, False, **extra) or DONE
        except click.ClickException as problem:
            problem.show()
            code = problem.exit_code
        except click.Abort:  # click's name for Ctrl-C and for the end of the input
            code = STOPPED
        except OSError as problem:
            terminal.forget(sys.stdout)
            say(f"sheetgen: error: {_reason(problem)}", error=True)
            code = AT_FAULT
        except MemoryError:
            say("sheetgen: error: there is not enough memory", error=True)
            code = AT_FAULT
        except Exception as problem:
            code = _bug(problem, sys.argv[1:] if args is None else args)
        gc.freeze()  # the process ends here: looking for garbage once more would only take time
        sys.exit(code)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command; where a file stands in its place, the line that was meant."""
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError:
            import difflib  # only here, since every command would wait for it

            if near := difflib.get_close_matches(args[0], COMMANDS, n=1):
                words = f"There is no command “{terminal.seen(args[0])}”. Did you mean: {near[0]}"
                raise click.UsageError(words, ctx) from None
            if not args[0].endswith((".yaml", ".yml")):
                raise
            meant = terminal.seen(f"sheetgen check {args[0]}")
            words = f"A command is wanting. Did you mean: {meant}"
            raise click.UsageError(words, ctx) from None

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, in the order of use."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command itself, imported now."""
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"sheetgen.cli.commands.{cmd_name}")
        command: click.Command = getattr(module, f"{cmd_name}_command")
        if "_SHEETGEN_COMPLETE" not in os.environ:
            return command
        from sheetgen.cli.completing import with_files

        return with_files(command)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=Program,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Example: sheetgen print garter.yaml",
)
@click.option(
    "--debug",
    is_flag=True,
    expose_value=False,
    help="After a bug, show where in the program it happened: for a report.",
)
@click.version_option(__version__, prog_name="sheetgen", message="%(prog)s %(version)s")
def main() -> None:
    """Plan a small tablet-woven corded piece and print the sheets to make it from."""


if __name__ == "__main__":
    main()
