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


if __name__ == "__main__":
    main()
