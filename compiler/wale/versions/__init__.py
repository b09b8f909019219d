"""Versions of a spec: what git shows of one, and two of them made one. Texts in, texts out."""
