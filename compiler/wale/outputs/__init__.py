"""Renderings of the pattern document."""
