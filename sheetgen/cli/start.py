"""The way in: runs the command line, and lets Ctrl-C end it quietly while it is still coming up.

It imports nothing before it is called: what is slow to import is waited for inside.
"""

from __future__ import annotations

import _thread
import gc
import sys
import time

_FEW_COLLECTIONS = 200_000
"""New objects before Python looks for garbage: a sheet is made before the usual 700 pay."""
_STOPPED = 130
_FIRST_OF_SIGNALS = 128
"""The exit code after a signal: this and its number, as shells have it."""


def main() -> None:
    """Run the program; an interruption at any moment gives its exit code and no traceback."""
    gc.set_threshold(_FEW_COLLECTIONS)
    try:
        sys.unraisablehook = _not_lost
        _end_in_order()
        from sheetgen.cli.main import main as program

        program()
    except KeyboardInterrupt:
        sys.exit(_STOPPED)
    except Exception as problem:
        if code := interrupted(problem):
            sys.exit(code)
        raise


def _end_in_order() -> None:
    """When the system ends the program or its window closes: undo first what is being written.

    What somebody else has a use for, as nohup has for SIGHUP, stays theirs.
    """
    import signal

    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)  # not every system has both
        if number is not None and signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, _end)


def _end(number: int, frame: object) -> None:
    sys.exit(_FIRST_OF_SIGNALS + number)


def _not_lost(lost: sys.UnraisableHookArgs) -> None:
    """Give a signal again that came where Python lets no exception through, as while importing."""
    if issubclass(lost.exc_type, KeyboardInterrupt):
        _thread.start_new_thread(_again, (2,))
    elif isinstance(lost.exc_value, SystemExit) and isinstance(lost.exc_value.code, int):
        _thread.start_new_thread(_again, (lost.exc_value.code - _FIRST_OF_SIGNALS,))
    else:
        sys.__unraisablehook__(lost)


def _again(number: int) -> None:
    """The signal, a moment later: whoever asks at once is still where it is swallowed."""
    import signal

    time.sleep(0.01)
    _thread.interrupt_main(signal.Signals(number))


def interrupted(problem: BaseException | None) -> int:
    """The exit code where Ctrl-C or a signal is behind an exception, else 0.

    Up to Python 3.11 an interruption while a class is being made comes out as a RuntimeError.
    """
    while problem is not None:
        if isinstance(problem, KeyboardInterrupt):
            return _STOPPED
        if isinstance(problem, SystemExit) and isinstance(problem.code, int):
            return problem.code
        problem = problem.__cause__
    return 0


if __name__ == "__main__":
    main()
