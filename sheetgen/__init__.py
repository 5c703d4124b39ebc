"""sheetgen: from a description of a small corded piece to the sheets it is made from."""

__version__ = "0.1.0"
