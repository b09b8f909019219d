"""Wale: a compiler for hand-knitting patterns."""

__version__ = "0.1.0"
