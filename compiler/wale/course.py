"""Courses: stretches of a piece that are told row by row, such as the heel of a sock.

A course is data: numbers as formulas over the stitches that it begins with, and the lines that tell it, each with the
rows that it has to make. What is worked out here is the plan's side; the proof knits the printed words instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.formula import Values, reckon

NumberUnit = Literal["sts", "rows", "rounds", "times"]


class Number(Struct, frozen=True):
    """A number of a course: whole; its formula names `before`, the stitches it begins with, and numbers above it."""

    name: str
    formula: str
    unit: NumberUnit


class Made(Struct, frozen=True):
    """Rows that a line makes, all formulas; `i` counts them from 1.

    Attributes:
        worked, after: stitches worked on the row, and on the needle after it, waiting ones included.
        times: how many rows.
        sides: by turns, "RS", "WS" or "round".
        waiting: stitches at the right end, seen from the right side, that are not worked on it.
    """

    worked: str
    after: str
    times: str = "1"
    sides: tuple[str, ...] = ("round",)
    waiting: str = "0"


def rounds(stitches: str, times: str) -> tuple[Made, ...]:
    """Give `times` rounds, each worked over all the stitches that it leaves."""
    return (Made(stitches, stitches, times),)


class Passage(Struct, frozen=True):
    """A line of a course.

    Attributes:
        slot: end of its address.
        lead: what is set bold before it.
        words: its text; `{name}` is a number, `{name!sts}` one with its word, `{name!times}` one said as often,
            `{name!rounds}` one of rounds; `{yarn}` is the yarn in work.
        made: the rows that it makes.
        when: it is told only where this is more than 0.
        is_remark: it instructs nothing.
        fabric: of its rows, where it is another than that of its part.
        moves: formula of the stitches by which it moves the start of the round, "" where it does not.
        marks: where its one row places markers, formulas of the stitches before each of them, after that row.
    """

    slot: str
    words: str
    lead: str = ""
    made: tuple[Made, ...] = ()
    when: str = "1"
    is_remark: bool = False
    fabric: str = ""
    moves: str = ""
    marks: tuple[str, ...] = ()


def starts_after(number: str, slot: str = "start") -> Passage:
    """Give the line by which a round starts so many stitches later, the number of that name."""
    return Passage(slot, f"Knit {{{number}!sts}}; the round starts here.", moves=f"{{{number}}}")


class Loop(Struct, frozen=True):
    """Lines that are told together, `each` times; `n` counts from 1, and each time has numbers of its own.

    `by` names the number that tells the times apart in addresses; lines of the same address stand together in print.
    """

    each: str
    numbers: tuple[Number, ...]
    passages: tuple[Passage, ...]
    by: str = "n"


class Girth(Struct, frozen=True):
    """A finished girth of a part that is no level of its piece, such as that of a sleeve.

    Attributes:
        label: as tables name it.
        number: the number of its stitches.
        slot: the width that its line, or that of the course it follows, asks for.
        rows: formula of the rows of the part below it; 0 for the stitches with which its first row begins.
        is_edge: it is bound off there.
    """

    label: str
    number: str
    slot: str
    rows: str
    is_edge: bool = False


class Part(Struct, frozen=True):
    """A part of a course that is a section of its own.

    Attributes:
        folds: the name of the place at its start from which lengths of the piece count anew, or "".
        is_shaped: it is drawn as wide as its stitches are.
        is_aside: it adds nothing to the length of the piece.
        girths: of what is worked aside.
        fabric: "stockinette", "garter" or a rib ("rib 1x1"): how plain stitches of its rows look; "" for more than one.
    """

    name: str
    lines: tuple[Passage | Loop, ...]
    folds: str = ""
    is_shaped: bool = False
    is_aside: bool = False
    girths: tuple[Girth, ...] = ()
    fabric: str = "stockinette"


class Final(Struct, frozen=True):
    """Stitches that a course ends: the name of their number, and whether they are drawn together, or else bound off."""

    number: str
    is_drawn: bool


class Bound(Struct, frozen=True):
    """A rule for the width after a course: `after` x stitches after + `before` x those before, within two formulas.

    The formulas name the slots and `fixed` numbers; "" for no limit, and where no stitches count 0 is within.
    `why` says it in words. `arm` x the stitches of a sleeve are added where the course stands in joined pieces.
    """

    after: int
    before: int
    least: str
    most: str
    why: str
    arm: int = 0


class Course(Struct, frozen=True):
    """A stretch told row by row.

    Attributes:
        form: how its line is written, "heel flap". Its slots are widths and lengths in cm, named by the word before
            them: `over LENGTH` is `{over}`; `sts_per_cm` and `rows_per_cm` are the gauge.
        options: further words of the line, with slots; all are needed.
        way: a last word of the line that tells it from another course of the same form, "bound off".
        example: a whole line, for problems.
        follows: lines of courses of which one stands above it in the same piece, whose numbers it may name.
        numbers: in order.
        parts: in order.
        modulus, residue: what the stitches it begins with are divided by, and what that leaves.
        in_round: it is worked in the round, else flat.
        begins: how the cast-on is that it begins a piece on; "" where it has rows below it.
        is_joined: it stands in a piece that joins a body and its sleeves, before their stitches change: a sleeve, the
            front, the other sleeve and the back, in working order; a sleeve's stitches are `{arm}`.
        at_back: its rounds begin in the middle of the back, as those of joined pieces do above a course of theirs.
        in_motif: a motif may go on through it: `{motif}` is then 1, else 0, and no row is its own.
        in_garter: it may stand in a swatch of garter, at whose gauge it is: `{garter}` is then 1, else 0.
        least: the fewest stitches that it can begin with.
        why: both in words.
        to: name of the slot that is the width after it, whose stitches are `{after}`; "" where they are as before.
        fixed: numbers that follow from its slots alone.
        step, offset: `after` - `before` - `offset` is a multiple of `step`.
        bounds: what `after` and `before` have to keep.
        final: how it ends the piece; None where the piece goes on.
    """

    form: str
    numbers: tuple[Number, ...]
    parts: tuple[Part, ...]
    modulus: int = 1
    least: int = 1
    why: str = ""
    final: Final | None = None
    options: tuple[str, ...] = ()
    example: str = ""
    to: str = ""
    fixed: tuple[Number, ...] = ()
    step: int = 1
    offset: str = "0"
    bounds: tuple[Bound, ...] = ()
    residue: int = 0
    in_round: bool = True
    follows: tuple[str, ...] = ()
    way: str = ""
    begins: Literal["", "open", "closed"] = ""
    is_joined: bool = False
    at_back: bool = False
    in_motif: bool = False
    in_garter: bool = False

    @property
    def line(self) -> str:
        """Its form and way, which no other course has."""
        return f"{self.form}, {self.way}" if self.way else self.form

    @property
    def is_apart(self) -> bool:
        """Whether it has stitches of its own, worked when all others have their end."""
        return self.final is not None and all(part.is_aside for part in self.parts)

    def worked_out(self, before: int, given: Values | None = None) -> dict[str, Fraction]:
        """Give the numbers for the stitches that it begins with, those too, and whatever else is given."""
        plain = {name for name, goes in (("motif", self.in_motif), ("garter", self.in_garter)) if goes}
        return _worked_out(
            (*self.fixed, *self.numbers),
            {**dict.fromkeys(plain, Fraction(0)), **(given or {}), "before": Fraction(before)},
        )

    def settled(self, given: Values) -> dict[str, Fraction]:
        """Give the numbers that follow from the slots alone."""
        return _worked_out(self.fixed, given)


class MadeRow(Struct, frozen=True):
    """One row of a course, as planned; the fields of `Made` worked out, and the fabric that it is in."""

    side: str
    worked: int
    after: int
    waiting: int
    fabric: str


class Told(Struct, frozen=True):
    """A line that a size has: its passage, the end of its address, and its numbers, those of its loop last."""

    passage: Passage
    slot: str
    numbers: Values


def told(part: Part, numbers: Values) -> Iterator[Told]:
    """Give the lines of a part that a size has, in order."""
    for line in part.lines:
        if isinstance(line, Passage):
            if reckon(line.when, numbers) > 0:
                yield Told(line, line.slot, numbers)
            continue
        for own in times(line, numbers):
            for passage in (one for one in line.passages if reckon(one.when, own) > 0):
                yield Told(passage, f"{passage.slot}[{int(own[line.by])}]", own)


def times(loop: Loop, numbers: Values) -> Iterator[dict[str, Fraction]]:
    """Give the numbers of each time that the lines of a loop are told."""
    for n in range(1, int(reckon(loop.each, numbers)) + 1):
        yield _worked_out(loop.numbers, {**numbers, "n": Fraction(n)})


def rows_made(part: Part, numbers: Values) -> tuple[MadeRow, ...]:
    """Give the rows of a part in order."""
    found = []
    for one in told(part, numbers):
        values = one.numbers
        for made in one.passage.made:
            for i in range(1, int(reckon(made.times, values)) + 1):
                found.append(_row(made, i, {**values, "i": Fraction(i)}, one.passage.fabric or part.fabric))
    return tuple(found)


def starts_moved(part: Part, numbers: Values) -> tuple[tuple[int, int], ...]:
    """Give where lines of a part move the start of the round: the rows of the part before it, and the stitches."""
    found, rows = [], 0
    for one in told(part, numbers):
        if one.passage.moves:
            found.append((rows, int(reckon(one.passage.moves, one.numbers))))
        for made in one.passage.made:
            rows += max(0, int(reckon(made.times, one.numbers)))
    return tuple(found)


def marks_placed(part: Part, numbers: Values) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Give where a part places markers: its row, from 1, and the stitches before each marker."""
    found, rows = [], 0
    for one in told(part, numbers):
        if one.passage.marks:
            found.append((rows + 1, tuple(int(reckon(mark, one.numbers)) for mark in one.passage.marks)))
        for made in one.passage.made:
            rows += max(0, int(reckon(made.times, one.numbers)))
    return tuple(found)


def _worked_out(numbers: tuple[Number, ...], known: Values) -> dict[str, Fraction]:
    values = dict(known)
    for one in numbers:
        values[one.name] = reckon(one.formula, values)
        if values[one.name].denominator != 1:
            raise ValueError(f"{one.name} = {one.formula} is no whole number")
    return values


def _row(made: Made, number: int, values: Values, fabric: str) -> MadeRow:
    worked, after, waiting = (int(reckon(one, values)) for one in (made.worked, made.after, made.waiting))
    return MadeRow(made.sides[(number - 1) % len(made.sides)], worked, after, waiting, fabric)
