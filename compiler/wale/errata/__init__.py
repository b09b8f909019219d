"""Errata: what to change by hand in an old print, so that it says what the new one says."""
