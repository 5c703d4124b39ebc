"""The commands, a module each: takes what was typed, wires the stages, gives an exit code."""
