"""Keeping: takes bytes, gives whole files and booklets; alone in knowing pypdf."""
