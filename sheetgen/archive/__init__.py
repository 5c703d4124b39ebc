"""Keeping: takes bytes, gives whole files; alone in knowing pypdf."""
