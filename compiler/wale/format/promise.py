"""The two promises, kept before anything is written: the same model, and nothing left to change.

The model is the same when both texts have the same tree and comments, and, where the file resolves, the same spec;
places and the spaces between signs aside.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import zip_longest
from typing import Any

from msgspec import Struct

from wale.parse.lines import lay_out
from wale.parse.tree import Bars, Tree, Trivia
from wale.resolve import resolve
from wale.resolve.imports import Load
from wale.source import Source, Span


class Broken(Exception):
    """A promise does not hold: a defect of the compiler. Nothing may be written."""


def check_model(old: Tree, new: Tree, load: Load) -> None:
    """See that two trees are of one model.

    Args:
        old: the tree of the file as it is.
        new: the tree of the text that would be written.
        load: gives the trees of used files.

    Raises:
        Broken: a comment, a statement or something of the spec differs.
    """
    if comments(old.source) != comments(new.source):
        raise Broken("the new layout would lose or move a comment")
    for before, after in zip_longest((old.edition, *old.parts), (new.edition, *new.parts)):
        if _bare(before) != _bare(after):
            place = f"the block of line {old.source.place(before.span.start)[0]}" if before is not None else "the file"
            raise Broken(f"the new layout would change {place}")
    spec, _ = resolve(old, load)
    if spec is not None:
        again, _ = resolve(new, load)
        if _bare(spec, is_spec=True) != _bare(again, is_spec=True):
            raise Broken("the new layout would change what the spec says")


def comments(source: Source) -> list[str]:
    """Give all comments of a file in order, without the spaces around them."""
    layout = lay_out(source)
    found: list[str] = []
    for line in layout.lines:
        found += [*line.above, *line.inner, line.trailing]
    return [note.strip() for note in (*found, *layout.tail) if note.strip()]


def _bare(node: Any, is_spec: bool = False) -> Any:
    """Give a tree or a spec as plain tuples without places.

    The spec quotes the file: spaces in its words don't count, the tree holds texts to the letter.
    """
    if isinstance(node, Span | Trivia):
        return None
    if isinstance(node, str):
        return "".join(node.split()) if is_spec else node
    if isinstance(node, Bars):
        return tuple(node.text.split())
    if isinstance(node, Struct):
        return (type(node), *[_bare(getattr(node, name), is_spec) for name in node.__struct_fields__])
    if isinstance(node, tuple | list):
        return tuple([_bare(each, is_spec) for each in node])
    if isinstance(node, Mapping):
        return tuple([(_bare(key, is_spec), _bare(value, is_spec)) for key, value in node.items()])
    return node
