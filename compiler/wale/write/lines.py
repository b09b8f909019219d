"""Instruction lines of single sizes, and their merging into bracket notation.

A line is written for one size as words and numbers. Lines of several sizes merge where their words agree; then each
number becomes `18 (19, 20)`. Law: `select(merge(lines), size) == lines[size]`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct


class Ordinal(Struct, frozen=True):
    """A number said as 1st, 2nd, 3rd."""

    value: int

    def __str__(self) -> str:
        """Give it in words and figures."""
        teen = 10 <= self.value % 100 <= 20
        return f"{self.value}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(self.value % 10, 'th')}"


class Length(Struct, frozen=True):
    """A length as printed, e.g. 24.5; the unit stands in the words beside it."""

    text: str

    def __str__(self) -> str:
        """Give the figures."""
        return self.text


class Times(Struct, frozen=True):
    """How often: once, twice, 3 times; in brackets `3 (1, 2) times`."""

    value: int

    def __str__(self) -> str:
        """Give the bare figure."""
        return str(self.value)


class Sts(Struct, frozen=True):
    """Stitches: 1 st, 3 sts; in brackets `3 (1, 2) sts`."""

    value: int

    def __str__(self) -> str:
        """Give the bare figure."""
        return str(self.value)


class Rows(Struct, frozen=True):
    """Rows or rounds, by `noun`: 1 row, 3 rows; in brackets `3 (1, 2) rows`."""

    value: int
    noun: str = "row"

    def __str__(self) -> str:
        """Give the bare figure."""
        return str(self.value)


ONCE = {"1": "once", "2": "twice"}
"""How few times are said."""
Figure = int | Ordinal | Length | Times | Sts | Rows
Part = str | Figure


class Line(Struct, frozen=True):
    """One instruction of one size.

    Attributes:
        slot: stable address of the line (`back.hem.facing`), the same in all sizes that have it.
        lead: words set bold before it ("Row 1 (RS)"), as parts.
        parts: words and figures in order.
        is_instruction: whether its wording is controlled by the grammar of instructions; False for remarks.
    """

    slot: str
    lead: tuple[Part, ...]
    parts: tuple[Part, ...]
    is_instruction: bool = True

    @property
    def shape(self) -> tuple[object, ...]:
        """What must agree for lines to merge: the words, the sort of each figure, and figures that stand in brackets.

        So no bracket of figures comes to stand inside a bracket of stitches.
        """
        found: list[object] = [self.is_instruction]
        depth = 0
        for part in (*self.lead, "\0", *self.parts):
            if isinstance(part, str):
                depth += part.count("(") - part.count(")")
                found.append(part)
            else:
                found.append((type(part), str(part)) if depth else type(part))
        return tuple(found)


class Merged(Struct, frozen=True):
    """Lines of several sizes with the same words; `lines` stand in size order beside `sizes` (indexes)."""

    slot: str
    sizes: tuple[int, ...]
    lines: tuple[Line, ...]
    everyone: bool

    def text(self, names: Sequence[str]) -> tuple[str, str]:
        """Give the lead and the text in bracket notation; `names` are all printed sizes."""
        lead = _render([line.lead for line in self.lines])
        text = _render([line.parts for line in self.lines])
        if not self.everyone:
            who = ", ".join(names[size] for size in self.sizes)
            who = f"{'Size' if len(self.sizes) == 1 else 'Sizes'} {who}"
            lead = f"{who}: {lead}" if lead else who
        return lead, text


def _render(rows: Sequence[tuple[Part, ...]]) -> str:
    pieces = []
    for column in zip(*rows, strict=True):
        kind = column[0]
        first, *rest = (str(part) for part in column)
        same = isinstance(kind, str) or all(one == first for one in rest)
        text = first if same else f"{first} ({', '.join(rest)})"
        if isinstance(kind, Times):
            text = ONCE.get(text, f"{text} times")
        elif isinstance(kind, Sts):
            text += " st" if text == "1" else " sts"
        elif isinstance(kind, Rows):
            text += f" {kind.noun}" if text == "1" else f" {kind.noun}s"
        pieces.append(text)
    return "".join(pieces)


def merge(sizes: Sequence[Sequence[Line]]) -> tuple[Merged, ...]:
    """Merge the lines of all sizes: slot by slot, and within a slot by their words.

    Args:
        sizes: the lines of each size in order; a slot occurs at most once a size.
    """
    result = []
    for told in _places(sizes):
        groups: dict[tuple[object, ...], list[tuple[int, Line]]] = {}
        for size, line in told:
            groups.setdefault(line.shape, []).append((size, line))
        for members in groups.values():
            who = tuple(size for size, _ in members)
            lines = tuple(line for _, line in members)
            result.append(Merged(lines[0].slot, who, lines, len(who) == len(sizes)))
    return tuple(result)


def select(merged: Iterable[Merged], size: int) -> tuple[Line, ...]:
    """Give the lines of one size back."""
    return tuple(one.lines[one.sizes.index(size)] for one in merged if size in one.sizes)


def _places(sizes: Sequence[Sequence[Line]]) -> list[list[tuple[int, Line]]]:
    """Put the lines of a slot together, so that each size's own order is kept.

    Where sizes tell the same slots in another order, one of these slots has two places, each with its own sizes.
    """
    places: list[list[tuple[int, Line]]] = []
    for size, lines in enumerate(sizes):
        at = 0
        for line in lines:
            found = next((index for index in range(at, len(places)) if places[index][0][1].slot == line.slot), None)
            if found is None:
                places.insert(at, [])
                found = at
            places[found].append((size, line))
            at = found + 1
    return places
