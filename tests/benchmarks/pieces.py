"""Descriptions for the benchmarks: as many as wanted, all different, all invented."""

from __future__ import annotations

from pathlib import Path

from timing import EXAMPLES

NAMES = ("mill-race-loop", "ferry-cross-string", "reeve-purse-cords", "abbey-fillet")


def different(folder: Path, count: int) -> list[Path]:
    """``count`` descriptions in ``folder``: the examples by turns, each with a name of its own."""
    texts = [(EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8") for name in NAMES]
    files = []
    for number in range(count):
        text = texts[number % len(texts)]
        line = next(line for line in text.splitlines() if line.startswith("piece:"))
        # Another name, version and yarn everywhere: no page is that of another file.
        text = text.replace(line, f"{line} number {number + 1}")
        file = folder / f"piece-{number + 1:05}.yaml"
        file.write_text(text, encoding="utf-8")
        files.append(file)
    return files
