"""Grammars of the spec language and of the written instructions."""
