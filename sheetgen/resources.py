"""Where the data folders that travel with the program lie: ``templates`` and ``example_projects``.

In a wheel they are inside the package; in a checkout they stand beside it.
"""

from __future__ import annotations

from pathlib import Path


def data_folder(name: str) -> Path:
    """The folder ``name`` that came with this copy of the program."""
    package = Path(__file__).resolve().parent
    inside = package / name
    return inside if inside.is_dir() else package.parent / name
