"""Old files keep working: what rewrites a file of an older edition into the next one.

A file without an edition line counts as edition 0. A change of the language adds its edition to `EDITIONS` and one
rewrite here, from text to text, with a case before and after in the tests; a file goes through all that it lacks.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from wale.parse.parser import EDITION, EDITIONS
from wale.parse.tree import Number, Tree
from wale.source import Source


def _name_edition(text: str) -> str:
    """Write the first line, which names the edition."""
    return f"{EDITION} 1\n\n{text}"


UPGRADES: Mapping[int, Callable[[str], str]] = {0: _name_edition}
"""By edition: the rewrite into the next one, given a text without byte order mark."""


def edition_of(tree: Tree) -> int:
    """Give the edition that a file names, 0 where it names none."""
    number = tree.edition.items[0] if tree.edition is not None else None
    return int(number.value) if isinstance(number, Number) else 0


def upgraded(source: Source, tree: Tree) -> Source:
    """Give a file in the newest edition.

    Args:
        source: a file without byte order mark, of an edition that is known or without an edition line.
        tree: its tree.
    """
    text = source.text
    for edition in range(edition_of(tree), EDITIONS[-1]):
        text = UPGRADES[edition](text)
    return Source(source.name, text)
