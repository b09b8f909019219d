"""Names in the lines of pieces and bands, and those that a construction is given in their place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from wale.parse.tree import Block, Equals, Name, Statement, Tree
from wale.resolve.constructions import GIVEN, parted


def worked(tree: Tree, *kinds: str) -> Iterator[tuple[Statement, frozenset[str]]]:
    """Give the lines of blocks of some kinds, each with the names that its construction takes: they are its own."""
    own, constructions = parted(tree.parts)
    for parts in (own, *constructions):
        taken = frozenset(name.text for statement in _lines(parts[:1], "construction") for name in _named(statement))
        for part in parts:
            if isinstance(part, Block) and part.head.keyword.text in kinds:
                yield from ((statement, taken) for statement in part.body)


def given(tree: Tree) -> list[Name]:
    """Give the names that `make` blocks give, and those that constructions usually take."""
    lines = [*_lines(tree.parts, "make"), *_lines(tree.parts, "construction")]
    return [item for line in lines if _gives(line) for item in line.items[-1:] if isinstance(item, Name)]


def _gives(statement: Statement) -> bool:
    return any(isinstance(item, Equals) for item in statement.items)


def _lines(parts: Iterable[Block | Statement], kind: str) -> Iterator[Statement]:
    for part in parts:
        if isinstance(part, Block) and part.head.keyword.text == kind:
            yield from part.body


def _named(statement: Statement) -> Iterator[Name]:
    """Give the name that a `takes` line takes, where it is that of a swatch, motif or yarn."""
    words = [item for item in statement.items if isinstance(item, Name)]
    if len(words) > 1 and words[0].text in GIVEN and not isinstance(statement.items[1], Equals):
        yield words[1]
