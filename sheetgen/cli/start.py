"""The way in: runs the command line, and lets Ctrl-C end it quietly while it is still coming up.

It imports nothing before it is called: what is slow to import is waited for inside.
"""

from __future__ import annotations

import sys


def main() -> None:
    """Run the program; an interruption at any moment gives the exit code 130 and no traceback."""
    try:
        from sheetgen.cli.main import main as program

        program()
    except KeyboardInterrupt:
        sys.exit(130)
    except Exception as problem:
        if interrupted(problem):
            sys.exit(130)
        raise


def interrupted(problem: BaseException | None) -> bool:
    """True where Ctrl-C is behind an exception.

    Up to Python 3.11 an interruption while a class is being made comes out as a RuntimeError.
    """
    while problem is not None:
        if isinstance(problem, KeyboardInterrupt):
            return True
        problem = problem.__cause__
    return False


if __name__ == "__main__":
    main()
