"""From a printed line to what it says, for every size whose figures stand in its brackets.

Law: reading the line of several sizes and selecting one equals reading the line of that size alone.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wale.prove.syntax import instruction_parser
from wale.prove.trees import BUILDERS, Node
from wale.prove.words import ChartRow, Instruction

if TYPE_CHECKING:
    from lark import Token, Tree

_FIGURES = re.compile(r"[0-9]+(?:st|nd|rd|th)? \(([0-9]+(?:st|nd|rd|th)?(?:, [0-9]+(?:st|nd|rd|th)?)*)\)")


class Unreadable(Exception):
    """A line is not in the controlled wording, or its brackets do not agree; the message says where."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A line as read.

    Attributes:
        text: the line.
        sizes: names in front of it; empty where it holds for all.
        instructions: one for each of its sizes, or a single one where no figure stands in brackets.
    """

    text: str
    sizes: tuple[str, ...]
    instructions: tuple[Instruction, ...]


def read(text: str) -> Reading:
    """Read a printed instruction.

    Raises:
        Unreadable: with the place of the first word that does not fit.
    """
    tree = _parse(text, "line")
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
    build: Callable[[Node], Instruction] = BUILDERS[instruction.data]
    return Reading(text, sizes, tuple(build(Node(instruction, size)) for size in range(count)))


def select(reading: Reading, size: int) -> Instruction:
    """Give what a line says for one of its sizes (index among the sizes that it holds for)."""
    return reading.instructions[size if len(reading.instructions) > 1 else 0]


def lines_of(readings: Sequence[Reading], names: Sequence[str], size: int) -> list[tuple[str, Instruction]]:
    """Give the lines of one size of a pattern, each with its text.

    Args:
        names: all printed sizes, in the order of the brackets.

    Raises:
        Unreadable: a line's brackets do not hold as many figures as there are sizes, or it names an unknown size.
    """
    found = []
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
    tree = _parse(f"{label}: {text}", "chart_row")
    row: ChartRow = BUILDERS["chart_row"](Node(tree, 0))
    return row


def _parse(text: str, start: str) -> Tree[Token]:
    from lark import UnexpectedInput

    try:
        return instruction_parser().parse(text, start=start)
    except UnexpectedInput as error:
        at_end = getattr(getattr(error, "token", None), "type", "") == "$END"
        place = len(text) if at_end or error.pos_in_stream is None else error.pos_in_stream
        rest = text[place : place + 30] or "its end"
        raise Unreadable(f"not in the controlled wording from `{rest}` on") from None
