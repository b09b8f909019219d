"""What a walk over a pattern's texts has at hand, and what it tells its visitor of each."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from wale.pattern import Paragraph
from wale.plan import Plan
from wale.spec import Spec

_FIGURE = re.compile(r"\d")


class Spoken(Struct, frozen=True):
    """What a text speaks of.

    Attributes:
        scope: beginnings of addresses, the closest first; numbers of other addresses do not occur.
        sizes: indexes of the sizes that it is for; of a row of a table, those of its cells.
        exact: the address of each number in order, where the text's form tells it; "" where it does not.
        each: `exact` holds an address for numbers that belong to a class, too.
        kind: a class of `structure.CLASSES` to which all its numbers belong.
        any_size: each number is of some size or other, as the words tell.
        is_made: an output makes the text itself, so that what comes back is not printed.
    """

    scope: tuple[str, ...] = ()
    sizes: tuple[int, ...] = ()
    exact: tuple[str, ...] = ()
    kind: str = ""
    is_made: bool = False
    any_size: bool = False
    each: bool = False


Visitor = Callable[[tuple[str, ...], Spoken], tuple[str, ...]]
"""Takes a text, or the cells of a row, one a size, and what they speak of; gives the texts to print."""


class Walk(Struct, frozen=True):
    """A walk over a pattern of some printed sizes."""

    spec: Spec
    plan: Plan
    sizes: tuple[int, ...]
    visit: Visitor

    def say(
        self,
        text: str,
        *scope: str,
        exact: Sequence[str] = (),
        kind: str = "",
        sizes: Sequence[int] = (),
        each: bool = False,
    ) -> str:
        """Visit a text; one without a figure is passed over."""
        if not _FIGURE.search(text):
            return text
        return self.visit((text,), Spoken(scope, tuple(sizes) or self.sizes, tuple(exact), kind, each=each))[0]

    def made(self, text: str, *, exact: Sequence[str], sizes: Sequence[int] = ()) -> None:
        """Visit a text that an output makes of a chart."""
        self.visit((text,), Spoken((), tuple(sizes) or self.sizes, tuple(exact), is_made=True))

    def any_size(self, text: str, *scope: str) -> str:
        """Visit a text that tells of some sizes by name, one after the other, printed or not."""
        return self.visit((text,), Spoken(scope, tuple(range(len(self.plan.sizes))), any_size=True))[0]

    def row(self, cells: Sequence[str], *scope: str) -> tuple[str, ...]:
        """Visit the cells of a row, one a size."""
        return self.visit(tuple(cells), Spoken(scope, self.sizes))


def paragraph(walk: Walk, one: Paragraph, *scope: str, sizes: Sequence[int] = ()) -> Paragraph:
    """Visit the lead and the text of a paragraph."""
    strong = walk.say(one.strong, *scope, sizes=sizes)
    return replace(one, strong=strong, text=walk.say(one.text, *scope, sizes=sizes))
