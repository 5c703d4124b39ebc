"""The command line: takes arguments, wires the stages, gives files, words and an exit code."""
