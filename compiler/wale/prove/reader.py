"""From a printed line to what it says, for every size whose figures stand in its brackets.

Law: reading the line of several sizes and selecting one equals reading the line of that size alone.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from msgspec import Struct

from wale.prove.syntax import hand_parser, instruction_parser
from wale.prove.trees import BUILDERS, Node
from wale.prove.words import ChartRow, Instruction

if TYPE_CHECKING:
    from lark import Lark, Token, Tree

    from wale.prove.hand_words import HandLine

Said = TypeVar("Said", covariant=True)
"""What a line may say: `Instruction`, or a hand's line too."""

_FIGURES = re.compile(r"[0-9]+(?:st|nd|rd|th)? \(([0-9]+(?:st|nd|rd|th)?(?:, [0-9]+(?:st|nd|rd|th)?)*)\)")


class Unreadable(Exception):
    """A line is not in the controlled wording, or its brackets do not agree; the message says where.

    Attributes:
        place: offset in the line of the first word that does not fit.
        expected: what could stand there; empty where another thing is wrong.
    """

    def __init__(self, message: str, place: int = 0, expected: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.place, self.expected = place, expected


class Reading(Generic[Said], Struct, frozen=True):
    """A line as read.

    Attributes:
        text: the line.
        sizes: names in front of it; empty where it holds for all.
        instructions: one for each of its sizes, or a single one where no figure stands in brackets.
    """

    text: str
    sizes: tuple[str, ...]
    instructions: tuple[Said, ...]


def read(text: str) -> Reading[Instruction]:
    """Read a printed instruction.

    Raises:
        Unreadable: with the place of the first word that does not fit.
    """
    return _reading(text, _parse(text, "line", instruction_parser()), BUILDERS)


def read_by_hand(text: str) -> Reading[Instruction | HandLine]:
    """Read a printed instruction, or a line typed in by hand.

    Raises:
        Unreadable: by the wording that goes further.
    """
    try:
        return read(text)
    except Unreadable as printed:
        from wale.prove.hand_trees import HAND_BUILDERS

        try:
            return _reading(text, _parse(text, "hand", hand_parser()), HAND_BUILDERS)
        except Unreadable as typed:
            raise max((typed, printed), key=lambda error: error.place) from None


def _reading(text: str, tree: Tree[Token], builders: dict[str, Callable[[Node], Any]]) -> Reading[Any]:
    children = [child for child in tree.children if not isinstance(child, str)]
    sizes: tuple[str, ...] = ()
    if len(children) > 1:
        sizes = tuple(str(name).strip() for name in children[0].children)
    lengths = {bracket.count(",") + 2 for bracket in _FIGURES.findall(text)}
    if len(lengths) > 1:
        raise Unreadable(f"its brackets hold figures for {' and for '.join(map(str, sorted(lengths)))} sizes")
    count = lengths.pop() if lengths else 1
    if sizes and count not in (1, len(sizes)):
        raise Unreadable(f"it names {len(sizes)} sizes, but its brackets hold figures for {count}")
    instruction = children[-1]
    build = builders[instruction.data]
    return Reading(text, sizes, tuple(build(Node(instruction, size)) for size in range(count)))


def select(reading: Reading[Said], size: int) -> Said:
    """Give what a line says for one of its sizes (index among the sizes that it holds for)."""
    return reading.instructions[size if len(reading.instructions) > 1 else 0]


def lines_of(readings: Sequence[Reading[Said]], names: Sequence[str], size: int) -> list[tuple[str, Said]]:
    """Give the lines of one size of a pattern, each with its text.

    Args:
        names: all printed sizes, in the order of the brackets.

    Raises:
        Unreadable: a line's brackets do not hold as many figures as there are sizes, or it names an unknown size.
    """
    found: list[tuple[str, Said]] = []
    for reading in readings:
        who = reading.sizes or tuple(names)
        unknown = [name for name in who if name not in names]
        if unknown:
            raise Unreadable(f"there is no size {unknown[0]}: {reading.text}")
        if len(reading.instructions) not in (1, len(who)):
            raise Unreadable(f"its brackets hold figures for {len(reading.instructions)} sizes: {reading.text}")
        if names[size] in who:
            found.append((reading.text, select(reading, who.index(names[size]))))
    return found


def read_chart_row(label: str, text: str) -> ChartRow:
    """Read a chart's row in words, such as `Row 2 (WS)` and `3 rye, 1 flour`.

    Raises:
        Unreadable: with the place of the first word that does not fit.
    """
    tree = _parse(f"{label}: {text}", "chart_row", instruction_parser())
    row: ChartRow = BUILDERS["chart_row"](Node(tree, 0))
    return row


def _parse(text: str, start: str, parser: Lark) -> Tree[Token]:
    from lark import UnexpectedInput

    try:
        return parser.parse(text, start=start)
    except UnexpectedInput as error:
        at_end = getattr(getattr(error, "token", None), "type", "") == "$END"
        place = len(text) if at_end or error.pos_in_stream is None else error.pos_in_stream
        rest = text[place : place + 30] or "its end"
        names = getattr(error, "allowed", None) or getattr(error, "accepts", None) or ()
        expected = tuple(sorted({_told(name, parser) for name in names} - {""}))
        raise Unreadable(f"not in the controlled wording from `{rest}` on", place, expected) from None


_TERMS = {
    "FIGURE": "a number",
    "ORDINAL": "a number such as `4th`",
    "SIDE": "`(RS)` or `(WS)`",
    "STS": "`sts`",
    "ROW": "`rows` or `rounds`",
    "ROWS": "`rows` or `rounds`",
    "FLAT_ROWS": "`rows`",
    "ROUNDS": "`rounds`",
    "TIMES": "`times`",
    "ONCE": "`once` or `twice`",
    "LEFT": "`remain`",
    "TO_END": "`to the end`",
    "TO_DOUBLE": "`to the double stitch`",
    "WORK": "a stitch such as `k6`, `p2` or `sl1`",
    "SHAPED": "a shaped stitch such as `k2tog`",
    "NEEDLE": "a needle such as `3.5 mm`",
    "NAME": "a name",
    "PLACE": "a place",
    "STITCH": "`stockinette`, `garter` or `rib 2x2`",
    "TEXTURE": "`Garter`, `Seed`, `Moss` or `Rolled edge`",
    "RIB": "a rib such as `2x2`",
    "SIZE": "a size",
    "SEP": "`,`",
    "ALONG": "`along`",
    "WHICH": "`next` or `last`",
    "MANNER": "`loosely`",
    "$END": "the end of the line",
}


def _told(name: str, parser: Lark) -> str:
    """Give a terminal in knitting words, or "" for one that says nothing."""
    if name in _TERMS:
        return _TERMS[name]
    pattern = next((one.pattern.value for one in parser.terminals if one.name == name), "")
    return f"`{pattern}`" if pattern.strip() and "[" not in pattern and "(?" not in pattern else ""
