"""A source in the one layout, proven; or the reason why it has none."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from wale.format.printer import printed
from wale.parse.parser import parse
from wale.parse.upgrade import upgraded
from wale.problems.problem import Problem
from wale.source import Source, Span

if TYPE_CHECKING:
    from wale.resolve.imports import Load

REFUSED = ("E102", "E130")
"""Problems of a file that has no layout: its edition is not known, or it is too long to be read."""

Work = Callable[[], str | None]

_LINE_END = re.compile(r"\r+(?=\n|\Z)")


class Laid(Struct, frozen=True):
    """A file in the one layout.

    Attributes:
        text: the whole file, with LF line ends.
        before: what was laid out: the old file with LF line ends and without a byte order mark.
        kept: the places in it that cannot be read and were left as they are.
    """

    text: str
    before: Source
    kept: tuple[Span, ...] = ()


def format_source(
    source: Source, load: Load, to_newest: bool = False, beside: Callable[[Work], Work] = lambda work: work
) -> tuple[Laid | None, list[Problem]]:
    """Give a file in the one layout.

    Both promises are proven: the model is the same, and laying out the result changes nothing.

    Args:
        source: the file.
        load: gives the trees of the files that it uses; None for one that cannot be had.
        to_newest: a file of an older edition is rewritten for the newest one first.
        beside: begins a part of the proof elsewhere, as `World.beside` does.

    Returns:
        The layout, or None where there is none; and the reason why. Other problems of the file are not told here.

    Raises:
        Broken: a promise does not hold; a defect of the compiler.
    """
    plain = Source(source.name, _LINE_END.sub("", source.text.removeprefix("\ufeff")))
    tree, problems = parse(plain)
    if refusals := _refusals(problems):
        return None, refusals
    if to_newest:
        plain = upgraded(plain, tree)
        tree, problems = parse(plain)
    text, kept = printed(plain, problems, tree.dropped)
    if text != plain.text:
        from wale.format.promise import Broken, check_model, says

        said = beside(partial(says, tree, load))
        after = Source(source.name, text)
        again, problems = parse(after)
        if refusals := _refusals(problems):
            return None, refusals
        twice = beside(lambda: printed(after, problems, again.dropped)[0])
        check_model(tree, again, said, load)
        if twice() != text:
            raise Broken("laying out the new layout would change it again")
    return Laid(text, plain, kept), []


def _refusals(problems: list[Problem]) -> list[Problem]:
    return [found for found in problems if found.code in REFUSED]
