"""A description as frozen values in the trade's words: takes read values, gives a Project."""

from sheetgen.model.project import Project

__all__ = ["Project"]
