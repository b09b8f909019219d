"""The shapes of statements, written as a knitter writes the line: `cast on WIDTH in SWATCH`.

In a form, small letters stand for themselves, capitals are slots, `N` is a number of the unit that follows it, `…`
repeats a name. `match` lays one comma-separated part of a line against a form; `Shape` lists what a keyword allows.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cache

from msgspec import Struct, field
from msgspec.structs import replace

from wale.parse.tree import (
    Bars,
    Binary,
    Call,
    Colour,
    Equals,
    Expr,
    Item,
    Name,
    Negative,
    Number,
    PerSize,
    Ratio,
    Small,
    Text,
)
from wale.source import Span

EXPRESSIONS = (Name, Number, PerSize, Ratio, Negative, Binary, Call)
_RUNS = ("FIBRE", "MANNER")
_SAME_UNIT = {
    "st": "sts",
    "row": "rows",
    "round": "rows",
    "rounds": "rows",
    "wedge": "wedges",
    "time": "times",
    "hour": "hours",
}
_RIB = re.compile(r"([1-9][0-9]?)x([1-9][0-9]?)")


def _is_name(item: Item) -> bool:
    return isinstance(item, Name)


def is_rib(item: Item) -> bool:
    """Say whether an item is a rib, such as `2x2`."""
    return isinstance(item, Name) and _RIB.fullmatch(item.text) is not None


def _is_value(item: Item) -> bool:
    return isinstance(item, EXPRESSIONS)


_NAMES = {
    "NAME": "a name",
    "YARN": "a yarn's name",
    "STITCH": "a stitch, such as `purl`",
    "SWATCH": "a swatch's name",
    "MOTIF": "a motif's name",
    "PIECE": "a piece's name",
    "EDGE": "an edge, such as `neck`",
    "LEVEL": "a level's name, such as `bust`",
    "MARK": "a mark's name",
    "MEASURE": "a measure's name, such as `bust`",
    "KIND": "a kind, such as `cone`",
    "SYSTEM": "a system of yarn counts, such as `Nm`",
}
_VALUES = {
    "WIDTH": "a width, such as `bust/2` or `80 sts`",
    "LENGTH": "a length, such as `6 cm` or `8 rows`",
    "DEPTH": "a depth, such as `3 cm`",
    "VALUE": "a value, such as `14 cm`",
}
SLOTS: dict[str, tuple[str, Callable[[Item], bool]]] = {
    **{slot: (words, _is_name) for slot, words in _NAMES.items()},
    **{slot: (words, _is_value) for slot, words in _VALUES.items()},
    "SIZE": ("a size's name", lambda item: isinstance(item, Name | Number | Ratio)),
    "N": ("a number", lambda item: isinstance(item, Number)),
    "AMOUNT": ("an amount, such as `1.5 cm`", lambda item: isinstance(item, Number)),
    "WEIGHT": ("a weight, such as `100 g`", lambda item: isinstance(item, Number)),
    "PRICE": ("a price, such as `11.50 EUR`", lambda item: isinstance(item, Number | Negative)),
    "NUMBER": ("a number", lambda item: isinstance(item, Number)),
    "COUNT": ("a yarn count", lambda item: isinstance(item, Number | Ratio)),
    "RESULTANT": ("a resultant count, such as `68 tex/2`", lambda item: isinstance(item, Number | Binary)),
    "PART": ("a part, such as `1/3`", lambda item: isinstance(item, Ratio)),
    "YARNS": ("yarns, such as `rye + mist`", lambda item: isinstance(item, Binary)),
    "TEXT": ("text between quotes", lambda item: isinstance(item, Text)),
    "COLOUR": ("a colour, such as `#8a5a2b`", lambda item: isinstance(item, Colour)),
    "CELL": ("a mark between bars, such as `|x|`", lambda item: isinstance(item, Bars)),
    "RIB": ("a rib, such as `2x2`", is_rib),
    "FIBRE": ("a fibre, such as `wool`", lambda item: isinstance(item, Name | Small)),
    "MANNER": ("words on how it is done", lambda item: isinstance(item, Name | Small)),
}
"""Every kind of slot: what it takes, in words, and the test of an item. A digit after the kind tells two apart."""


class Match(Struct, frozen=True):
    """What stands in the slots of a form; the getters trust the form."""

    form: str
    found: dict[str, tuple[Item, ...]]
    span: Span

    def name(self, slot: str) -> Name:
        """Give the name in a slot."""
        item = self.found[slot][0]
        assert isinstance(item, Name)
        return item

    def names(self, slot: str) -> tuple[Name, ...]:
        """Give the names in a repeated slot."""
        return tuple(item for item in self.found[slot] if isinstance(item, Name))

    def value(self, slot: str) -> Expr:
        """Give the expression in a slot."""
        item = self.found[slot][0]
        assert isinstance(item, EXPRESSIONS)
        return item

    def number(self, slot: str) -> Number:
        """Give the number in a slot."""
        item = self.found[slot][0]
        assert isinstance(item, Number)
        return item

    def text(self, slot: str) -> str:
        """Give the text of a string, a colour, a cell, or of words."""
        return " ".join(item.text for item in self.found[slot] if isinstance(item, Name | Small | Text | Colour | Bars))


class Mismatch(Struct, frozen=True):
    """How far a form fitted: the index of the first item that did not, and what was expected there."""

    reached: int
    expected: str


class Shape(Struct, frozen=True):
    """What a keyword allows.

    Attributes:
        forms: what may stand before the first comma, each with the options that may follow it.
        listed: a form that may follow the commas any number of times (more yarns, more measures).
        once: whether the statement may stand only once in its block.
    """

    forms: dict[str, tuple[str, ...]]
    listed: str = ""
    once: bool = True


class Line(Struct, frozen=True):
    """A statement that fits its shape."""

    keyword: str
    head: Match
    span: Span
    options: dict[str, Match] = field(default_factory=dict)
    listed: tuple[Match, ...] = ()

    @property
    def form(self) -> str:
        """The form that its first part has."""
        return self.head.form


@cache
def _words(form: str) -> tuple[str, ...]:
    return tuple(form.split())


def kind_of(slot: str) -> str:
    """Give the kind of a slot: `PIECE2` and `LEVEL…` without their endings."""
    return slot.rstrip("…").rstrip("0123456789")


def show(form: str) -> str:
    """Give a form as it is printed in problems, the numbers of slots left out."""
    return " ".join(word.rstrip("0123456789") if kind_of(word) in SLOTS else word for word in _words(form))


def span_of(items: Sequence[Item], default: Span) -> Span:
    """Give the span of all items, or `default` where there are none."""
    return items[0].span.to(items[-1].span) if items else default


def match(form: str, items: Sequence[Item], place: Span) -> Match | Mismatch:
    """Lay the items of one part against a form; `place` stands in where there are no items."""
    words = _words(form)
    found: dict[str, tuple[Item, ...]] = {}
    at = index = 0
    while index < len(words):
        word = words[index]
        kind = kind_of(word)
        index += 1
        if kind not in SLOTS:
            if at < len(items) and _stands_for_itself(word, items[at]):
                at += 1
                continue
            return Mismatch(at, f"`{word}`")
        told, fits = SLOTS[kind]
        if kind in _VALUES and index < len(words) and at < len(items):
            freed = free_word(items[at], words[index])
            if freed is not None:
                found[word] = (freed,)
                at += 1
                index += 1
                continue
        if at >= len(items) or not fits(items[at]):
            return Mismatch(at, told)
        first = at
        at += 1
        if word.endswith("…") or kind in _RUNS:
            at = _run(items, at, fits)
        if kind == "N":
            unit = words[index]
            index += 1
            number = items[first]
            assert isinstance(number, Number)
            if _SAME_UNIT.get(number.unit or "", number.unit) != _SAME_UNIT.get(unit, unit):
                return Mismatch(first, f"a number of {unit}")
        found[word.rstrip("…")] = tuple(items[first:at])
    if at < len(items):
        return Mismatch(at, "the end of the line or a comma")
    return Match(form, found, span_of(items, place))


def free_word(item: Item, word: str) -> Expr | None:
    """Give a value without the last word that its last number took for a unit (`hip/3 wide`), or None."""
    match item:
        case Number(value, unit, span) if unit == word:
            return Number(value, None, _before(span, word))
        case Ratio(over, under, unit, span) if unit == word:
            return Ratio(over, under, None, _before(span, word))
        case Binary(op, left, right, span):
            freed = free_word(right, word)
            return Binary(op, left, freed, _before(span, word)) if freed is not None else None
        case _:
            return None


class Listed(Struct, frozen=True):
    """Items of a line with a list of sizes in place of numbers: the list's text, and the span of the numbers."""

    items: tuple[Item, ...]
    text: str
    span: Span


