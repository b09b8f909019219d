"""The two promises, kept before anything is written: the same model, and nothing left to change.

The model is the same when both texts have the same tree and comments, and, where the file resolves, the same spec;
places and the spaces between signs aside.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import zip_longest
from typing import Any

from msgspec import Struct

from wale.parse.lines import lay_out
from wale.parse.tree import Bars, Tree, Trivia
from wale.resolve import resolve
from wale.resolve.imports import Load
from wale.source import Source, Span

_PLACES = (Span, Trivia)


class Broken(Exception):
    """A promise does not hold: a defect of the compiler. Nothing may be written."""


def check_model(old: Tree, new: Tree, said: Callable[[], str | None], load: Load) -> None:
    """See that two trees are of one model.

    Args:
        old: the tree of the file as it is.
        new: the tree of the text that would be written.
        said: gives what the old one says, as `says` does; asked for at last.
        load: gives the trees of used files.

    Raises:
        Broken: a comment, a statement or something of the spec differs.
    """
    if comments(old.source) != comments(new.source):
        raise Broken("the new layout would lose or move a comment")
    for before, after in zip_longest((old.edition, *old.parts), (new.edition, *new.parts)):
        if not _same(before, after):
            place = f"the block of line {old.source.place(before.span.start)[0]}" if before is not None else "the file"
            raise Broken(f"the new layout would change {place}")
    again = says(new, load)
    if said() not in (None, again):
        raise Broken("the new layout would change what the spec says")


def says(tree: Tree, load: Load) -> str | None:
    """Give all of a file's spec as text, but for places in the file; None where it has none.

    It quotes the file: spaces in such words don't count, for the trees hold texts to the letter.
    """
    spec, _ = resolve(tree, load)
    if spec is None:
        return None
    place = re.escape(f"Span(file={tree.source.name!r}, start=") + r"\d+, end=\d+"
    return "".join(re.sub(rf"{place}(, made_at=\({place}\),\))?\)", "", repr(spec)).split())


def comments(source: Source) -> list[str]:
    """Give all comments of a file in order, without the spaces around them."""
    layout = lay_out(source)
    found: list[str] = []
    for line in layout.lines:
        found += [*line.above, *line.inner, line.trailing]
    return [note.strip() for note in (*found, *layout.tail) if note.strip()]


def _same(one: Any, other: Any) -> bool:
    """Say whether two nodes are the same but for their places, their comments and the spaces between cells."""
    kind = type(one)
    if kind is not type(other):
        return False
    if kind is tuple:
        return len(one) == len(other) and all(map(_same, one, other))
    if kind is Bars:
        return bool(one.text.split() == other.text.split())
    if issubclass(kind, Struct):
        return kind in _PLACES or all(_same(getattr(one, name), getattr(other, name)) for name in one.__struct_fields__)
    return bool(one == other)
