"""All benchmarks, or those named: ``python tests/benchmarks/run.py [process] [many] ...``.

They print medians and ratios, and fail nothing: a slow machine is not a mistake. Never part of the
tests.
"""

from __future__ import annotations

import os
import sys

import growth
import many
import peers
import sizes
import whole_process

ALL = {
    "process": whole_process.main,
    "many": many.main,
    "peers": peers.main,
    "growth": growth.main,
    "sizes": sizes.main,
}


def main() -> None:
    """Run what was asked for."""
    names = sys.argv[1:] or list(ALL)
    if unknown := [name for name in names if name not in ALL]:
        raise SystemExit(f"there is no benchmark {unknown[0]}: {', '.join(ALL)}")
    print(f"{os.cpu_count()} cores, Python {sys.version.split()[0]}\n")
    for name in names:
        ALL[name]()


if __name__ == "__main__":
    main()