def in_brackets(items: Sequence[Item], at: int, cut: Callable[[Span], str]) -> Listed | None:
    """Give a line whose numbers side by side about an index are a list of sizes: `53 (58) cm` for `53 58 cm`.

    None where fewer than two stand there, or their units differ. `cut` gives the text of a span.
    """
    first = last = min(at, len(items))
    while first and isinstance(items[first - 1], Number):
        first -= 1
    while last < len(items) and isinstance(items[last], Number):
        last += 1
    run = [item for item in items[first:last] if isinstance(item, Number)]
    units = {number.unit for number in run} - {None}
    if len(run) < 2 or len(units) > 1:
        return None
    head, *rest = (cut(number.span).removesuffix(number.unit or "").rstrip() for number in run)
    text = " ".join([f"{head} ({', '.join(rest)})", *(unit for unit in units if unit)])
    span = run[0].span.to(run[-1].span)
    values = PerSize(tuple(one.value for one in run), run[-1].unit, span, tuple(one.span for one in run))
    return Listed((*items[:first], values, *items[last:]), text, span)


def _before(span: Span, word: str) -> Span:
    return replace(span, end=span.end - len(word) - 1)


def _stands_for_itself(word: str, item: Item) -> bool:
    if word == "=":
        return isinstance(item, Equals)
    return isinstance(item, Name | Small) and item.text == word


def _run(items: Sequence[Item], at: int, fits: Callable[[Item], bool]) -> int:
    """Give the end of a run of names, `and` allowed between them."""
    while at < len(items):
        item = items[at]
        joined = isinstance(item, Small) and item.text == "and" and at + 1 < len(items) and fits(items[at + 1])
        if not joined and not fits(item):
            break
        at += 1
    return at
