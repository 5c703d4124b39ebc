"""Onto paper: takes a Document, gives the bytes of a PDF; alone in knowing reportlab."""
