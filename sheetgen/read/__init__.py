"""Text to values: takes the bytes of a description, gives a Project or None, and diagnostics."""
