"""A trial: a piece knitted as far as its words go, without a plan to hold it against."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from wale.prove.charts import Charts
from wale.prove.fabric import Contradiction, Row, Stated
from wale.prove.hand_words import HandLine
from wale.prove.machine import Machine
from wale.prove.mirrored import is_left_handed, mirrored, mirrored_row
from wale.prove.words import Instruction


class Stop(Struct, frozen=True):
    """Where the words could not be worked: index of the line, rows worked before, and why."""

    line: int
    row: int
    message: str


class Trial(Struct, frozen=True):
    """What came off the needles.

    Attributes:
        rows: all rows worked, in order.
        stated: what the text states, point by point.
        live, held, bound_off, drawn: stitches at the end: on the needle, on each holder, bound off, drawn together.
        stop: where it could not go on, or None.
    """

    piece: str
    size: str
    cast_on: int
    rows: tuple[Row, ...]
    stated: tuple[Stated, ...]
    live: int
    held: tuple[int, ...]
    bound_off: int
    drawn: int
    stop: Stop | None

    @property
    def stitches(self) -> int:
        """Stitches worked in all."""
        return sum(len(row.ops) for row in self.rows)


def work_through(piece: str, size: str, lines: Sequence[tuple[str, Instruction | HandLine]], charts: Charts) -> Trial:
    """Knit one piece in one size as far as it goes; words for the left hand are mirrored first.

    Args:
        lines: the lines and what they say, in order.
    """
    machine = Machine(charts, is_strict=False)
    needles, stop = machine.needles, None
    is_left = is_left_handed(said for _, said in lines)
    try:
        for number, (_, said) in enumerate(lines):
            needles.line = number
            machine.work(mirrored(said) if is_left and not isinstance(said, HandLine) else said)
        machine.finish()
    except Contradiction as error:
        stop = Stop(needles.line, needles.done, str(error))
    held = (*(count for count in needles.held.values() if count), *needles.holders)
    rows, stated = tuple(needles.rows), tuple(needles.stated)
    if is_left:
        rows = tuple(map(mirrored_row, rows))
    live = needles.count
    return Trial(piece, size, needles.cast_on, rows, stated, live, held, needles.bound_off, needles.drawn, stop)
