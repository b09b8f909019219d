"""Exact choice of whole stitches and rows."""
