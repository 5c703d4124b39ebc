"""The engine: takes a Project, gives a Plan and diagnostics; no files, no clock, no printing."""
