"""The work in its order, row by row, with the yarn that each row takes: where yarn runs out, and what is used so far.

Order: each piece as often as it is made, the bands, then making up and pom-poms. Rows count from the cast-on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.plan import Plan
from wale.spec import Spec
from wale.write.as_knitted import correction_of
from wale.write.context import Context
from wale.write.finishing import MAKING_UP, Finish, finish_grams, finishing
from wale.write.stitch_counts import Row, band_rows, worked_rows
from wale.write.yarn_needed import pom_pom_uses
from wale.write.yarn_used import NONE, ZERO, Correct, Rates, Spread, Use, Uses


class Event(Struct, frozen=True):
    """A row, or what is done before the first and after the last one.

    Attributes:
        place: piece, band or `MAKING_UP`; `copy` from 1 of `copies`.
        row: rows worked then, counted from the cast-on; 0 for the cast-on itself.
        rows: all rows of the place.
        what: "row", or the thing done: "cast-on", "bind-off", ...
        use: yarn of the row; `ends` grams of what is done.
    """

    place: str
    copy: int
    copies: int
    row: int
    rows: int
    what: str
    use: Uses
    ends: Mapping[str, Fraction]

    @property
    def words(self) -> str:
        """Say where it is: "row 84 of 162 of the back", "the bind-off of sleeve 2"."""
        if self.place == MAKING_UP:
            return MAKING_UP
        place = f"{self.place} {self.copy}" if self.copies > 1 else f"the {self.place}"
        return f"row {self.row} of {self.rows} of {place}" if self.what == "row" else f"the {self.what} of {place}"


def events(spec: Spec, plan: Plan, size: int, rates: Rates) -> tuple[Event, ...]:
    """Give the whole work of a garment in one size."""
    ends = finishing(spec, plan, size)
    found: list[Event] = []
    for number, piece in enumerate(plan.pieces):
        rows = worked_rows(Context(spec, plan, piece, size))
        mine = [end for end in ends if end.piece == piece.name]
        correct = correction_of(spec, plan, number, size, rates)
        for copy in range(1, piece.make + 1):
            found += _place(spec, rates, correct, piece.name, (copy, piece.make), rows, mine)
    for number, band in enumerate(plan.bands):
        rows = band_rows(spec, plan, number, size)
        mine = [end for end in ends if end.piece == band.name]
        correct = correction_of(spec, plan, len(plan.pieces) + number, size, rates)
        for copy in range(1, band.make + 1):
            found += _place(spec, rates, correct, band.name, (copy, band.make), rows, mine)
    last = finish_grams(spec, [end for end in ends if end.piece == MAKING_UP])
    for yarn, grams in pom_pom_uses(spec, plan, size).items():
        last[yarn] = last.get(yarn, ZERO) + grams
    if last:
        found.append(Event(MAKING_UP, 1, 1, 0, 0, MAKING_UP, {}, last))
    return tuple(found)


def _place(
    spec: Spec,
    rates: Rates,
    correct: Correct | None,
    name: str,
    copy: tuple[int, int],
    rows: Sequence[Row],
    ends: Sequence[Finish],
) -> Iterable[Event]:
    known: dict[frozenset[tuple[object, int]], Uses] = {}
    total = len(rows)
    for end in ends:
        if end.what == "cast-on":
            yield Event(name, *copy, 0, total, end.what, {}, finish_grams(spec, [end]))
    for number, row in enumerate(rows, 1):
        key = frozenset(row.items())
        if key not in known:
            known[key] = rates.of(row, correct)
        yield Event(name, *copy, number, total, "row", known[key], {})
    for end in ends:
        if end.what != "cast-on":
            yield Event(name, *copy, total, total, end.what, {}, finish_grams(spec, [end]))


def used(work: Iterable[Event], yarn: str) -> Use:
    """Give what some events take of a yarn, by both ways, ends included."""
    ways: list[Spread | None] = [NONE, NONE]
    for event in work:
        use = event.use.get(yarn)
        grams = event.ends.get(yarn, ZERO)
        for number, way in enumerate((use.by_weight, use.by_loop) if use is not None else (NONE, NONE)):
            before = ways[number]
            more = way + Spread(grams, grams, grams) if way is not None else None
            ways[number] = before + more if before is not None and more is not None else None
    return Use(*ways)


class RunOut(Struct, frozen=True):
    """Where a yarn runs out: at the earliest (it takes the most) and at the latest; None: it lasts.

    `index` is the place of `earliest` in the work, by which yarns are ordered.
    """

    yarn: str
    on_hand: Fraction
    earliest: Event | None
    latest: Event | None
    index: int


def run_outs(work: Sequence[Event], on_hand: Mapping[str, Fraction]) -> tuple[RunOut, ...]:
    """Give where each yarn of a known stock runs out, the first one first; yarns of which the need is not known: none.

    Args:
        work: the events in order.
        on_hand: grams by yarn when the work begins.
    """
    found = [one for yarn, grams in on_hand.items() if (one := _run_out(work, yarn, grams)) is not None]
    return tuple(sorted(found, key=lambda one: one.index))


def _run_out(work: Sequence[Event], yarn: str, on_hand: Fraction) -> RunOut | None:
    low, high = [ZERO, ZERO], [ZERO, ZERO]
    earliest: int | None = None
    ways = [True, True]
    for index, event in enumerate(work):
        use, ends = event.use.get(yarn), event.ends.get(yarn, ZERO)
        if use is None and not ends:
            continue
        for number, way in enumerate((use.by_weight, use.by_loop) if use is not None else (NONE, NONE)):
            if way is None:
                ways[number] = False
                continue
            low[number] += way.low + ends
            high[number] += way.high + ends
        known = [number for number in (0, 1) if ways[number]]
        if not known:
            return None
        if earliest is None and max(high[number] for number in known) > on_hand:
            earliest = index
        if min(low[number] for number in known) > on_hand:
            assert earliest is not None
            return RunOut(yarn, on_hand, work[earliest], event, earliest)
    if earliest is None:
        return RunOut(yarn, on_hand, None, None, len(work))
    return RunOut(yarn, on_hand, work[earliest], None, earliest)
